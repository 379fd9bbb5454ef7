//! Melt-off, and the schedules of speed and heat that follow from it.

use crate::cases::{all_checked, check};
use serde::Deserialize;
use std::f64::consts::PI;
use weldbow::steel::DENSITY_KG_PER_MM3;
use weldbow::welding::fillet::deposit_mm2;
use weldbow::welding::melt::deposition_kg_per_h;
use weldbow::welding::{Arc, Polarity, Procedure, Process};

const SHEET: &str = "melt_off";
/// Part of the melted wire that ends in the weld, as the sheet's schedules have it.
const DEPOSITED: f64 = 0.99;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    wires: u32,
    d_mm: f64,
    amps: f64,
    extension_mm: f64,
    #[serde(default)]
    volts: f64,
    #[serde(default)]
    leg_mm: f64,
}

impl Given {
    fn arc(&self) -> Arc {
        Arc {
            wires: self.wires,
            wire_diameter_mm: Some(self.d_mm),
            current_a: self.amps,
            voltage_v: self.volts,
            polarity: Polarity::ElectrodePositive,
            extension_mm: self.extension_mm,
        }
    }

    fn deposition(&self) -> f64 {
        deposition_kg_per_h(&self.arc()).unwrap()
    }

    /// Speed at which the deposit fills the leg, mm/s.
    fn speed(&self) -> f64 {
        self.deposition() / 3600.0 / DENSITY_KG_PER_MM3 / deposit_mm2(self.leg_mm, 0.0)
    }

    fn procedure(&self) -> Procedure {
        Procedure {
            name: "schedule".to_owned(),
            wps: None,
            process: Process::SubmergedArc,
            arcs: vec![self.arc()],
            travel_speed_mm_s: self.speed(),
            wire_feed_mm_s: None,
            efficiency: 0.9,
            preheat_c: 20.0,
        }
    }

    fn scaled(&self) -> f64 {
        let wire = PI * self.d_mm * self.d_mm / 4.0;
        9.59e-3 * self.amps + 1.807e-6 * self.extension_mm * self.amps * self.amps / wire
    }
}

#[test]
fn melt_off_follows_the_recalled_coefficients_and_an_independent_set() {
    check(SHEET, "melt-off", |g: &Given| g.deposition() / DEPOSITED);
    check(SHEET, "melt-off over scaled coefficients", |g: &Given| g.deposition() / DEPOSITED / g.scaled());
}

#[test]
fn current_speed_leg_and_heat_hang_together_as_in_the_schedules() {
    check(SHEET, "heat per metal", |g: &Given| {
        g.volts * g.amps * 3600.0 * DENSITY_KG_PER_MM3 / g.deposition()
    });
    check(SHEET, "travel speed", |g: &Given| g.speed() * 60.0 / 1000.0);
    check(SHEET, "arc energy", |g: &Given| {
        let leg = g.procedure().leg_mm().unwrap();
        assert!((leg - g.leg_mm).abs() < 1e-9, "leg {leg} mm of a schedule for {} mm", g.leg_mm);
        g.procedure().gross_heat_j_per_mm() / 1000.0
    });
}

#[test]
fn every_row_of_the_sheet_is_compared() {
    let checked =
        ["melt-off", "melt-off over scaled coefficients", "heat per metal", "travel speed", "arc energy"];
    all_checked::<Given>(SHEET, &checked);
}
