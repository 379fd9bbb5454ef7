//! The travelling arc beside the table of joints in three dimensions, its refinement, what holds do, three ways side by side, and the time it takes:
//! `cargo bench --bench moving -- WHAT`, on an idle machine; some minutes. WHAT is `table` (coarse; `table standard` for finer slices), `refine`, `holds`,
//! `both-sides`, `runs`, `three`, `range` or `time`; all without it. What it printed is kept in reference-cases/moving_slices.md, of `range` (the
//! lines of reference-cases/moving_range.csv anew, a quarter of an hour) in that table.
#![allow(missing_docs, clippy::unwrap_used, clippy::panic, clippy::print_stdout)]

mod moving_runs;
#[path = "../support/moving_table.rs"]
mod moving_table;

use moving_table::Row;
use weldbow::joint_solver::{Fineness, SectionSteel, Sequence, SolverSettings};
use weldbow::moving_arc::{Foot, Grip, Travel, Travelled, travel};
use weldbow::verification::{Meshing, Options, travel_of, verify};
use weldbow::welding::{Side, Wait};

/// How finely slices, time and mesh are cut.
#[derive(Clone, Copy)]
struct Cut {
    /// Slices and steps of the product.
    like: Meshing,
    every_mm: Option<f64>,
    step_mm: Option<f64>,
    fineness: Fineness,
}

const COARSE: Cut = Cut { like: Meshing::Coarse, every_mm: None, step_mm: None, fineness: Fineness::COARSE };
const STANDARD: Cut = Cut { like: Meshing::Standard, ..COARSE };
/// Two elements a leg become four.
const HALF: Fineness = Fineness { per_leg: 4, even: 6, growth: 1.2 };

/// A row as the arc travels along it.
trait Arc {
    fn in_words(&self) -> String;
    fn changes_the_other_calculation(&self) -> bool;
    fn travel(&self, cut: Cut) -> Travel;
    fn sequence(&self, cut: Cut, foot: Foot) -> Sequence;
    fn travelled(&self, cut: Cut) -> Option<Travelled>;
}

impl Arc for Row {
    fn in_words(&self) -> String {
        format!(
            "{}, {} mm/s, {} mm, {}, tacks {}, {}, {}",
            self.named(),
            self.speed(),
            self.length(),
            self.foot(),
            self.tacks(),
            self.yield_mpa(),
            self.change()
        )
    }

    /// Changes of its mesh and step.
    fn changes_the_other_calculation(&self) -> bool {
        ["mesh", "half", "spacing"].iter().any(|word| self.change().starts_with(word))
    }

    fn travel(&self, cut: Cut) -> Travel {
        let length = self.length();
        let tacks_mm = match self.tacks() {
            "two" => vec![[50.0, 80.0], [length - 50.0, length - 20.0]],
            "leading end" => vec![[0.0, 30.0]],
            "every 100 mm" => (0..)
                .map(|k| 100.0 * f64::from(k))
                .take_while(|x| x + 20.0 <= length)
                .map(|x| [x, x + 20.0])
                .collect(),
            _ => vec![],
        };
        let usual = travel_of(&self.case(), cut.like, length);
        Travel {
            foot: match self.foot() {
                "apart" => Foot::Apart,
                "touching" => Foot::Touching,
                _ => Foot::OnePiece,
            },
            tacks_mm,
            grip: match self.change() {
                "held square until cold" => Grip::Square,
                "web guided" => Grip::Guided,
                "rolls" => Grip::Rolls(60.0),
                _ => Grip::Free,
            },
            slices: cut.every_mm.map_or(usual.slices, |every| (length / every).round() as usize),
            step_mm: cut.step_mm.unwrap_or(usual.step_mm),
            ..usual
        }
    }

