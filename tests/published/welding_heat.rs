//! Heat, leg and melt-off against handbook rules.

use crate::cases::{all_checked, check};
use serde::Deserialize;
use weldbow::welding::{Arc, Polarity, Procedure, Process, fillet, melt};

const NAME: &str = "welding_heat";

#[derive(Deserialize)]
#[serde(deny_unknown_fields, default)]
struct Given {
    leg_mm: f64,
    d_mm: f64,
    wires: u32,
    amps: f64,
    volts: f64,
    extension_mm: f64,
    speed_mm_s: f64,
}

impl Default for Given {
    fn default() -> Self {
        Self { leg_mm: 0.0, d_mm: 1.6, wires: 1, amps: 0.0, volts: 30.0, extension_mm: 20.0, speed_mm_s: 1.0 }
    }
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

    fn procedure(&self) -> Procedure {
        Procedure {
            name: "test".to_owned(),
            process: Process::SubmergedArc,
            arcs: vec![self.arc()],
            travel_speed_mm_s: self.speed_mm_s,
            efficiency: 0.9,
            preheat_c: 20.0,
        }
    }
}

#[test]
fn heat_leg_and_melt_off_follow_the_handbooks() {
    let rule = |g: &Given| fillet::leg_rule_gross_heat_j_per_mm(g.leg_mm) / 1e3;
    check::<Given>(NAME, "leg rule", |g| rule(g) * 25.4);
    check::<Given>(NAME, "leg rule, metric", rule);
    // the printed melt-off is before the deposition efficiency of 0.99
    check::<Given>(NAME, "melt-off", |g| melt::deposition_kg_per_h(&g.arc()).unwrap() / 0.99);
    check::<Given>(NAME, "speed for a leg", |g| {
        let at_one_mm_s = melt::section_mm2(melt::deposition_kg_per_h(&g.arc()).unwrap(), 1.0);
        at_one_mm_s / fillet::deposit_mm2(g.leg_mm, 0.0) * 60.0 / 1e3
    });
    check::<Given>(NAME, "arc energy", |g| g.procedure().gross_heat_j_per_mm() / 1e3);
    all_checked::<Given>(
        NAME,
        &["leg rule", "leg rule, metric", "melt-off", "speed for a leg", "arc energy"],
    );
}
