//! Checks a shop book.

use super::file::{EntryShape, LineShape};
use super::{Entry, Melting, WeldingLine};
use crate::input::findings::{Bounds, Findings, Lines, bounds, within};
use crate::job::arc_limits::{
    CURRENT, DIAMETER, EFFICIENCY, EXTENSION, PREHEAT, SHOP_C, SPEED, VOLTAGE, WIRES,
};
use crate::prediction::field::ranges;
use crate::strength::USUAL_HYDROGEN;
use crate::welding::{Arc, Process, melt};

const LEG: Bounds = within("a fillet leg", &ranges::LEG_MM, "1 mm to 25 mm", "mm");
const HYDROGEN: Bounds = bounds("a hydrogen content of weld metal", 1.0, 20.0, "1 to 20 ml per 100 g", "");
const DEPOSITION: Bounds = bounds("a deposition", 0.1, 100.0, "0.1 kg/h to 100 kg/h", "kg/h");
const HEAT: Bounds = bounds("a heat input", 50.0, 20_000.0, "0.05 kJ/mm to 20 kJ/mm", "J/mm");
const SIZE: Bounds = bounds("a size", 10.0, 10_000.0, "10 mm to 10 m", "mm");
const PIVOT: Bounds = bounds("an inclination the weld heads follow", 1.0, 45.0, "1° to 45°", "deg");
const TIME: Bounds = bounds("a time", 0.0, 604_800.0, "none to a week", "s");

/// A welding line of round sizes (choice).
const USUAL: WeldingLine = WeldingLine {
    speed_mm_s: (200.0 / 60.0, 2500.0 / 60.0),
    web_mm: (200.0, 1800.0),
    flange_width_mm: (100.0, 500.0),
    thickest_flange_mm: 32.0,
    head_pivot_deg: 15.0,
    both_seams_at_once: true,
    both_sides_at_once: false,
    run_s: 600.0,
    turn_over_s: 600.0,
    cold_s: 7200.0,
};

impl LineShape {
    /// Checks it.
    pub fn build(&self, findings: &mut Findings) -> WeldingLine {
        let mut lines = Lines::of("line", findings);
        WeldingLine {
            speed_mm_s: lines.pair("speed", self.speed, &SPEED).unwrap_or(USUAL.speed_mm_s),
            web_mm: lines.pair("web", self.web, &SIZE).unwrap_or(USUAL.web_mm),
            flange_width_mm: lines
                .pair("flange_width", self.flange_width, &SIZE)
                .unwrap_or(USUAL.flange_width_mm),
            thickest_flange_mm: lines.one(
                "thickest_flange",
                self.thickest_flange,
                USUAL.thickest_flange_mm,
                &SIZE,
            ),
            head_pivot_deg: lines.one(
                "head_pivot",
                self.head_pivot.map(|a| a.value().to_degrees()),
                USUAL.head_pivot_deg,
                &PIVOT,
            ),
            both_seams_at_once: self.both_seams_at_once.unwrap_or(USUAL.both_seams_at_once),
            both_sides_at_once: self.both_sides_at_once.unwrap_or(USUAL.both_sides_at_once),
            run_s: lines.one("run", self.run, USUAL.run_s, &TIME),
            turn_over_s: lines.one("turn_over", self.turn_over, USUAL.turn_over_s, &TIME),
            cold_s: lines.one("cold", self.cold, USUAL.cold_s, &TIME),
        }
    }
}

/// Checks all entries; `None` if one is wrong or there is none.
pub(crate) fn entries(shapes: &[EntryShape], findings: &mut Findings) -> Option<Vec<Entry>> {
    if shapes.is_empty() {
        let wanted = "at least one [[book]]: a procedure with its qualified ranges";
        let right =
            "[[book]] with name, wire_diameter, current, voltage, speed and leg, each on a line of its own";
        findings.push_with("book", "no procedure at all", wanted, right);
        return None;
    }
    let before = findings.0.len();
    let built: Vec<Entry> =
        shapes.iter().enumerate().map(|(at, shape)| entry(&format!("book[{at}]"), shape, findings)).collect();
    let sound = findings.0.len() == before;
    for (at, shape) in shapes.iter().enumerate() {
        if shapes[..at].iter().any(|before| before.name == shape.name) {
            let found = format!("`{}` again", shape.name);
            let example = "name = \"twin-2.0\"";
            findings.push_example(format!("book[{at}].name"), found, "a name of its own", example);
        }
    }
    sound.then_some(built)
}

/// Checks an entry; of one that is wrong nothing is used.
fn entry(path: &str, shape: &EntryShape, findings: &mut Findings) -> Entry {
    let wps = findings.wps(path, shape.wps.as_ref());
    let usual_efficiency = shape.process.default_efficiency();
    let usual_extension = melt::default_extension_mm(shape.wire_diameter.value());
    let wires = shape.wires.unwrap_or(1);
    let mut lines = Lines::of(path, findings);
    let (current_a, voltage_v) =
        (lines.both("current", shape.current, &CURRENT), lines.both("voltage", shape.voltage, &VOLTAGE));
    let (speed_mm_s, leg_mm) = (lines.both("speed", shape.speed, &SPEED), lines.both("leg", shape.leg, &LEG));
    let stated = lines.pair("deposition", shape.deposition, &DEPOSITION);
    let gross_heat_j_per_mm = lines.pair("heat_input", shape.heat_input, &HEAT);
    let melting = match stated {
        Some((low, high)) => Melting::Stated(low, high),
        None if shape.process == Process::SubmergedArc => Melting::Law,
        None => {
            let wanted = "`deposition`: only for submerged arc is a melt-off law known here";
            lines.push("deposition", "nothing", wanted);
            Melting::Law
        }
    };
    lines.given("wires", Some(wires), &WIRES);
    lines.given("wire_diameter", Some(shape.wire_diameter), &DIAMETER);
    Entry {
        name: shape.name.clone(),
        wps,
        process: shape.process,
        position: shape.position,
        arc: Arc {
            wires,
            wire_diameter_mm: Some(shape.wire_diameter.value()),
            current_a: current_a.0,
            voltage_v: voltage_v.0,
            polarity: shape.polarity.unwrap_or_default(),
            extension_mm: lines.one("extension", shape.extension, usual_extension, &EXTENSION),
        },
        current_a,
        voltage_v,
        speed_mm_s,
        leg_mm,
        gross_heat_j_per_mm,
        efficiency: lines.one("arc_efficiency", shape.arc_efficiency, usual_efficiency, &EFFICIENCY),
        preheat_c: lines.one("preheat", shape.preheat, SHOP_C, &PREHEAT),
        hydrogen_ml_per_100_g: lines.one("hydrogen", shape.hydrogen, USUAL_HYDROGEN, &HYDROGEN),
        melting,
    }
}