    fn sequence(&self, cut: Cut, foot: Foot) -> Sequence {
        let joint = self.joint();
        let radius = if self.change().starts_with("source") { 0.72 * 9.0 } else { 9.0 };
        let settings =
            SolverSettings { source_legs: radius / self.leg(), tolerance: 3e-4, ..SolverSettings::STANDARD };
        let steel = SectionSteel::hot(self.yield_mpa());
        let mut sequence = Sequence::of_joint(&joint, cut.fineness, steel, settings).unwrap();
        if foot != Foot::OnePiece {
            sequence.mesh = joint.mesh_parted(cut.fineness).unwrap();
        }
        let (near, far) = ((Side::Near, self.heat()), (Side::Far, self.heat()));
        let laid = match self.laid() {
            "both at once" => sequence.weld(&joint, &[near, far], Wait::Cold),
            "both in turn" => {
                sequence.weld(&joint, &[near], Wait::Cold).unwrap().weld(&joint, &[far], Wait::Cold)
            }
            _ => sequence.weld(&joint, &[near], Wait::Cold),
        };
        laid.unwrap()
    }

    fn travelled(&self, cut: Cut) -> Option<Travelled> {
        let asked = self.travel(cut);
        travel(&self.sequence(cut, asked.foot), &self.joint(), &asked, &mut |_| true).ok()
    }
}

fn main() {
    let words: Vec<String> = std::env::args().skip(1).filter(|word| !word.starts_with("--")).collect();
    let wants = |word: &str| words.is_empty() || words.iter().any(|one| one == word);
    if wants("table") {
        table(if words.iter().any(|word| word == "standard") { STANDARD } else { COARSE });
    }
    if wants("refine") {
        refine();
    }
    if wants("holds") {
        holds();
    }
    if wants("both-sides") {
        both_sides();
    }
    if wants("three") {
        three();
    }
    if wants("range") {
        range();
    }
    if wants("time") {
        time();
    }
    if wants("runs") {
        moving_runs::runs();
    }
}

fn table(cut: Cut) {
    println!("| joint | cup there, here | off by | tilt there, here | off by | narrowing there, here | s |");
    println!("|---|---|---|---|---|---|---|");
    let (mut cups, mut tilts, mut lines) = (Vec::new(), Vec::new(), Vec::new());
    for row in moving_table::table() {
        if row.changes_the_other_calculation() {
            continue;
        }
        let Some(out) = row.travelled(cut) else {
            println!("| {} | no result |", row.in_words());
            continue;
        };
        let [cup, tilt, narrowing] = shape(&out);
        let (cup_there, tilt_there) = (row.cup(), row.tilt());
        cups.push(cup / cup_there - 1.0);
        if row.fitted() {
            let [q, l, f, w, z] = [row.heat(), row.length(), row.flange(), row.web(), row.leg()];
            lines.push(format!("{q},{l},{f},{w},{z},{cup:.1},{tilt:.1}"));
        }
        // what two sides leave of a tilt is too small to divide by
        if tilt_there.abs() > 10.0 {
            tilts.push((tilt - tilt_there) / tilt_there);
        }
        println!(
            "| {} | {cup_there:.1}, {cup:.1} | {:+.0} % | {tilt_there:.1}, {tilt:.1} | {} | {:.3}, {narrowing:.3} | {:.0} |",
            row.in_words(),
            100.0 * (cup / cup_there - 1.0),
            if tilt_there.abs() > 10.0 {
                format!("{:+.0} %", 100.0 * (tilt / tilt_there - 1.0))
            } else {
                format!("{:+.1} mrad", tilt - tilt_there)
            },
            row.narrowing(),
            out.took.as_secs_f64()
        );
    }
    println!("\nlines of studies/referee/long/slices.csv:\n{}\n", lines.join("\n"));
    for (name, off, within) in [("cup", &cups, 0.10), ("tilt", &tilts, 0.15)] {
        let mean = off.iter().sum::<f64>() / off.len() as f64;
        let rms = (off.iter().map(|o| o * o).sum::<f64>() / off.len() as f64).sqrt();
        let good = off.iter().filter(|o| o.abs() <= within).count();
        println!(
            "{name}: {} rows, mean off {:+.0} %, rms {:.0} %; {good} within {:.0} %",
            off.len(),
            100.0 * mean,
            100.0 * rms,
            100.0 * within
        );
    }
}

