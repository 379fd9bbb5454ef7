//! The formula level's constants against the studies that derive them anew (`studies/referee/`): a constant that drifts from
//! what its own study finds fails here.
//!
//! Both sides are computed; no measurement is among them. Each tolerance is what the formula's fit left open when it was made,
//! or what the constant's own stated uncertainty allows.

#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets a surprise fails"
)]

use crate::studies::{Run, run};
use weldbow::angular::cup::MOST_CUP_RAD;
use weldbow::angular::hold::PRESSED;
use weldbow::angular::tilt::PEAK_RAD;
use weldbow::shrinkage::tendon::{THICK_LOSS, THIN_N_PER_J_MM};

/// Two columns of a study side by side, section first.
fn pairs(study: &Run, what: &str) -> Vec<(f64, f64)> {
    let [section, formula] = ["section", "formula"].map(|by| study.all(&format!("{by}.outer.{what}")));
    section.into_iter().zip(formula).collect()
}

/// Root mean square and largest of formula over section, less 1.
fn spread(pairs: &[(f64, f64)]) -> (f64, f64) {
    let off = || pairs.iter().map(|(section, formula)| formula / section - 1.0);
    ((off().map(|d| d * d).sum::<f64>() / pairs.len() as f64).sqrt(), off().map(f64::abs).fold(0.0, f64::max))
}

/// What a constant that multiplies the formula would be by the study: median of section over formula times the constant.
fn by_study(pairs: &[(f64, f64)], constant: f64) -> f64 {
    let mut ratios: Vec<f64> = pairs.iter().map(|(section, formula)| section / formula).collect();
    ratios.sort_by(f64::total_cmp);
    constant * ratios[ratios.len() / 2]
}

fn near(what: &str, constant: f64, found: f64, tolerance: f64) {
    println!("{what}: {constant:.4} in the formula, {found:.4} by its study");
    assert!((found / constant - 1.0).abs() < tolerance, "{what}: {constant} against {found} by its study");
}

const PER_HEAT: &str = "force_per_heat_n_mm_per_j";

/// Fitted to these joints and, five times as many, to free members by the strip model; farthest off is a 6 mm flange that 1.6 kJ/mm heats
/// through, 5 %.
#[test]
fn the_force_of_thin_and_thick_flanges_is_that_of_its_study() {
    let study = run("referee/1-force");
    let all = pairs(&study, &format!("first.{PER_HEAT}"));
    let (rms, worst) = spread(&all);
    println!("force: rms {:.1} %, worst {:.1} %", 100.0 * rms, 100.0 * worst);
    assert!(rms < 0.03 && worst < 0.055, "rms {rms}, worst {worst}");
    let heat = study.all("pass.heat_input");
    let thickness = study.all("outer_flange.thickness");
    // net heat in kJ/mm; the web takes its part
    let q = |i: usize| 1e3 * heat[i] * 2.0 * thickness[i] / (2.0 * thickness[i] + 8.0) / thickness[i].powi(2);
    let of = |low: f64, high: f64| -> Vec<(f64, f64)> {
        (0..all.len()).filter(|i| (low..high).contains(&q(*i))).map(|i| all[i]).collect()
    };
    near("thin plate, N per J/mm", THIN_N_PER_J_MM, by_study(&of(4.0, 12.0), THIN_N_PER_J_MM), 0.03);
    let thick = THIN_N_PER_J_MM * (1.0 - THICK_LOSS);
    near("thick plate, N per J/mm", thick, by_study(&of(0.0, 1.4), thick), 0.04);
}

/// The loss of a free section rests on members of the strip level; this is a tee, smaller than any of them.
#[test]
fn a_free_joint_loses_what_its_study_says() {
    let study = run("referee/7-free");
    let all = pairs(&study, &format!("first.{PER_HEAT}"));
    let (rms, worst) = spread(&all);
    println!("free: rms {:.1} %, worst {:.1} %", 100.0 * rms, 100.0 * worst);
    assert!(rms < 0.05 && worst < 0.10, "rms {rms}, worst {worst}");
}

/// Joints free lengthwise: the loss of a free section is in it as well.
#[test]
fn a_second_side_adds_what_its_study_says_by_the_time_between() {
    let study = run("referee/3-second-side");
    let both = pairs(&study, &format!("last.{PER_HEAT}"));
    let (rms, worst) = spread(&both);
    println!("second side: rms {:.1} %, worst {:.1} %", 100.0 * rms, 100.0 * worst);
    assert!(worst < 0.09, "worst {worst}");
    let (first, last) = (both[0], both[both.len() - 1]);
    near("within seconds over cold", first.1 / last.1, first.0 / last.0, 0.12);
}

/// The table of the formula has five of these strengths.
#[test]
fn stronger_steel_loses_force_as_its_study_says() {
    let study = run("referee/2-yield");
    for (pair, grade) in
        pairs(&study, &format!("first.{PER_HEAT}")).iter().zip(["235", "275", "355", "460", "690"])
    {
        near(&format!("{grade} MPa, N per J/mm"), pair.1, pair.0, 0.04);
    }
}

