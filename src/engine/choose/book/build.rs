//! Checks a shop book.

use super::file::{EntryShape, LineShape};
use super::{Entry, Melting, WeldingLine};
use crate::input::findings::{Bounds, Findings, Lines, bounds, mm, rounded, within};
use crate::job::arc_limits::{
    CURRENT, DIAMETER, EFFICIENCY, EXTENSION, PREHEAT, SHOP_C, SPEED, VOLTAGE, WIRES,
};
use crate::prediction::field::ranges;
use crate::strength::USUAL_HYDROGEN;
use crate::units::{Angle, Current, HeatInput, Length, MassRate, Speed, Time, Voltage};
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
    pub fn build(&self, findings: &mut Findings) -> Option<WeldingLine> {
        let mut range = |key: &str, given: Option<(f64, f64)>, usual, bounds: &Bounds| match given {
            Some(given) => pair(&format!("line.{key}"), given, bounds, findings),
            None => Some(usual),
        };
        let lengths = |pair: Option<(Length, Length)>| pair.map(|p| (p.0.value(), p.1.value()));
        let speed =
            range("speed", self.speed.map(|s| (Speed::value(s.0), s.1.value())), USUAL.speed_mm_s, &SPEED);
        let web = range("web", lengths(self.web), USUAL.web_mm, &SIZE);
        let width = range("flange_width", lengths(self.flange_width), USUAL.flange_width_mm, &SIZE);
        let mut one = |key: &str, given: Option<f64>, usual, bounds: &Bounds| match given {
            Some(given) => findings.bounded(format!("line.{key}"), given, bounds),
            None => Some(usual),
        };
        let pivot = self.head_pivot.map(|a| Angle::value(a).to_degrees());
        let thickest = self.thickest_flange.map(Length::value);
        Some(WeldingLine {
            speed_mm_s: speed?,
            web_mm: web?,
            flange_width_mm: width?,
            thickest_flange_mm: one("thickest_flange", thickest, USUAL.thickest_flange_mm, &SIZE)?,
            head_pivot_deg: one("head_pivot", pivot, USUAL.head_pivot_deg, &PIVOT)?,
            both_seams_at_once: self.both_seams_at_once.unwrap_or(USUAL.both_seams_at_once),
            both_sides_at_once: self.both_sides_at_once.unwrap_or(USUAL.both_sides_at_once),
            run_s: one("run", self.run.map(Time::value), USUAL.run_s, &TIME)?,
            turn_over_s: one("turn_over", self.turn_over.map(Time::value), USUAL.turn_over_s, &TIME)?,
            cold_s: one("cold", self.cold.map(Time::value), USUAL.cold_s, &TIME)?,
        })
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
    let mut range = |key: &str, given: (f64, f64), bounds: &Bounds| {
        pair(&format!("{path}.{key}"), given, bounds, findings).unwrap_or(given)
    };
    let current_a = range("current", (Current::value(shape.current.0), shape.current.1.value()), &CURRENT);
    let voltage_v = range("voltage", (Voltage::value(shape.voltage.0), shape.voltage.1.value()), &VOLTAGE);
    let speed_mm_s = range("speed", (Speed::value(shape.speed.0), shape.speed.1.value()), &SPEED);
    let leg_mm = range("leg", (Length::value(shape.leg.0), shape.leg.1.value()), &LEG);
    let stated =
        shape.deposition.map(|d| range("deposition", (MassRate::value(d.0), d.1.value()), &DEPOSITION));
    let gross_heat_j_per_mm =
        shape.heat_input.map(|h| range("heat_input", (HeatInput::value(h.0), h.1.value()), &HEAT));
    let wps = findings.wps(path, shape.wps.as_ref());
    let melting = match stated {
        Some((low, high)) => Melting::Stated(low, high),
        None if shape.process == Process::SubmergedArc => Melting::Law,
        None => {
            let wanted = "`deposition`: only for submerged arc is a melt-off law known here";
            findings.push(format!("{path}.deposition"), "nothing", wanted);
            Melting::Law
        }
    };
    let wires = shape.wires.unwrap_or(1);
    let usual_efficiency = shape.process.default_efficiency();
    let usual_extension = melt::default_extension_mm(shape.wire_diameter.value());
    let mut lines = Lines::of(path, findings);
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

/// Both ends inside their bounds and in order.
fn pair(path: &str, (low, high): (f64, f64), bounds: &Bounds, findings: &mut Findings) -> Option<(f64, f64)> {
    let first = findings.bounded(format!("{path}[0]"), low, bounds);
    let second = findings.bounded(format!("{path}[1]"), high, bounds);
    let (low, high) = (first?, second?);
    if low <= high {
        return Some((low, high));
    }
    let show = |v: f64| match bounds.unit {
        "mm" => mm(v),
        "mm/s" => format!("{} m/min", rounded(v * 0.06)),
        unit => format!("{} {unit}", rounded(v)),
    };
    let found = format!("a range from {} down to {}", show(low), show(high));
    findings.push(path, found, "the lower end first");
    None
}
