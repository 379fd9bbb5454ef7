//! A shop procedure: arcs, speed, and the heat they put into a length of weld.

use super::{Arc, fillet, melt};
use serde::{Deserialize, Serialize};
use std::sync;

/// Welding process, named as in EN ISO 4063.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Process {
    /// Submerged arc (12).
    #[default]
    SubmergedArc,
    /// Gas-shielded solid wire (13).
    GasMetalArc,
    /// Flux-cored wire (136, 114).
    FluxCored,
    /// Covered electrode (111).
    ManualMetalArc,
}

impl Process {
    /// Part of the arc energy that enters the steel.
    ///
    /// Submerged arc 0.90: a choice between the calorimeter mean of consumable-electrode processes, 0.84
    /// (DuPont and Marder, Welding Journal 1995, read), and the convention 1.0 of EN 1011-1 Table 1
    /// (memory, sure). Gas metal arc 0.84 (same study, read). Flux cored and manual 0.80 (EN 1011-1).
    pub const fn default_efficiency(self) -> f64 {
        match self {
            Self::SubmergedArc => 0.90,
            Self::GasMetalArc => 0.84,
            Self::FluxCored | Self::ManualMetalArc => 0.80,
        }
    }

    /// Part of the fed wire that ends in the weld: 0.99, solid wire in gas 0.95, flux-cored 0.85, a core without its stub and slag
    /// 0.65 (handbooks, memory).
    const fn deposited(self) -> f64 {
        match self {
            Self::SubmergedArc => 0.99,
            Self::GasMetalArc => 0.95,
            Self::FluxCored => 0.85,
            Self::ManualMetalArc => 0.65,
        }
    }
}

/// One shop procedure.
#[derive(Debug, Clone, PartialEq)]
pub struct Procedure {
    /// Name in the job file.
    pub name: String,
    /// Number of its welding procedure specification, where one is named.
    pub wps: Option<sync::Arc<str>>,
    /// Process.
    pub process: Process,
    /// Arcs that share one pool.
    pub arcs: Vec<Arc>,
    /// Travel speed, mm/s.
    pub travel_speed_mm_s: f64,
    /// Feed of each wire, mm/s, if it is known: the deposit follows from it rather than from the current.
    pub wire_feed_mm_s: Option<f64>,
    /// Part of the arc energy that enters the steel.
    pub efficiency: f64,
    /// Steel temperature before the arc, °C.
    pub preheat_c: f64,
}

impl Procedure {
    /// Arc energy per length, ΣU·I/v, J/mm (AWS and EN 1011-1 give the same before their factor).
    ///
    /// ```
    /// use weldbow_engine::welding::{Arc, Polarity, Procedure, Process};
    /// let arc = Arc {
    ///     wires: 2,
    ///     wire_diameter_mm: Some(1.6),
    ///     current_a: 620.0,
    ///     voltage_v: 30.0,
    ///     polarity: Polarity::ElectrodePositive,
    ///     extension_mm: 20.0,
    /// };
    /// let process = Process::SubmergedArc;
    /// let twin = Procedure {
    ///     name: "twin".into(),
    ///     wps: None,
    ///     process,
    ///     arcs: vec![arc],
    ///     travel_speed_mm_s: 1000.0 / 60.0,
    ///     wire_feed_mm_s: None,
    ///     efficiency: process.default_efficiency(),
    ///     preheat_c: 20.0,
    /// };
    /// // 30 V · 620 A at 1 m/min = 1116 J/mm, of which 0.9 enter the steel; the wire fills a leg of 6.0 mm
    /// assert!((twin.gross_heat_j_per_mm() - 1116.0).abs() < 1e-9);
    /// assert!((twin.net_heat_j_per_mm() - 1004.4).abs() < 1e-9);
    /// assert!(twin.leg_mm().is_some_and(|leg| (leg - 5.98).abs() < 0.02));
    /// ```
    pub fn gross_heat_j_per_mm(&self) -> f64 {
        self.arcs.iter().map(|arc| arc.voltage_v * arc.current_a).sum::<f64>() / self.travel_speed_mm_s
    }

    /// Heat that enters the steel, η·ΣU·I/v, J/mm.
    pub fn net_heat_j_per_mm(&self) -> f64 {
        self.efficiency * self.gross_heat_j_per_mm()
    }

    /// Deposited section, mm²; `None` when a wire diameter is missing or, without a wire feed, the process has no melt-off law here.
    ///
    /// By feed: n·π/4·d²·feed/speed and what of it ends in the weld. One 1.2 mm wire at 8 m/min and 0.4 m/min travel lays
    /// 0.95·1.131·20 = 21.5 mm² (`Process::deposited`).
    pub fn deposit_mm2(&self) -> Option<f64> {
        if let Some(feed) = self.wire_feed_mm_s {
            let sections = self.arcs.iter().map(|arc| {
                let d = arc.wire_diameter_mm?;
                Some(f64::from(arc.wires) * std::f64::consts::FRAC_PI_4 * d * d)
            });
            let wires_mm2: Option<f64> = sections.sum();
            return wires_mm2.map(|mm2| self.process.deposited() * mm2 * feed / self.travel_speed_mm_s);
        }
        if self.process != Process::SubmergedArc {
            return None;
        }
        let kg_per_h: Option<f64> = self.arcs.iter().map(melt::deposition_kg_per_h).sum();
        kg_per_h.map(|rate| melt::section_mm2(rate, self.travel_speed_mm_s))
    }

    /// Leg that its deposit fills, mm.
    pub fn leg_mm(&self) -> Option<f64> {
        self.deposit_mm2().map(fillet::leg_of_deposit_mm)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::welding::Polarity;

    /// By hand: π/4·1.2² = 1.131 mm², fed twenty times as fast as the arc travels, 95 % of it: 21.5 mm², a leg of 6.2 mm.
    #[test]
    fn a_wire_feed_says_what_is_laid_whatever_the_process() {
        let arc = Arc {
            wires: 1,
            wire_diameter_mm: Some(1.2),
            current_a: 240.0,
            voltage_v: 27.0,
            polarity: Polarity::ElectrodePositive,
            extension_mm: 20.0,
        };
        let mut gas = Procedure {
            name: "hand".to_owned(),
            wps: None,
            process: Process::GasMetalArc,
            arcs: vec![arc],
            travel_speed_mm_s: 400.0 / 60.0,
            wire_feed_mm_s: Some(8000.0 / 60.0),
            efficiency: 0.84,
            preheat_c: 20.0,
        };
        let laid = gas.deposit_mm2().unwrap_or_default();
        assert!((laid - 0.95 * 1.130_973 * 20.0).abs() < 1e-4, "{laid} mm²");
        gas.wire_feed_mm_s = None;
        assert_eq!(gas.deposit_mm2(), None, "no melt-off law of this process");
    }
}
