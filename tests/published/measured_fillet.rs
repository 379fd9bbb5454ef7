//! The measured angle of a single fillet beside the bracket of restraints. The plates of that test are not known: this says
//! which restraint is of the right order, and calibrates nothing.

#![allow(clippy::print_stdout, reason = "the numbers are what a reader of the test wants")]

use crate::cases::document;
use serde::Deserialize;
use weldbow::section::{Fineness, Joint, Root, SectionSteel, Sequence, Settings, run};
use weldbow::welding::{Side, Wait};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Measured {
    source: String,
    trust: String,
    gross_j_per_mm: f64,
    least_deg: f64,
    mean_deg: f64,
    most_deg: f64,
    net_j_per_mm: f64,
}

/// Angle by which the welded half of 12 mm on 8 mm rises, degrees.
fn closed_deg(heat_j_per_mm: f64, release_c: Option<f64>) -> f64 {
    let joint = Joint {
        flange_width_mm: 200.0,
        flange_mm: 12.0,
        web_mm: 8.0,
        web_stub_mm: 150.0,
        near_leg_mm: Some(6.0),
        far_leg_mm: None,
        root: Root::Tied,
    };
    let settings = Settings { release_c, ..Settings::COARSE };
    let start = Sequence::of_joint(&joint, Fineness::COARSE, SectionSteel::hot(355.0), settings).unwrap();
    let welded = start.weld(&joint, &[(Side::Near, heat_j_per_mm)], Wait::Cold).unwrap();
    let shape = run(&welded).unwrap().passes[0].shape.unwrap();
    (shape.cup_rad + shape.tilt_rad.unwrap()).to_degrees()
}

#[test]
fn the_measured_angle_lies_in_the_held_bracket_and_far_from_a_section_never_held() {
    let measured: Measured = document("measured_fillet.toml");
    assert!(measured.net_j_per_mm < measured.gross_j_per_mm && measured.trust == "read");
    let held = [300.0, 500.0, 700.0].map(|t| closed_deg(measured.net_j_per_mm, Some(t)));
    let free = closed_deg(measured.net_j_per_mm, None);
    println!(
        "{}: {} … {}, mean {}°; held to 300/500/700 °C {held:.2?}°, never held {free:.2}°",
        measured.source, measured.least_deg, measured.most_deg, measured.mean_deg
    );
    assert!(held.is_sorted(), "a later release leaves less: {held:?}");
    // Plates unknown, so only order of size: the spans overlap, and the mean is near the lower end of the bracket.
    assert!(held[0] < measured.most_deg && held[2] > measured.least_deg, "{held:?}");
    assert!((held[0] / measured.mean_deg - 1.0).abs() < 0.15, "{held:?}");
    assert!(free < 0.15 * measured.least_deg, "never held gives {free}°");
}
