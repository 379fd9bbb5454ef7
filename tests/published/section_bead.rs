//! The section solver against another calculation of a bead on a plate.

#![allow(clippy::print_stdout, reason = "the numbers are what a reader of the test wants")]

use crate::cases::{all_checked, check};
use serde::Deserialize;
use weldbow::joint_solver::{
    ElementKind, Lengthwise, Mesh, PassOutcome, RoundSource, SectionPass, SectionSteel, Sequence,
    SolverSettings, Supports, ThermalTable, graded, run,
};

const SHEET: &str = "section_bead";
/// Half the width of the plate, mm.
const HALF: f64 = 100.0;
/// Elements at the bead, mm.
const FINE: f64 = 1.5;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    thickness_mm: f64,
    heat_j_per_mm: f64,
    release_c: Option<f64>,
}

fn welded(given: &Given) -> PassOutcome {
    let half = graded(HALF, FINE, 10, 1.2);
    let left = half.iter().rev().map(|y| -y);
    let across: Vec<f64> = left.chain(half.iter().copied().skip(1)).collect();
    let up: Vec<f64> = graded(given.thickness_mm, FINE, 8, 1.2).iter().rev().map(|d| -d).collect();
    let mesh = Mesh::block(&across, &up, ElementKind::Flange).unwrap();
    let supports = Supports::of_plate(&mesh, [-HALF, 0.0, HALF], up[0]);
    let source = RoundSource::bead([0.0, 0.0], given.heat_j_per_mm);
    let sequence = Sequence {
        mesh,
        steel: SectionSteel::hot(355.0),
        table: ThermalTable::steel(),
        supports,
        passes: vec![SectionPass {
            lays: vec![],
            sources: vec![source],
            wait_s: None,
            pulse_s: SolverSettings::STANDARD.pulse_s,
        }],
        settings: SolverSettings {
            lengthwise: Lengthwise::Held,
            release_c: given.release_c,
            growth: 1.1,
            ..SolverSettings::STANDARD
        },
    };
    let mut outcome = run(&sequence).unwrap();
    let pass = outcome.passes.remove(0);
    assert!(pass.energy_balance.abs() < 1e-3, "{given:?}: energy {:e}", pass.energy_balance);
    pass
}

#[test]
fn the_force_of_a_bead_is_that_of_the_other_calculation() {
    check(SHEET, "force", |g: &Given| {
        let force = welded(g).shrinkage.force_n / g.heat_j_per_mm;
        println!("{g:?}: {force:.1} N per J/mm");
        force
    });
}

#[test]
fn the_fold_of_a_bead_is_that_of_the_other_calculation() {
    check(SHEET, "fold", |g: &Given| {
        let fold = welded(g).shape.unwrap().fold_rad * 1e3;
        println!("{g:?}: {fold:.2} mrad");
        fold
    });
}

#[test]
fn no_value_of_the_sheet_goes_unchecked() {
    all_checked::<Given>(SHEET, &["force", "fold"]);
}
