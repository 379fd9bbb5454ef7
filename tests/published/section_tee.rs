//! The section solver against another calculation of the same tee.

#![allow(clippy::print_stdout, reason = "the numbers are what a reader of the test wants")]

use crate::cases::{all_checked, check};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex};
use weldbow::joint_solver::{
    Fineness, Joint, Lengthwise, MaterialLaw, Outcome, Root, SectionSteel, Sequence, SolverSettings,
    StressModel, points, run,
};
use weldbow::steel::molten::Strength;
use weldbow::welding::{Side, Wait};

const SHEET: &str = "section_tee";

/// Stress along the member at the solid point nearest to a place.
pub(crate) fn along_near_mpa(outcome: &Outcome, place_mm: [f64; 2]) -> f64 {
    let far = |p: &[f64; 2]| (p[0] - place_mm[0]).hypot(p[1] - place_mm[1]);
    let nearest = (0..outcome.points_mm.len())
        .filter(|k| outcome.solid[k / 4])
        .min_by(|&a, &b| far(&outcome.points_mm[a]).total_cmp(&far(&outcome.points_mm[b])));
    outcome.along_mpa[nearest.unwrap()]
}

#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    mesh: String,
    heat_j_per_mm: f64,
    #[serde(default = "twelve")]
    flange_mm: f64,
    #[serde(default = "s355")]
    yield_mpa: f64,
    release_c: Option<f64>,
    #[serde(default)]
    free: bool,
    #[serde(default)]
    at_once: bool,
    #[serde(default)]
    slit: bool,
    #[serde(default)]
    proportional: bool,
    wait_s: Option<f64>,
    at_mm: Option<f64>,
    start_c: Option<f64>,
}

fn twelve() -> f64 {
    12.0
}

fn s355() -> f64 {
    355.0
}

/// Runs already made, by what they depend on.
static RUNS: Mutex<BTreeMap<String, Arc<Outcome>>> = Mutex::new(BTreeMap::new());

fn welded(given: &Given) -> Arc<Outcome> {
    let key = format!("{:?}", Given { at_mm: None, ..given.clone() });
    let mut runs = RUNS.lock().unwrap();
    Arc::clone(runs.entry(key).or_insert_with(|| Arc::new(weld(given))))
}

fn weld(given: &Given) -> Outcome {
    let joint = Joint {
        flange_width_mm: 200.0,
        flange_mm: given.flange_mm,
        web_mm: 8.0,
        web_stub_mm: 150.0,
        near_leg_mm: Some(6.0),
        far_leg_mm: Some(6.0),
        root: if given.slit { Root::Slit } else { Root::Tied },
    };
    let coarse = given.mesh == "coarse";
    let settings = SolverSettings {
        model: if given.mesh == "fibres" { StressModel::Fibres } else { StressModel::Solid },
        lengthwise: if given.free { Lengthwise::Free } else { Lengthwise::Held },
        release_c: given.release_c,
        start_c: given.start_c.unwrap_or(20.0),
        ..if coarse { SolverSettings::COARSE } else { SolverSettings::STANDARD }
    };
    let mut steel = SectionSteel::hot(given.yield_mpa);
    if given.proportional {
        steel.law = MaterialLaw::Hot(Strength::Proportional);
    }
    let fineness = if coarse { Fineness::COARSE } else { Fineness::STANDARD };
    let start = Sequence::of_joint(&joint, fineness, steel, settings).unwrap();
    let [near, far] = [Side::Near, Side::Far].map(|side| (side, given.heat_j_per_mm));
    let wait = given.wait_s.map_or(Wait::Cold, Wait::Seconds);
    let sequence = if given.at_once {
        start.weld(&joint, &[near, far], Wait::Cold).unwrap()
    } else {
        start.weld(&joint, &[near], Wait::Cold).unwrap().weld(&joint, &[far], wait).unwrap()
    };
    let outcome = run(&sequence).unwrap();
    for pass in &outcome.passes {
        assert!(pass.energy_balance.abs() < 1e-3, "{given:?}: energy {:e}", pass.energy_balance);
    }
    outcome
}

fn force(given: &Given, pass: usize) -> f64 {
    let force = welded(given).passes[pass].shrinkage.force_n / given.heat_j_per_mm;
    println!("{given:?}, pass {}: {force:.1} N per J/mm", pass + 1);
    force
}

fn line(given: &Given, pass: usize, axis: usize) -> f64 {
    welded(given).passes[pass].shrinkage.at_mm.unwrap()[axis]
}

