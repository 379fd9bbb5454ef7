//! The bowing formula through the beam and through the whole engine, and the flange forms as printed.

use crate::cases::{all_checked, check};
use crate::support::{job, pass, prismatic};
use serde::Deserialize;
use weldbow::angular::published::{blodgett_edge_mm, inherent_fold_rad, lever_arm_fold_rad};
use weldbow::bow::{BowShape, strain};
use weldbow::member::{Parts, Plates, Seam, Section, Span, properties};
use weldbow::prediction::predict;
use weldbow::shrinkage::published::{METHODS, MethodInput};
use weldbow::welding::Side;

const SHEET: &str = "blodgett";
const METHOD: &str = "bowing formula 0.005·A·L²·d/I, as a force";

#[derive(Deserialize)]
#[serde(deny_unknown_fields, default)]
#[derive(Default)]
struct Given {
    area_mm2: f64,
    length_mm: f64,
    arm_mm: f64,
    i_mm4: f64,
    w_mm: f64,
    leg_mm: f64,
    t_mm: f64,
    q: f64,
}

fn force_n(nominal_mm2: f64, e_mpa: f64) -> f64 {
    let method = METHODS.iter().find(|m| m.method == METHOD).unwrap();
    (method.force_n)(&MethodInput { heat_j_per_mm: f64::NAN, nominal_mm2, e_mpa })
}

/// Bow by the method's force on a level member, through strain and integration.
fn bow_mm(g: &Given, e_mpa: f64) -> f64 {
    let plates = Plates { web_mm: 1.0, outer_mm: (1.0, 1.0), inner_mm: (1.0, 1.0) };
    let span = Span { from_mm: 0.0, to_mm: g.length_mm, plates, depth_from_mm: 1.0, slope: 0.0 };
    let section = Section { area_mm2: 1.0, centroid_mm: g.arm_mm, i_z_mm4: g.i_mm4, i_y_mm4: 1.0 };
    let bend = strain(&section, force_n(g.area_mm2, e_mpa), 0.0, 0.0, e_mpa).in_plane;
    BowShape::integrate(&[span], g.length_mm / 4.0, |_, _| -bend).largest().0
}

#[test]
fn the_bowing_formula_comes_out_of_the_beam_whatever_the_stiffness_of_steel() {
    for e_mpa in [29e6 * 0.006_894_757, 206e3] {
        check(SHEET, "bow", |g: &Given| bow_mm(g, e_mpa));
    }
    check(SHEET, "force over E A_w", |_: &Given| force_n(18.0, 206e3) / (18.0 * 206e3));
}

#[test]
fn the_engine_estimates_the_bowing_formula_on_a_prismatic_member() {
    for e_mpa in [190e3, 206e3] {
        let mut member = prismatic(9000.0, (584.0, 5.0), (150.0, 6.0), (150.0, 10.0));
        member.steel.e_mpa = e_mpa;
        let section = properties(&member.plates_at(1.0), 584.0, 0.0, Parts::ALL);
        let passes = vec![pass(&member, Seam::Outer, Side::Near, 1, 5.0, 700.0)];
        let p = predict(&job(member, passes));
        let mut found = p.estimates.iter().filter(|e| e.method == METHOD && e.quantity == "camber.max_mm");
        let got = found.next().unwrap().value;
        let want = 0.005 * 12.5 * 9000.0 * 9000.0 * section.centroid_mm / section.i_z_mm4;
        assert!(
            (got / want - 1.0).abs() < 1e-9,
            "E {e_mpa}: {got} mm by the engine, {want} mm by the formula"
        );
        // the guide's worked member, from its junction rather than from the middle of the flange
        assert!((want - 5.48).abs() < 0.3, "{want} mm");
    }
}

#[test]
fn flange_forms_are_those_printed() {
    check(SHEET, "edge rise", |g: &Given| blodgett_edge_mm(g.w_mm, g.leg_mm, g.t_mm));
    check(SHEET, "metric factor", |_: &Given| blodgett_edge_mm(1.0, 1.0, 1.0));
    check(SHEET, "inherent fold", |g: &Given| 1e3 * inherent_fold_rad(g.q));
    check(SHEET, "lever-arm fold", |g: &Given| 1e3 * lever_arm_fold_rad(g.q));
}

#[test]
fn every_row_of_the_sheet_is_compared() {
    let checked =
        ["bow", "force over E A_w", "edge rise", "metric factor", "inherent fold", "lever-arm fold"];
    all_checked::<Given>(SHEET, &checked);
}
