//! Heat of an arc, the leg that goes with it, and the arc efficiencies.

use crate::cases::{all_checked, check};
use serde::Deserialize;
use weldbow::welding::fillet::{leg_of_gross_heat_mm, leg_rule_gross_heat_j_per_mm, throat_mm};
use weldbow::welding::{Arc, Polarity, Procedure, Process};

const SHEET: &str = "heat_input";
const MM_PER_IN: f64 = 25.4;

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields, default)]
struct Given {
    leg_mm: f64,
    amps: f64,
    volts: f64,
    in_per_min: f64,
    process: Process,
}

fn kj_per_in(j_per_mm: f64) -> f64 {
    j_per_mm * MM_PER_IN / 1000.0
}

fn arc_energy(g: &Given) -> f64 {
    let arc = Arc {
        wires: 1,
        wire_diameter_mm: None,
        current_a: g.amps,
        voltage_v: g.volts,
        polarity: Polarity::ElectrodePositive,
        extension_mm: 20.0,
    };
    let procedure = Procedure {
        name: "one".to_owned(),
        wps: None,
        process: Process::GasMetalArc,
        arcs: vec![arc],
        travel_speed_mm_s: g.in_per_min * MM_PER_IN / 60.0,
        wire_feed_mm_s: None,
        efficiency: 1.0,
        preheat_c: 20.0,
    };
    let identity = 60.0 * g.volts * g.amps / (1000.0 * g.in_per_min);
    let got = kj_per_in(procedure.gross_heat_j_per_mm());
    assert!((got / identity - 1.0).abs() < 1e-12, "{got} kJ/in, 60 U I/(1000 S) = {identity}");
    got
}

#[test]
fn the_leg_rule_gives_the_table_in_both_systems_of_units() {
    check(SHEET, "heat of a leg, inch units", |g: &Given| kj_per_in(leg_rule_gross_heat_j_per_mm(g.leg_mm)));
    check(SHEET, "heat of a leg", |g: &Given| leg_rule_gross_heat_j_per_mm(g.leg_mm) / 1000.0);
    check(SHEET, "heat per flat metal", |g: &Given| {
        let throat = throat_mm(g.leg_mm);
        leg_rule_gross_heat_j_per_mm(g.leg_mm) / (throat * throat)
    });
}

#[test]
fn the_heat_range_of_the_design_guide_lies_just_below_the_rule() {
    // AISC Design Guide 21 (read second-hand): 20–30 kJ/in for a 1/4 in fillet; the rule asks 31.25
    let legs = [20.0, 30.0].map(|h| leg_of_gross_heat_mm(h * 1000.0 / MM_PER_IN) / MM_PER_IN);
    assert!((legs[0] - 0.2).abs() < 1e-9 && (0.24..0.25).contains(&legs[1]), "legs {legs:?} in");
}

#[test]
fn arc_energy_and_efficiency_are_those_of_the_sources() {
    check(SHEET, "arc energy", arc_energy);
    check(SHEET, "arc efficiency", |g: &Given| g.process.default_efficiency());
}

#[test]
fn every_row_of_the_sheet_is_compared() {
    let checked =
        ["heat of a leg, inch units", "heat of a leg", "heat per flat metal", "arc energy", "arc efficiency"];
    all_checked::<Given>(SHEET, &checked);
}