/// Cup and tilt, mrad, narrowing, mm.
fn shape(given: &Given, pass: usize, which: usize) -> f64 {
    let shape = welded(given).passes[pass].shape.unwrap();
    let value = [shape.cup_rad * 1e3, shape.tilt_rad.unwrap() * 1e3, shape.narrowing_mm][which];
    println!("{given:?}, pass {}: {} {value:.3}", pass + 1, ["cup", "tilt", "narrowing"][which]);
    value
}

/// Stress along the member in the middle of the flange when the held section is let go: less the elastic stress of its
/// resultants, symmetric about the web.
fn released(given: &Given) -> f64 {
    let outcome = welded(given);
    let areas = outcome.mesh.elements.iter().flat_map(|e| points(&outcome.mesh, e)).map(|p| p.area_mm2);
    let mut s = [0.0; 5];
    for (((area, at), stress), solid) in areas
        .zip(&outcome.points_mm)
        .zip(&outcome.along_mpa)
        .zip(outcome.solid.iter().flat_map(|solid| [*solid; 4]))
        .filter(|(_, solid)| *solid)
    {
        let terms = [area, area * at[1], area * at[1] * at[1], area * stress, area * stress * at[1]];
        s.iter_mut().zip(terms).for_each(|(sum, term)| *sum += term);
        assert!(solid);
    }
    let det = s[0] * s[2] - s[1] * s[1];
    let (mean, slope) = ((s[3] * s[2] - s[4] * s[1]) / det, (s[4] * s[0] - s[3] * s[1]) / det);
    let place = [given.at_mm.unwrap(), -given.flange_mm / 2.0];
    along_near_mpa(&outcome, place) - mean - slope * place[1]
}

#[test]
fn forces_of_both_passes_are_those_of_the_other_calculation() {
    check(SHEET, "force, first", |g: &Given| force(g, 0));
    check(SHEET, "force, both", |g: &Given| force(g, 1));
}

#[test]
fn the_force_acts_where_the_other_calculation_has_it() {
    check(SHEET, "across, first", |g: &Given| line(g, 0, 0));
    check(SHEET, "up, first", |g: &Given| line(g, 0, 1));
    check(SHEET, "across, both", |g: &Given| line(g, 1, 0));
    check(SHEET, "up, both", |g: &Given| line(g, 1, 1));
}

#[test]
fn cup_tilt_and_narrowing_are_those_of_the_other_calculation() {
    check(SHEET, "cup, first", |g: &Given| shape(g, 0, 0));
    check(SHEET, "cup, both", |g: &Given| shape(g, 1, 0));
    check(SHEET, "tilt, first", |g: &Given| shape(g, 0, 1));
    check(SHEET, "tilt, both", |g: &Given| shape(g, 1, 1));
    check(SHEET, "narrowing, first", |g: &Given| shape(g, 0, 2));
    check(SHEET, "narrowing, both", |g: &Given| shape(g, 1, 2));
}

#[test]
fn stress_along_the_flange_is_that_of_the_other_calculation() {
    check(SHEET, "stress, both", released);
}

#[test]
fn a_mesh_and_steps_twice_as_coarse_change_little() {
    let given = |mesh: &str| Given {
        mesh: mesh.to_owned(),
        heat_j_per_mm: 1200.0,
        flange_mm: twelve(),
        yield_mpa: s355(),
        release_c: Some(500.0),
        free: false,
        at_once: false,
        slit: false,
        proportional: false,
        wait_s: None,
        at_mm: None,
        start_c: None,
    };
    let [standard, coarse] = ["standard", "coarse"].map(given);
    for pass in 0..2 {
        let forces = [force(&standard, pass), force(&coarse, pass)];
        let cups = [shape(&standard, pass, 0), shape(&coarse, pass, 0)];
        let tilts = [shape(&standard, pass, 1), shape(&coarse, pass, 1)];
        println!(
            "pass {}: standard, coarse: {forces:.2?} N per J/mm, cup {cups:.3?}, tilt {tilts:.3?} mrad",
            pass + 1
        );
        assert!((forces[1] / forces[0] - 1.0).abs() < 0.01, "{forces:?}");
        assert!((cups[1] / cups[0] - 1.0).abs() < 0.01, "{cups:?}");
        assert!((tilts[1] - tilts[0]).abs() < 0.8, "{tilts:?}");
    }
}

#[test]
fn no_value_of_the_sheet_goes_unchecked() {
    let checked = [
        "force, first",
        "force, both",
        "across, first",
        "up, first",
        "across, both",
        "up, both",
        "cup, first",
        "cup, both",
        "tilt, first",
        "tilt, both",
        "narrowing, first",
        "narrowing, both",
        "stress, both",
    ];
    all_checked::<Given>(SHEET, &checked);
}
