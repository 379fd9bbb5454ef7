//! The travelling arc beside the table of joints in three dimensions, its refinement, and what holds do: `cargo bench --bench moving -- WHAT`, on
//! an idle machine; some minutes. WHAT is `table` (coarse; `table standard` for finer slices), `refine`, `holds`, `both-sides` or `runs`; all without it. What it
//! printed is kept in reference-cases/moving_slices.md.
#![allow(missing_docs, clippy::unwrap_used, clippy::print_stdout)]

use weldbow::joint_solver::{
    Fineness, Joint, Part, Root, SectionPass, SectionSteel, Sequence, Settings, Source,
};
use weldbow::moving_arc::{Foot, Grip, Travel, Travelled, travel};
use weldbow::welding::{Side, Wait};

const TABLE: &str = include_str!("../../reference-cases/moving_arc.csv");

/// How finely slices, time and mesh are cut.
#[derive(Clone, Copy)]
struct Cut {
    every_mm: f64,
    step_mm: f64,
    fineness: Fineness,
}

const COARSE: Cut = Cut { every_mm: 25.0, step_mm: 8.0, fineness: Fineness::COARSE };
const STANDARD: Cut = Cut { every_mm: 15.0, step_mm: 5.0, fineness: Fineness::COARSE };

/// A row of the table.
#[derive(Clone)]
struct Row {
    cells: Vec<String>,
}

impl Row {
    /// Of one side, 600 J/mm or another heat on 10/6/6, 300 mm.
    fn usual(laid: &str, heat: f64, flange: f64) -> Self {
        let line = format!("{laid},{heat},12,300,{flange},6,6,one piece,none,355,none,no,0,0,0");
        Self { cells: line.split(',').map(str::to_owned).collect() }
    }

    fn with(mut self, k: usize, cell: &str) -> Self {
        cell.clone_into(&mut self.cells[k]);
        self
    }

    fn number(&self, k: usize) -> f64 {
        self.cells[k].parse().unwrap()
    }

    fn name(&self) -> String {
        let [q, v, l, tf, tw, leg] = [1, 2, 3, 4, 5, 6].map(|k| self.number(k));
        let (laid, foot, tacks, change) = (&self.cells[0], &self.cells[7], &self.cells[8], &self.cells[10]);
        format!(
            "{laid}, {tf}/{tw}/{leg}, {q} J/mm, {v} mm/s, {l} mm, {foot}, tacks {tacks}, {}, {change}",
            self.cells[9]
        )
    }

    fn changes_the_other_calculation(&self) -> bool {
        ["mesh", "half", "spacing"].iter().any(|word| self.cells[10].starts_with(word))
    }

    fn joint(&self) -> Joint {
        Joint {
            flange_width_mm: 180.0,
            flange_mm: self.number(4),
            web_mm: self.number(5),
            web_stub_mm: if self.cells[10].starts_with("web 100") { 100.0 } else { 200.0 },
            near_leg_mm: Some(self.number(6)),
            far_leg_mm: Some(self.number(6)),
            root: Root::Tied,
        }
    }

    fn travel(&self, cut: Cut) -> Travel {
        let length = self.number(3);
        let tacks_mm = match self.cells[8].as_str() {
            "two" => vec![[50.0, 80.0], [length - 50.0, length - 20.0]],
            "leading end" => vec![[0.0, 30.0]],
            "every 100 mm" => (0..)
                .map(|k| 100.0 * f64::from(k))
                .take_while(|x| x + 20.0 <= length)
                .map(|x| [x, x + 20.0])
                .collect(),
            _ => vec![],
        };
        Travel {
            foot: match self.cells[7].as_str() {
                "apart" => Foot::Apart,
                "touching" => Foot::Touching,
                _ => Foot::OnePiece,
            },
            tacks_mm,
            grip: match self.cells[10].as_str() {
                "held square until cold" => Grip::Square,
                "web guided" => Grip::Guided,
                "rolls" => Grip::Rolls(60.0),
                _ => Grip::Free,
            },
            slices: (length / cut.every_mm).round() as usize,
            step_mm: cut.step_mm,
            ..Travel::of(length, self.number(2))
        }
    }