fn line(what: &str, row: &Row, cut: Cut) {
    let Some(out) = row.travelled(cut) else {
        println!("| {what} | no result | | | | |");
        return;
    };
    let [cup, tilt, narrowing] = shape(&out);
    let balance = 1.0 + out.passes.iter().map(|pass| pass.energy_balance).fold(0.0, f64::max);
    println!(
        "| {what} | {cup:.2} | {tilt:.2} | {narrowing:.3} | {balance:.6} | {:.0} |",
        out.took.as_secs_f64()
    );
}

fn head(what: &str) {
    println!("\n| {what} | cup | tilt | narrowing | heat balance | s |\n|---|---|---|---|---|---|");
}

/// One side, 600 and 1000 J/mm on 10/6/6: spacing of slices, step, mesh, length.
fn refine() {
    for heat in [600.0, 1000.0] {
        head(&format!("{heat} J/mm on 10/6/6, 300 mm"));
        let row = Row::usual("one side", heat, 10.0);
        for (name, cut) in [("coarse", COARSE), ("standard", STANDARD)] {
            line(name, &row, cut);
            line(&format!("{name}, half the mesh"), &row, Cut { fineness: HALF, ..cut });
            let step_mm = Some(row.travel(cut).step_mm / 2.0);
            line(&format!("{name}, half the step"), &row, Cut { step_mm, ..cut });
        }
        for every in [12.5, 10.0, 8.0] {
            line(
                &format!("standard, slices every {every} mm"),
                &row,
                Cut { every_mm: Some(every), ..STANDARD },
            );
        }
        for length in ["200", "400", "600"] {
            line(&format!("coarse, {length} mm long"), &row.clone().long(length), COARSE);
        }
    }
}

/// What holds do to one side of 10/6/6.
fn holds() {
    for heat in [600.0, 1000.0] {
        head(&format!("{heat} J/mm on 10/6/6, 300 mm"));
        let row = Row::usual("one side", heat, 10.0);
        let (apart, touching) = (row.clone().foot_is("apart"), row.clone().foot_is("touching"));
        let tacked = |row: &Row, how: &str| row.clone().tacked_at(how);
        line("one piece, free", &row, COARSE);
        for hold in ["web guided", "held square until cold", "rolls"] {
            line(&format!("one piece, {hold}"), &row.clone().changed(hold), COARSE);
        }
        line("apart, free", &apart, COARSE);
        for how in ["leading end", "two", "every 100 mm"] {
            line(&format!("apart, tacks: {how}"), &tacked(&apart, how), COARSE);
        }
        line("touching, tacks: leading end", &tacked(&touching, "leading end"), COARSE);
        for (what, of) in [("apart", &apart), ("touching", &touching)] {
            let line_of = tacked(of, "leading end").changed("rolls");
            line(&format!("{what}, tacks: leading end, rolls"), &line_of, COARSE);
        }
    }
}

/// Both sides at once, far up in heat, coarse; those that the law has least of by finer slices as well.
fn both_sides() {
    println!(
        "\n| both sides at once, 300 mm, 6 mm web and legs | q of both | cup here | as if long | law | here over law | s |"
    );
    println!("|---|---|---|---|---|---|---|");
    let heats =
        [(6.0, [300.0, 600.0, 900.0]), (10.0, [400.0, 1000.0, 1600.0]), (16.0, [600.0, 1000.0, 2000.0])];
    for (flange, heats) in heats {
        for heat in heats {
            beside_the_law(flange, heat, "coarse", COARSE);
        }
    }
    for (flange, heat) in [(6.0, 700.0), (6.0, 900.0), (10.0, 1600.0), (16.0, 2000.0)] {
        beside_the_law(flange, heat, "standard", STANDARD);
    }
}

