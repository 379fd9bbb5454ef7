//! A qualified procedure: ranges, and the setting inside them that fills a leg.

use crate::numerics::halved;
use crate::strength::Position;
use crate::units::System;
use crate::welding::{Arc, Procedure, Process, fillet, melt};
use std::sync;

/// How much wire melts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Melting {
    /// By the melt-off law of submerged arc.
    Law,
    /// Stated at the lowest and at the highest current, kg/h, straight in between.
    Stated(f64, f64),
}

/// One procedure of the book with its qualified ranges, each (low, high).
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// Name.
    pub name: String,
    /// Number of its welding procedure specification, where one is named.
    pub wps: Option<sync::Arc<str>>,
    /// Process.
    pub process: Process,
    /// Position.
    pub(crate) position: Position,
    /// The arc at its lowest current and voltage; wires, diameter, polarity and extension are fixed.
    pub arc: Arc,
    /// Current of all wires, A.
    pub current_a: (f64, f64),
    /// Voltage, V; it rises with the current.
    pub voltage_v: (f64, f64),
    /// Travel speed, mm/s.
    pub speed_mm_s: (f64, f64),
    /// Leg, mm.
    pub leg_mm: (f64, f64),
    /// Heat input before any efficiency, current times voltage over speed, J/mm; none where nothing is said.
    pub(crate) gross_heat_j_per_mm: Option<(f64, f64)>,
    /// Part of the arc energy that enters the steel.
    pub efficiency: f64,
    /// Steel temperature before the arc, °C.
    pub preheat_c: f64,
    /// Hydrogen of the weld metal, ml per 100 g.
    pub(crate) hydrogen_ml_per_100_g: f64,
    /// Melt-off.
    pub(crate) melting: Melting,
}

/// Current, voltage and speed of one pass, as a shop sets them.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct ArcSetting {
    /// Current of all wires, A.
    pub current_a: f64,
    /// Voltage, V.
    pub voltage_v: f64,
    /// Travel speed, mm/s.
    pub speed_mm_s: f64,
}

/// A step of the current dial, A (choice).
const CURRENT_STEP_A: f64 = 5.0;
/// A step of the voltage dial, V (choice).
const VOLTAGE_STEP_V: f64 = 0.5;
/// So much of a step counts as none.
const HAIR: f64 = 1e-6;

/// Step of the travel speed, mm/s: 0.01 m/min, 1/2 in/min (choice).
pub fn speed_step_mm_s(system: System) -> f64 {
    system.pick(10.0 / 60.0, 12.7 / 60.0)
}

impl Entry {
    /// Deposition at a current, kg/h.
    pub fn deposition_kg_per_h(&self, current_a: f64) -> f64 {
        match self.melting {
            Melting::Law => melt::deposition_kg_per_h(&Arc { current_a, ..self.arc.clone() }).unwrap_or(0.0),
            Melting::Stated(low, high) => low + self.share(current_a) * (high - low),
        }
    }

    /// Least heat that its ranges allow, after arc efficiency, kJ/mm.
    pub(crate) fn least_heat_kj_per_mm(&self) -> f64 {
        let gross = self.current_a.0 * self.voltage_v.0 / self.speed_mm_s.1;
        let gross = self.gross_heat_j_per_mm.map_or(gross, |held| gross.max(held.0));
        1e-3 * self.efficiency * gross
    }

    /// Place of a current in its range, 0 to 1.
    fn share(&self, current_a: f64) -> f64 {
        let (low, high) = self.current_a;
        if high > low { ((current_a - low) / (high - low)).clamp(0.0, 1.0) } else { 0.0 }
    }

    /// Speed at which a current fills a leg over a gap, mm/s.
    fn filling_mm_s(&self, current_a: f64, leg_mm: f64, gap_mm: f64) -> f64 {
        melt::section_mm2(self.deposition_kg_per_h(current_a), 1.0) / fillet::deposit_mm2(leg_mm, gap_mm)
    }

    /// Speeds at which the qualified currents fill a leg over a gap, mm/s, also inside the qualified speeds; `None` if
    /// there is none or the leg is outside its range.
    pub fn speeds_mm_s(&self, leg_mm: f64, gap_mm: f64) -> Option<(f64, f64)> {
        if leg_mm < self.leg_mm.0 - HAIR || leg_mm > self.leg_mm.1 + HAIR {
            return None;
        }
        let low = self.filling_mm_s(self.current_a.0, leg_mm, gap_mm).max(self.speed_mm_s.0);
        let high = self.filling_mm_s(self.current_a.1, leg_mm, gap_mm).min(self.speed_mm_s.1);
        (low <= high).then_some((low, high))
    }

    /// The same with a part of each range, current and speed, kept free at either end.
    pub(crate) fn speeds_within(&self, leg_mm: f64, gap_mm: f64, margin: f64) -> Option<(f64, f64)> {
        let inner = |(low, high): (f64, f64)| (low + margin * (high - low), high - margin * (high - low));
        let current_a = inner(self.current_a);
        // deposition goes by the place in the whole range
        let speed = |current: f64| self.filling_mm_s(current, leg_mm, gap_mm);
        let (slowest, fastest) = inner(self.speed_mm_s);
        let (low, high) = self.speeds_mm_s(leg_mm, gap_mm)?;
        let (low, high) =
            (low.max(speed(current_a.0)).max(slowest), high.min(speed(current_a.1)).min(fastest));
        (low <= high).then_some((low, high))
    }

    /// How near a setting comes to the edge of the qualified currents and speeds: 0 in the middle of both, 1 on an edge.
    pub fn edge(&self, setting: &ArcSetting) -> f64 {
        let off = |value: f64, (low, high): (f64, f64)| {
            if high > low { (2.0 * (value - low) / (high - low) - 1.0).abs() } else { 0.0 }
        };
        off(setting.current_a, self.current_a).max(off(setting.speed_mm_s, self.speed_mm_s)).min(1.0)
    }