    fn sequence(&self, cut: Cut, foot: Foot) -> Sequence {
        let joint = self.joint();
        let radius = if self.cells[10].starts_with("source") { 0.72 * 9.0 } else { 9.0 };
        let settings =
            Settings { source_legs: radius / self.number(6), tolerance: 3e-4, ..Settings::STANDARD };
        let steel = SectionSteel::hot(self.number(9));
        let mut sequence = Sequence::of_joint(&joint, cut.fineness, steel, settings).unwrap();
        if foot != Foot::OnePiece {
            sequence.mesh = joint.mesh_parted(cut.fineness).unwrap();
        }
        let (near, far) = ((Side::Near, self.number(1)), (Side::Far, self.number(1)));
        let laid = match self.cells[0].as_str() {
            "both at once" => sequence.weld(&joint, &[near, far], Wait::Cold),
            "both in turn" => {
                sequence.weld(&joint, &[near], Wait::Cold).unwrap().weld(&joint, &[far], Wait::Cold)
            }
            _ => sequence.weld(&joint, &[near], Wait::Cold),
        };
        laid.unwrap()
    }

    /// Changes of mesh and step are those of the other calculation.
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
    if wants("runs") {
        runs();
    }
}

fn table(cut: Cut) {
    println!("| joint | cup there, here | off by | tilt there, here | off by | narrowing there, here | s |");
    println!("|---|---|---|---|---|---|---|");
    let (mut cups, mut tilts) = (Vec::new(), Vec::new());
    for line in TABLE.lines().filter(|line| !line.starts_with('#')).skip(1) {
        let row = Row { cells: line.split(',').map(str::to_owned).collect() };
        if row.changes_the_other_calculation() {
            continue;
        }
        let Some(out) = row.travelled(cut) else {
            println!("| {} | no result |", row.name());
            continue;
        };
        let [cup, tilt, narrowing] = shape(&out);
        let (cup_there, tilt_there) = (row.number(12), row.number(13));
        cups.push(cup / cup_there - 1.0);
        // what two sides leave of a tilt is too small to divide by
        if tilt_there.abs() > 10.0 {
            tilts.push((tilt - tilt_there) / tilt_there);
        }
        println!(
            "| {} | {cup_there:.1}, {cup:.1} | {:+.0} % | {tilt_there:.1}, {tilt:.1} | {} | {:.3}, {narrowing:.3} | {:.0} |",
            row.name(),
            100.0 * (cup / cup_there - 1.0),
            if tilt_there.abs() > 10.0 {
                format!("{:+.0} %", 100.0 * (tilt / tilt_there - 1.0))
            } else {
                format!("{:+.1} mrad", tilt - tilt_there)
            },
            row.number(14),
            out.took.as_secs_f64()
        );
    }
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
        line("slices every 25 mm, 8 mm a step (coarse)", &row, COARSE);
        line("slices every 15 mm, 5 mm a step (standard)", &row, STANDARD);
        line("coarse, half the step", &row, Cut { step_mm: 4.0, ..COARSE });
        line(
            "coarse, half the mesh",
            &row,
            Cut { fineness: Fineness { per_leg: 4, even: 6, growth: 1.2 }, ..COARSE },
        );
        line("slices every 12.5 mm", &row, Cut { every_mm: 12.5, ..COARSE });
        line("slices every 8 mm", &row, Cut { every_mm: 8.0, ..COARSE });
        for length in ["200", "400", "600"] {
            line(&format!("coarse, {length} mm long"), &row.clone().with(3, length), COARSE);
        }
    }
}

/// What holds do to one side of 10/6/6.
fn holds() {
    for heat in [600.0, 1000.0] {
        head(&format!("{heat} J/mm on 10/6/6, 300 mm"));
        let row = Row::usual("one side", heat, 10.0);
        let (apart, touching) = (row.clone().with(7, "apart"), row.clone().with(7, "touching"));
        let tacked = |row: &Row, how: &str| row.clone().with(8, how);
        line("one piece, free", &row, COARSE);
        for hold in ["web guided", "held square until cold", "rolls"] {
            line(&format!("one piece, {hold}"), &row.clone().with(10, hold), COARSE);
        }
        line("apart, free", &apart, COARSE);
        for how in ["leading end", "two", "every 100 mm"] {
            line(&format!("apart, tacks: {how}"), &tacked(&apart, how), COARSE);
        }
        line("touching, tacks: leading end", &tacked(&touching, "leading end"), COARSE);
        for (what, of) in [("apart", &apart), ("touching", &touching)] {
            let line_of = tacked(of, "leading end").with(10, "rolls");
            line(&format!("{what}, tacks: leading end, rolls"), &line_of, COARSE);
        }
    }
}

