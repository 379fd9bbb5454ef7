//! Time of a whole order: `cargo bench --bench order`. Prints wall and processor time of the fastest of some runs; on a
//! shared machine the processor time is the one to compare.
#![allow(missing_docs, clippy::unwrap_used, clippy::print_stdout)]

use std::time::{Duration, Instant};
use weldbow::job::file_of_text;
use weldbow::order::{DRAWS, Line, WorkOrder, run};
use weldbow::shop::read_text;
use weldbow::straighten::piece::Fabrication;
use weldbow::units::System;

const MARKS: usize = 500;
const RUNS: usize = 3;
/// Seconds that an order may take on two cores.
const WANTED_S: f64 = 5.0;

fn main() {
    let lines: Vec<Line> = (0..MARKS).map(line).collect();
    let shop = read_text("shop.toml", &file("studies/shop/shop.toml")).unwrap();
    let order = WorkOrder {
        lines: &lines,
        weeks: Some(6),
        draws: DRAWS,
        making: Fabrication::default(),
        shop: &shop,
        capacity_h: None,
        heat_capacity_h: None,
        system: System::Si,
        verdicts: false,
    };
    let (mut wall, mut cpu) = (Duration::MAX, Duration::MAX);
    for number in 1..=RUNS {
        let (started, before) = (Instant::now(), processor());
        let found = run(&order, |_| ()).unwrap();
        let (took, used) = (started.elapsed(), processor() - before);
        wall = wall.min(took);
        cpu = cpu.min(used);
        let plans: usize = found.marks.iter().map(|m| m.plans).sum();
        let t = &found.totals;
        println!(
            "run {number}: {took:.2?}, processor {used:.2?}; {} marks, {plans} full plans, {:.0} of {} pieces, {:.0} h",
            found.marks.len(),
            t.needing.expected,
            found.quantity,
            t.hours.expected
        );
    }
    let cores = rayon::current_num_threads();
    println!(
        "fastest: {wall:.2?} on {cores} cores, processor {cpu:.2?}: {:.2?} a mark; {WANTED_S} s wanted",
        cpu / MARKS as u32
    );
}

/// Members of five makes with plates, depth, length and legs of their own.
fn line(i: usize) -> Line {
    let part = |of: usize, n: usize| (i * of % n) as f64 / n as f64;
    let (length, deep) = (6.0 + 8.0 * part(7, 31), 350.0 + 500.0 * part(11, 23));
    let start = deep * (0.5 + 0.5 * part(5, 9));
    let (web, flange) = (4.0 + (i % 5) as f64, 6.0 + (i * 3 % 9) as f64);
    let (width, leg) = (140.0 + 20.0 * (i * 7 % 6) as f64, 4.0 + (i % 3) as f64);
    let inner = flange + [0.0, 2.0, 4.0][i % 3];
    let both = i % 4 == 1;
    let mut passes = String::new();
    for (side, order) in [("near", 1), ("far", 2)].into_iter().take(if both { 2 } else { 1 }) {
        for seam in ["outer", "inner"] {
            passes += &format!(
                "[[pass]]\nseam = \"{seam}\"\nside = \"{side}\"\nleg = \"{leg} mm\"\norder = {order}\n"
            );
        }
    }
    let text = format!(
        "title = \"member {i}\"\n[member]\nlength = \"{length} m\"\nsteel = \"S355\"\n\
         depth = [[\"0 m\", \"{start} mm\"], [\"{length} m\", \"{deep} mm\"]]\nweb = [{{ thickness = \"{web} mm\" }}]\n\
         outer_flange = [{{ width = \"{width} mm\", thickness = \"{flange} mm\" }}]\n\
         inner_flange = [{{ width = \"{width} mm\", thickness = \"{inner} mm\" }}]\n{passes}"
    );
    Line {
        mark: format!("M{i}"),
        path: String::new(),
        file: file_of_text("member.toml", &text).unwrap(),
        quantity: 1 + (i % 12) as u32,
        week: None,
        family: None,
    }
}

fn file(path: &str) -> String {
    std::fs::read_to_string(format!("{}/{path}", env!("CARGO_MANIFEST_DIR"))).unwrap()
}

/// Processor time of all threads so far; none where the system does not tell it in this way.
fn processor() -> Duration {
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let after = stat.rsplit(')').next().unwrap_or_default();
    let ticks: u64 = after.split_whitespace().skip(11).take(2).filter_map(|t| t.parse::<u64>().ok()).sum();
    // a tick is 10 ms on every common system
    Duration::from_millis(10 * ticks)
}