fn beside_the_law(flange: f64, heat: f64, name: &str, cut: Cut) {
    let row = Row::usual("both at once", heat, flange);
    let Some(out) = row.travelled(cut) else {
        println!("| {flange} mm, {heat} J/mm a side, {name} | {:.1} | no result | | | | |", 2.0 * row.q());
        return;
    };
    let (cup, law) = (shape(&out)[0], row.law().cup_rad);
    let long = moving_table::as_if_long(cup, row.length());
    println!(
        "| {flange} mm, {heat} J/mm a side, {name} | {:.1} | {cup:.1} | {long:.1} | {law:.1} | {:.2} | {:.0} |",
        2.0 * row.q(),
        long / law,
        out.took.as_secs_f64()
    );
}

/// Every joint of the range, line by line as reference-cases/moving_range.csv keeps it.
fn range() {
    for row in moving_table::range() {
        let fineness = if row.change() == "mesh halved" { HALF } else { Fineness::COARSE };
        match row.travelled(Cut { fineness, ..COARSE }) {
            Some(out) => println!("{}", row.line(shape(&out))),
            None => println!("# no result: {}", row.named()),
        }
    }
}

/// Three joints of the table by a slice held until its weld is solid, by slices with a travelling arc, by the table in three dimensions, and by law.
fn three() {
    println!(
        "\n| joint | cup: section, slices, three dimensions, law | tilt, free: the same |\n|---|---|---|"
    );
    let options = Options { quick: true, times_s: vec![], ..Options::default() };
    for (flange, heat) in [(6.0, 600.0), (10.0, 1000.0), (16.0, 1000.0)] {
        let table = moving_table::table();
        let row = moving_table::fitted_like(&table, flange, heat);
        let section = verify(&row.case(), &options).unwrap().result.passes[0].section;
        let [cup, tilt, _] = shape(&row.travelled(STANDARD).unwrap());
        // the section has no length, and the law is that of a long joint
        println!(
            "| {}, {} mm | {:.1}, {cup:.1}, {:.1}, {:.1} | {:.1}, {tilt:.1}, {:.1}, {:.1} |",
            row.named(),
            row.length(),
            1e3 * section.cup_rad.unwrap(),
            row.cup(),
            row.law().cup_rad,
            1e3 * section.tilt_rad.unwrap(),
            row.tilt(),
            row.law().tilt_rad
        );
    }
}

/// Wall clock of one side of 10/6/6, 300 mm, by number of threads; whether the results are the same to the last bit; memory.
fn time() {
    println!(
        "\n| 1000 J/mm on 10/6/6, 300 mm | 1 thread, s | 2 threads, s | same bytes |\n|---|---|---|---|"
    );
    for (name, cut) in [("coarse", COARSE), ("standard", STANDARD)] {
        let by = |threads: usize| {
            let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
            let out = pool.install(|| Row::usual("one side", 1000.0, 10.0).travelled(cut)).unwrap();
            (out.took.as_secs_f64(), serde_json::to_string(&out).unwrap())
        };
        let (one, two) = (by(1), by(2));
        let same = if one.1 == two.1 { "yes" } else { "NO" };
        println!("| {name} | {:.1} | {:.1} | {same}, {} kB |", one.0, two.0, one.1.len() / 1000);
    }
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    println!(
        "{}",
        status.lines().find(|line| line.starts_with("VmHWM")).unwrap_or("memory: not told by this system")
    );
}

/// Cup and tilt, mrad, and narrowing, mm, amid the length after the last pass.
fn shape(out: &Travelled) -> [f64; 3] {
    let shape = out.passes.last().and_then(|p| p.amid()).and_then(|a| a.shape).unwrap();
    [1e3 * shape.cup_rad, 1e3 * shape.tilt_rad.unwrap(), shape.narrowing_mm]
}