/// Both sides at once, far up in heat.
fn both_sides() {
    head("both sides at once, 300 mm: flange, J/mm of one side");
    for (flange, heats) in
        [(6.0, [300.0, 600.0, 900.0]), (10.0, [400.0, 1000.0, 1600.0]), (16.0, [600.0, 1000.0, 2000.0])]
    {
        for heat in heats {
            line(&format!("{flange} mm, {heat}"), &Row::usual("both at once", heat, flange), COARSE);
        }
    }
}

/// A leg in two runs of the same heat, the second laid over the first: flange, web, leg, mm; heat of a run, J/mm. The far fillet of the mesh, which these
/// joints do not have, stands for the layer outside the first run's leg.
fn runs() {
    println!(
        "\n| two runs, 150 mm | cup and tilt of the first | of both | first, and its heat again | one run of all the heat |"
    );
    println!("|---|---|---|---|---|");
    let fineness = Fineness { per_leg: 4, even: 3, growth: 1.4 };
    for (flange, web, leg, heat) in
        [(10.0, 6.0, 8.0, 800.0), (12.0, 8.0, 8.0, 900.0), (16.0, 8.0, 8.0, 900.0)]
    {
        let joint = |leg: f64| Joint {
            flange_width_mm: 180.0,
            flange_mm: flange,
            web_mm: web,
            web_stub_mm: 200.0,
            near_leg_mm: Some(leg),
            far_leg_mm: None,
            root: Root::Tied,
        };
        let first = leg / 2.0_f64.sqrt();
        let pass = |leg: f64, heat: f64, lays: Vec<Side>| {
            let source = Source::beside_web(web, leg, Side::Near, heat, 9.0 / leg);
            SectionPass { lays, sources: vec![source], wait_s: None, pulse_s: source.passing_s(12.0) }
        };
        let solved = |leg: f64, layered: bool, passes: Vec<SectionPass>| {
            let joint = joint(leg);
            let settings = Settings { source_legs: 9.0 / leg, tolerance: 3e-4, ..Settings::STANDARD };
            let mut sequence =
                Sequence::of_joint(&joint, fineness, SectionSteel::hot(355.0), settings).unwrap();
            let (nodes, elements) = (sequence.mesh.nodes_mm.clone(), &mut sequence.mesh.elements);
            for element in elements.iter_mut().filter(|e| layered && e.part == Part::Fillet(Side::Near)) {
                let centre = |k: usize| element.nodes[..4].iter().map(|&n| nodes[n][k]).sum::<f64>() / 4.0;
                if centre(0) - 0.5 * web + centre(1) > first {
                    element.part = Part::Fillet(Side::Far);
                }
            }
            sequence.passes = passes;
            let asked = Travel { slices: 6, step_mm: 8.0, ..Travel::of(150.0, 12.0) };
            let out = travel(&sequence, &joint, &asked, &mut |_| true).unwrap();
            let shape = |p: &weldbow::moving_arc::PassTravelled| p.amid().and_then(|a| a.shape).unwrap();
            let said = |p| format!("{:.2}, {:.2}", 1e3 * shape(p).cup_rad, 1e3 * shape(p).tilt_rad.unwrap());
            out.passes.iter().map(said).collect::<Vec<String>>()
        };
        let both =
            solved(leg, true, vec![pass(first, heat, vec![Side::Near]), pass(leg, heat, vec![Side::Far])]);
        let again =
            solved(first, false, vec![pass(first, heat, vec![Side::Near]), pass(first, heat, vec![])]);
        let one = solved(leg, false, vec![pass(leg, 2.0 * heat, vec![Side::Near])]);
        println!(
            "| {flange}/{web}/{leg}, 2 × {heat} J/mm | {} | {} | {} | {} |",
            both[0], both[1], again[1], one[0]
        );
    }
}

/// Cup and tilt, mrad, and narrowing, mm, amid the length after the last pass.
fn shape(out: &Travelled) -> [f64; 3] {
    let shape = out.passes.last().and_then(|p| p.amid()).and_then(|a| a.shape).unwrap();
    [1e3 * shape.cup_rad, 1e3 * shape.tilt_rad.unwrap(), shape.narrowing_mm]
}
