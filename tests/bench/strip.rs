//! Time of the strip model: `cargo bench --bench strip`, on an idle machine. `cargo bench --bench strip -- sections [COUNT] [SEED]` welds that
//! many sections drawn at random instead, ten thousand if nothing is said, and prints how many have no answer.
#![allow(missing_docs, dead_code, clippy::unwrap_used, clippy::print_stdout)]

#[path = "../support/drawn.rs"]
mod drawn;
#[path = "../support/mod.rs"]
mod support;

use divan::{Bencher, black_box, counter::ItemsCount};
use weldbow::joint_solver::{SectionSteel, ThermalTable, USUAL_SPEED_MM_S};
use weldbow::member::{Plates, Seam};
use weldbow::prediction::{Job, predict_strip};
use weldbow::strip::{StripBead, StripJob, StripSection, StripSettings, StripStage, weld};
use weldbow::welding::Side;

/// Sections welded if no number is given.
const SECTIONS: u64 = 10_000;

fn sections(numbers: &[u64]) {
    let [count, seed] = [(0, SECTIONS), (1, 1)].map(|(at, usual)| numbers.get(at).copied().unwrap_or(usual));
    let start = std::time::Instant::now();
    let tried = drawn::try_sections(seed, count);
    println!(
        "{} failures in {count} random sections of seed {seed}; heat balance to {:.0e}, {} steps halved, {:.0?}",
        tried.failures.len(),
        tried.balance,
        tried.halved,
        start.elapsed()
    );
    tried.failures.iter().for_each(|failure| println!("  {failure}"));
}

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    if words.iter().any(|word| word == "sections") {
        let numbers: Vec<u64> = words.iter().filter_map(|word| word.parse().ok()).collect();
        return sections(&numbers);
    }
    let table = ThermalTable::steel();
    for (name, job) in [("light", light()), ("usual", usual()), ("heavy", heavy())] {
        let e = weld(&job, &table).unwrap().effort;
        println!(
            "{name}: {} temperatures, {} bars, {} steps, {} corrections of the plane, {} of temperatures, {} halved",
            e.unknowns, e.bars, e.steps, e.iterations, e.heat_iterations, e.cuts
        );
    }
    for (name, job) in [("two passes", support::rafter()), ("four passes", four_passes())] {
        let notes = predict_strip(&job).unwrap().strip.unwrap();
        println!(
            "rafter, {name}: {} stations, {} steps, {:.2} % between stations",
            notes.stations,
            notes.steps,
            100.0 * notes.station_gap
        );
    }
    divan::main();
}

/// Both fillets of the outer seam, one after the other.
fn two_passes(plates: Plates, depth_mm: f64, leg_mm: f64, heat_j_per_mm: f64) -> StripJob {
    let turn = |side| {
        let bead =
            StripBead { seam: Seam::Outer, side, leg_mm, heat_j_per_mm, travel_speed_mm_s: USUAL_SPEED_MM_S };
        StripStage::cold(vec![bead])
    };
    let section = StripSection::of_plates(&plates, depth_mm);
    let turns = [Side::Near, Side::Far].map(turn).to_vec();
    StripJob::new(section, SectionSteel::hot(355.0), turns, StripSettings::STANDARD)
}

fn light() -> StripJob {
    two_passes(Plates { web_mm: 4.0, outer_mm: (125.0, 6.0), inner_mm: (125.0, 6.0) }, 300.0, 4.0, 500.0)
}

fn usual() -> StripJob {
    two_passes(Plates { web_mm: 6.0, outer_mm: (200.0, 12.0), inner_mm: (200.0, 12.0) }, 600.0, 6.0, 1004.0)
}

fn heavy() -> StripJob {
    two_passes(Plates { web_mm: 10.0, outer_mm: (300.0, 25.0), inner_mm: (300.0, 25.0) }, 900.0, 8.0, 1700.0)
}

fn four_passes() -> Job {
    let rafter = support::rafter();
    let mut passes = rafter.passes.clone();
    let far = |mut p: weldbow::welding::Pass| {
        (p.side, p.order) = (Side::Far, 2);
        p
    };
    passes.extend(rafter.passes.iter().cloned().map(far));
    support::job(rafter.member, passes)
}

#[divan::bench(args = ["light", "usual", "heavy"])]
fn station_two_passes(bencher: Bencher, name: &str) {
    let (table, job) = (
        ThermalTable::steel(),
        match name {
            "light" => light(),
            "usual" => usual(),
            _ => heavy(),
        },
    );
    bencher.counter(ItemsCount::new(1_usize)).bench(|| weld(black_box(&job), &table).unwrap());
}

/// Taper with a kink, three flange pieces, both seams at once; on all cores.
#[divan::bench]
fn rafter_two_passes(bencher: Bencher) {
    let job = support::rafter();
    bencher.counter(ItemsCount::new(1_usize)).bench(|| predict_strip(black_box(&job)).unwrap());
}

/// The same turned over and welded on the other side too.
#[divan::bench]
fn rafter_four_passes(bencher: Bencher) {
    let job = four_passes();
    bencher.counter(ItemsCount::new(1_usize)).bench(|| predict_strip(black_box(&job)).unwrap());
}
