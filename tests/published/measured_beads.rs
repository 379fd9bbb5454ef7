//! Two measured sets. The bar shows the size of the force of one bead, loosely, and that a second bead beside the first
//! must not be counted again in full. The beads show how much heat goes with a deposited volume, and how widely
//! it scatters. Neither has a fillet, a flange or a web: sweep, cup, tilt and the second side stay unproven.

use crate::cases::document;
use serde::Deserialize;
use weldbow::prediction::uncertainty::HEAT_FROM_LEG_BIAS;
use weldbow::shrinkage::joint::{COLD_S, Joint, Laid};
use weldbow::shrinkage::tendon::{okerblom, thick_plate};
use weldbow::welding::{Process, fillet};

#[derive(Deserialize)]
struct Sets {
    thick_bar: Bar,
    beads_on_plate: Beads,
}

#[derive(Deserialize)]
struct Bar {
    width_mm: f64,
    thickness_mm: f64,
    gross_heat_j_per_mm: f64,
    end_rise_mm: f64,
    end_rise_per_curvature_mm2: f64,
    allowed: f64,
}

#[derive(Deserialize)]
struct Beads {
    rows: Vec<[f64; 5]>,
}

#[test]
fn two_beads_lift_the_ends_of_a_thick_bar_about_as_measured() {
    let bar = document::<Sets>("measured_beads.toml").thick_bar;
    let net = Process::GasMetalArc.default_efficiency() * bar.gross_heat_j_per_mm;
    let rise = |force: f64| {
        let i = bar.width_mm * bar.thickness_mm.powi(3) / 12.0;
        force * bar.thickness_mm / 2.0 / (206e3 * i) * bar.end_rise_per_curvature_mm2
    };
    for lone in [okerblom(net), thick_plate(net)] {
        let laid = |at_s: f64| Laid {
            lone_n: [lone, 0.0],
            arm_mm: [0.0; 2],
            deposit_mm2: 12.0,
            at_s,
            cooling_s: 60.0,
            available_mm2: bar.width_mm * bar.thickness_mm,
            yield_mpa: 355.0,
        };
        let mut zone = Joint::default();
        let force = zone.lay(&laid(0.0)).force_n + zone.lay(&laid(COLD_S)).force_n;
        let ratio = rise(force) / bar.end_rise_mm;
        assert!(
            (ratio - 1.0).abs() < bar.allowed,
            "{:.2} mm against {} measured",
            rise(force),
            bar.end_rise_mm
        );
    }
    let twice = rise(2.0 * okerblom(net)) / bar.end_rise_mm;
    assert!(twice > 1.0 + bar.allowed, "counting both in full gives {twice:.2} of the measured rise");
}

#[test]
fn heat_per_deposited_volume_scatters_about_the_leg_rule() {
    let rows = document::<Sets>("measured_beads.toml").beads_on_plate.rows;
    assert_eq!(rows.len(), 31);
    // reinforcement as a parabola, 2/3 of height by width
    let heats: Vec<f64> =
        rows.iter().map(|[u, i, v, height, width]| u * i / (v * height * width * 2.0 / 3.0)).collect();
    let mean = heats.iter().sum::<f64>() / 31.0;
    let deviation = (heats.iter().map(|h| (h - mean).powi(2)).sum::<f64>() / 30.0).sqrt();
    let rule = fillet::leg_rule_gross_heat_j_per_mm(6.0) / 18.0;
    assert!((mean - 62.3).abs() < 0.2, "mean {mean:.1} J/mm³");
    assert!((mean / rule - 1.0).abs() < 0.05, "measured {mean:.1}, leg rule {rule:.1} J/mm³");
    let scatter = deviation / mean;
    assert!((scatter - HEAT_FROM_LEG_BIAS).abs() < 0.01, "measured {scatter:.3}, used {HEAT_FROM_LEG_BIAS}");
}