/// Two parts for all joints; the study's scatter about them is 6 %, the ± of the sweep holds 20 %. Farthest off is a 10 mm web under a 4 mm
/// fillet.
#[test]
fn the_lateral_arm_is_that_of_its_study() {
    let study = run("referee/4-arm");
    let all = pairs(&study, "first.across_mm");
    let (rms, worst) = spread(&all);
    println!("arm: rms {:.0} %, worst {:.0} %", 100.0 * rms, 100.0 * worst);
    assert!(rms < 0.075 && worst < 0.17, "rms {rms}, worst {worst}");
    near("arm over that of the study", 1.0, by_study(&all, 1.0), 0.05);
}

/// The law rests on moving arcs in three dimensions; a slice held until the weld is solid is a second opinion: 0.82 to 1.26 of their cups, and
/// the law's own residual is 11 %. Left out are heats beyond the table: thin flanges heated through, where a slice falls off and an arc does
/// not, and 25 mm under the least heat.
#[test]
fn the_cup_is_that_of_its_study_within_what_two_and_three_dimensions_differ_by() {
    let study = run("referee/5-fold");
    let all = pairs(&study, "last.cup_rad");
    let (heat, thickness) = (study.all("pass.heat_input"), study.all("outer_flange.thickness"));
    let inside = 2.0..16.0;
    let table: Vec<(f64, f64)> = (0..all.len())
        .filter(|i| inside.contains(&(1e3 * heat[*i] / thickness[*i].powi(2))))
        .map(|i| all[i])
        .collect();
    let (rms, worst) = spread(&table);
    println!("cup: {} joints, rms {:.0} %, worst {:.0} %", table.len(), 100.0 * rms, 100.0 * worst);
    assert!(rms < 0.16 && worst < 0.25, "rms {rms}, worst {worst}");
    near("cup of a flange hot through, rad", MOST_CUP_RAD, by_study(&table, MOST_CUP_RAD), 0.20);
}

/// A slice cannot show how whole plates turn against each other: it is a lower estimate of the free tilt, as the lesson says.
#[test]
fn the_free_tilt_lies_above_the_section_of_its_study() {
    let study = run("referee/6-tilt");
    let all = pairs(&study, "first.tilt_rad");
    let mean = all.iter().map(|(section, law)| section / law).sum::<f64>() / all.len() as f64;
    println!("tilt: section over free law {mean:.2} on average; a line is taken to leave {PRESSED:.2} of it");
    assert!((0.5..1.0).contains(&mean), "{mean}");
}

/// An arc that travels along 200 mm in slices joined by their plates: the second way to three dimensions, in nothing that the laws were
/// fitted to. Cups of 200 mm are a tenth below those of a long joint, which the law has (`reference-cases/moving_arc.py`). The laws rest on a
/// deposit that lies there cold; here it arrives molten and leaves less heat to the plates: 15 % less cup with 600 J/mm, 7 % with 1000 on
/// 10 mm, and slices 25 mm apart give 8 % less than closer ones (`reference-cases/moving_slices.md`). All of it is inside the 30 % of the law.
#[test]
fn cup_and_tilt_are_those_of_an_arc_that_travels() {
    const SHORT: f64 = 0.90;
    let study = run("referee/8-moving");
    let both = |after: &str, what: &str| -> Vec<(f64, f64)> {
        let of = |by: &str| study.all(&format!("{by}.outer.{after}.{what}"));
        of("moving").into_iter().zip(of("formula")).collect()
    };
    let long =
        |pairs: Vec<(f64, f64)>| pairs.into_iter().map(|(arc, law)| (arc / SHORT, law)).collect::<Vec<_>>();
    for after in ["first", "last"] {
        let cups = long(both(after, "cup_rad"));
        let (rms, worst) = spread(&cups);
        println!("cup, {after}: {cups:.4?} rms {:.0} %, worst {:.0} %", 100.0 * rms, 100.0 * worst);
        assert!(worst < 0.50, "{after}: worst {worst}");
        near("cup of a flange hot through, rad", MOST_CUP_RAD, by_study(&cups, MOST_CUP_RAD), 0.28);
    }
    let tilts = both("first", "tilt_rad");
    let (rms, worst) = spread(&tilts);
    println!("tilt: {tilts:.4?} rms {:.0} %, worst {:.0} %", 100.0 * rms, 100.0 * worst);
    assert!(worst < 0.25, "worst {worst}");
    near("largest free tilt, rad", PEAK_RAD, by_study(&tilts, PEAK_RAD), 0.15);
    // what a cold second side leaves lies within what the law says of both sides, 8 mrad
    for (arc, law) in both("last", "tilt_rad") {
        println!("left of the tilt: arc {arc:.4}, law {law:.4} rad");
        assert!((arc - law).abs() < 0.012, "{arc} against {law}");
    }
}