    /// Setting that fills a leg at a speed: the current rounded up to its dial, so that the leg is filled; `None`
    /// outside the qualified ranges.
    pub fn setting(&self, leg_mm: f64, gap_mm: f64, speed_mm_s: f64) -> Option<ArcSetting> {
        let wanted = fillet::deposit_mm2(leg_mm, gap_mm) * speed_mm_s;
        let fills = |current: f64| melt::section_mm2(self.deposition_kg_per_h(current), 1.0) >= wanted;
        let (low, high) = self.current_a;
        if !fills(high) {
            return None;
        }
        let wide = |below: f64, above: f64| above - below > 0.01;
        let above = if fills(low) {
            low
        } else {
            halved([low, high], usize::MAX, wide, |current| !fills(current))[1]
        };
        let current_a = ((above / CURRENT_STEP_A - HAIR).ceil() * CURRENT_STEP_A).clamp(low, high);
        let voltage = self.voltage_v.0 + self.share(current_a) * (self.voltage_v.1 - self.voltage_v.0);
        let voltage_v =
            ((voltage / VOLTAGE_STEP_V).round() * VOLTAGE_STEP_V).clamp(self.voltage_v.0, self.voltage_v.1);
        let gross = current_a * voltage_v / speed_mm_s;
        let held = self.gross_heat_j_per_mm.is_none_or(|(least, most)| (least..=most).contains(&gross));
        held.then_some(ArcSetting { current_a, voltage_v, speed_mm_s })
    }

    /// The procedure at a setting.
    pub fn procedure(&self, setting: &ArcSetting) -> Procedure {
        Procedure {
            name: self.name.clone(),
            wps: self.wps.clone(),
            process: self.process,
            arcs: vec![Arc {
                current_a: setting.current_a,
                voltage_v: setting.voltage_v,
                ..self.arc.clone()
            }],
            travel_speed_mm_s: setting.speed_mm_s,
            wire_feed_mm_s: None,
            efficiency: self.efficiency,
            preheat_c: self.preheat_c,
        }
    }

    /// Net heat at a setting, J/mm.
    pub fn net_heat_j_per_mm(&self, setting: &ArcSetting) -> f64 {
        self.efficiency * setting.current_a * setting.voltage_v / setting.speed_mm_s
    }

    /// Deposited section at a setting, mm².
    pub fn deposit_mm2(&self, setting: &ArcSetting) -> f64 {
        melt::section_mm2(self.deposition_kg_per_h(setting.current_a), setting.speed_mm_s)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::choose::book::entries;
    use crate::choose::book::file::EntryShape;
    use crate::input::findings::Findings;

    fn twin() -> Entry {
        let text = r#"
            name = "twin"
            wires = 2
            wire_diameter = "1.6 mm"
            current = ["450 A", "700 A"]
            voltage = ["28 V", "31 V"]
            speed = ["0.6 m/min", "2.2 m/min"]
            leg = ["3 mm", "8 mm"]
        "#;
        let shape: EntryShape = toml::from_str(text).unwrap();
        entries(&[shape], &mut Findings::default()).unwrap().remove(0)
    }

    #[test]
    fn the_current_that_fills_a_leg_is_the_least_of_the_dial_that_does() {
        let entry = twin();
        for leg in [4.5, 5.0, 6.0] {
            let (slow, fast) = entry.speeds_mm_s(leg, 0.0).unwrap();
            for speed in [slow, 0.5 * (slow + fast), fast] {
                let setting = entry.setting(leg, 0.0, speed).unwrap();
                let wanted = fillet::deposit_mm2(leg, 0.0);
                let laid = entry.deposit_mm2(&setting);
                assert!(
                    laid >= wanted * (1.0 - 1e-3),
                    "leg {leg}: {laid} mm² for {wanted} mm² at {setting:?}"
                );
                let less = ArcSetting { current_a: setting.current_a - CURRENT_STEP_A, ..setting };
                let under = entry.deposit_mm2(&less);
                assert!(
                    under < wanted || less.current_a < entry.current_a.0,
                    "leg {leg}: {under} mm² would do for {wanted} mm²"
                );
            }
        }
    }

    #[test]
    fn more_current_and_speed_for_the_same_leg_bring_less_heat() {
        let entry = twin();
        let (slow, fast) = entry.speeds_mm_s(5.0, 0.0).unwrap();
        let heat = |speed| entry.net_heat_j_per_mm(&entry.setting(5.0, 0.0, speed).unwrap());
        assert!(heat(fast) < heat(slow), "{} J/mm fast, {} J/mm slow", heat(fast), heat(slow));
    }

    #[test]
    fn a_heat_input_that_is_not_qualified_gives_no_setting() {
        let entry = twin();
        let (_, fast) = entry.speeds_mm_s(5.0, 0.0).unwrap();
        let setting = entry.setting(5.0, 0.0, fast).unwrap();
        let gross = setting.current_a * setting.voltage_v / fast;
        let held = |least, most| Entry { gross_heat_j_per_mm: Some((least, most)), ..entry.clone() };
        assert!(held(0.9 * gross, 1.1 * gross).setting(5.0, 0.0, fast).is_some());
        assert!(held(1.1 * gross, 2.0 * gross).setting(5.0, 0.0, fast).is_none());
        let (low, high) = entry.speeds_within(5.0, 0.0, 0.1).unwrap();
        let (slow, fast) = entry.speeds_mm_s(5.0, 0.0).unwrap();
        assert!(slow < low && high < fast, "{slow} {low} {high} {fast}");
    }
}
