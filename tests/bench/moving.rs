//! The travelling arc beside the table of joints in three dimensions, and its refinement: `cargo bench --bench moving`, on an idle
//! machine; some minutes. What it printed is kept in reference-cases/moving_slices.md.
#![allow(missing_docs, clippy::unwrap_used, clippy::print_stdout)]

use weldbow::joint_solver::{Fineness, Joint, Root, SectionSteel, Sequence, Settings};
use weldbow::moving_arc::{Foot, Grip, Travel, Travelled, travel};
use weldbow::welding::{Side, Wait};

const TABLE: &str = include_str!("../../reference-cases/moving_arc.csv");

/// A row of the table.
struct Row {
    cells: Vec<String>,
}

impl Row {
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

    /// Changes of mesh and step are those of the other calculation.
    fn asked(&self) -> Option<(Sequence, Joint, Travel)> {
        let change = &self.cells[10];
        let source = if change.starts_with("source") { 0.72 * 9.0 } else { 9.0 };
        if ["mesh", "half", "spacing"].iter().any(|word| change.starts_with(word)) {
            return None;
        }
        let joint = Joint {
            flange_width_mm: 180.0,
            flange_mm: self.number(4),
            web_mm: self.number(5),
            web_stub_mm: if change.starts_with("web 100") { 100.0 } else { 200.0 },
            near_leg_mm: Some(self.number(6)),
            far_leg_mm: Some(self.number(6)),
            root: Root::Tied,
        };
        let foot = match self.cells[7].as_str() {
            "apart" => Foot::Apart,
            "touching" => Foot::Touching,
            _ => Foot::OnePiece,
        };
        let length = self.number(3);
        let asked = Travel {
            foot,
            tacks_mm: if self.cells[8] == "two" {
                vec![[50.0, 80.0], [length - 50.0, length - 20.0]]
            } else {
                vec![]
            },
            grip: if change.starts_with("held") { Grip::Square } else { Grip::Free },
            slices: (length / 15.0).round() as usize,
            ..Travel::of(length, self.number(2))
        };
        let settings =
            Settings { source_legs: source / self.number(6), tolerance: 3e-4, ..Settings::STANDARD };
        let mut sequence =
            Sequence::of_joint(&joint, Fineness::COARSE, SectionSteel::hot(self.number(9)), settings)
                .unwrap();
        if foot != Foot::OnePiece {
            sequence.mesh = joint.mesh_parted(Fineness::COARSE).unwrap();
        }
        let q = self.number(1);
        let (near, far) = ((Side::Near, q), (Side::Far, q));
        let sequence = match self.cells[0].as_str() {
            "both at once" => sequence.weld(&joint, &[near, far], Wait::Cold),
            "both in turn" => {
                sequence.weld(&joint, &[near], Wait::Cold).unwrap().weld(&joint, &[far], Wait::Cold)
            }
            _ => sequence.weld(&joint, &[near], Wait::Cold),
        };
        Some((sequence.unwrap(), joint, asked))
    }
}

fn main() {
    println!("| joint | cup there, here | off by | tilt there, here | off by | narrowing there, here | s |");
    println!("|---|---|---|---|---|---|---|");
    let (mut cups, mut tilts) = (Vec::new(), Vec::new());
    for line in TABLE.lines().filter(|line| !line.starts_with('#')).skip(1) {
        let row = Row { cells: line.split(',').map(str::to_owned).collect() };
        let Some((sequence, joint, asked)) = row.asked() else { continue };
        let Ok(out) = travel(&sequence, &joint, &asked, &mut |_| true) else {
            println!("| {} | no result |", row.name());
            continue;
        };
        let [cup, tilt, narrowing] = shape(&out);
        let (cup_there, tilt_there) = (row.number(12), row.number(13));
        cups.push(cup / cup_there - 1.0);
        if tilt_there.abs() > 1.0 {
            tilts.push((tilt - tilt_there) / tilt_there);
        }
        println!(
            "| {} | {cup_there:.1}, {cup:.1} | {:+.0} % | {tilt_there:.1}, {tilt:.1} | {:+.0} % | {:.3}, {narrowing:.3} | {:.0} |",
            row.name(),
            100.0 * (cup / cup_there - 1.0),
            100.0 * (tilt - tilt_there) / tilt_there.abs().max(1.0),
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

/// Cup and tilt, mrad, and narrowing, mm, amid the length after the last pass.
fn shape(out: &Travelled) -> [f64; 3] {
    let shape = out.passes.last().and_then(|p| p.amid()).and_then(|a| a.shape).unwrap();
    [1e3 * shape.cup_rad, 1e3 * shape.tilt_rad.unwrap(), shape.narrowing_mm]
}
