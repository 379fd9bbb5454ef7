//! Shop procedures.

use crate::input::findings::{Bounds, Findings, Lines, bounds, rounded, within};
use crate::input::{Hint, PathStep, text_of};
use crate::job::arc_limits::{
    CURRENT, DIAMETER, EFFICIENCY, EXTENSION, PREHEAT, SHOP_C, SPEED, VOLTAGE, WIRES,
};
use crate::job::file::{ArcShape, ProcedureShape};
use crate::prediction::field::ranges;
use crate::welding::{Arc, Procedure, melt};
use std::collections::BTreeMap;

const FEED: Bounds = bounds("a wire feed", 5.0, 1000.0, "0.3 m/min to 60 m/min", "mm/s");
const ARCS: Bounds = bounds("a number of arcs in one pool", 1.0, 6.0, "1 to 6", "arcs");

/// Net heat of one pass that the model covers, J/mm.
pub(crate) const HEAT: Bounds =
    within("a net heat input", &ranges::HEAT_J_PER_MM, "0.02 kJ/mm to 20 kJ/mm", "J/mm");

/// Extension of an arc whose wire diameter is not given, mm: never used, as its deposit is unknown too.
const UNKNOWN_WIRE_EXTENSION_MM: f64 = 25.0;

/// Every procedure by name; `None` for one that is written but wrong.
pub(super) type Procedures = BTreeMap<String, Option<Procedure>>;

/// Checks and builds all procedures.
pub(crate) fn all(shapes: &BTreeMap<String, ProcedureShape>, findings: &mut Findings) -> Procedures {
    shapes.iter().map(|(name, shape)| (name.clone(), one(name, shape, findings))).collect()
}

fn one(name: &str, shape: &ProcedureShape, findings: &mut Findings) -> Option<Procedure> {
    let path = text_of(&[PathStep::Key("procedure".to_owned()), PathStep::Key(name.to_owned())]);
    let mut at = Lines::of(&path, findings);
    let wps = at.wps(shape.wps.as_ref());
    let arcs = arcs(&mut at, shape);
    let before = at.problems();
    let usual = shape.process.default_efficiency();
    at.given("travel_speed", Some(shape.travel_speed), &SPEED);
    let efficiency = at.one("arc_efficiency", shape.arc_efficiency, usual, &EFFICIENCY);
    let preheat_c = at.one("preheat", shape.preheat, SHOP_C, &PREHEAT);
    let wire_feed_mm_s = at.given("wire_feed", shape.wire_feed, &FEED);
    (at.problems() == before).then_some(())?;
    let procedure = Procedure {
        name: name.to_owned(),
        wps,
        process: shape.process,
        arcs: arcs?,
        travel_speed_mm_s: shape.travel_speed.value(),
        wire_feed_mm_s,
        efficiency,
        preheat_c,
    };
    let heat = procedure.net_heat_j_per_mm();
    if !(HEAT.low..=HEAT.high).contains(&heat) {
        let found =
            format!("a net heat input of {} kJ/mm from current, voltage and speed", rounded(heat / 1000.0));
        let wanted =
            format!("{} of {}; anything else is outside what this model covers", HEAT.what, HEAT.words);
        let right = "current = \"620 A\", voltage = \"30 V\", travel_speed = \"1.0 m/min\", for 1 kJ/mm";
        findings.push_hint(path, found, wanted, Hint::Example(right.to_owned()));
        return None;
    }
    Some(procedure)
}

fn arcs(at: &mut Lines<'_>, shape: &ProcedureShape) -> Option<Vec<Arc>> {
    let single = shape.single_arc();
    let Some(several) = &shape.arcs else { return arc(at, &single).map(|arc| vec![arc]) };
    if let Some(key) = first_given(&single) {
        let wanted = "each arc under `arcs`, or one arc written directly, not both";
        let right = format!("leave `{key}` out, or `arcs`");
        at.push_with(key, format!("`{key}` beside `arcs`"), wanted, right);
    }
    at.bounded("arcs", several.len() as f64, &ARCS)?;
    let built: Vec<_> = several
        .iter()
        .enumerate()
        .map(|(n, shape)| at.at(&format!("arcs[{n}]"), |at| arc(at, shape)))
        .collect();
    built.into_iter().collect()
}

fn first_given(arc: &ArcShape) -> Option<&'static str> {
    let given = [
        (arc.wires.is_some(), "wires"),
        (arc.wire_diameter.is_some(), "wire_diameter"),
        (arc.current.is_some(), "current"),
        (arc.current_per_wire.is_some(), "current_per_wire"),
        (arc.voltage.is_some(), "voltage"),
        (arc.polarity.is_some(), "polarity"),
        (arc.extension.is_some(), "extension"),
    ];
    given.into_iter().find(|(given, _)| *given).map(|(_, key)| key)
}

fn arc(at: &mut Lines<'_>, shape: &ArcShape) -> Option<Arc> {
    let before = at.problems();
    let wires = shape.wires.unwrap_or(1);
    let usual =
        shape.wire_diameter.map_or(UNKNOWN_WIRE_EXTENSION_MM, |d| melt::default_extension_mm(d.value()));
    at.given("wires", Some(wires), &WIRES);
    let wire_diameter_mm = at.given("wire_diameter", shape.wire_diameter, &DIAMETER);
    let extension_mm = at.one("extension", shape.extension, usual, &EXTENSION);
    let current = match (shape.current, shape.current_per_wire) {
        (Some(all), None) => at.bounded("current", all.value(), &CURRENT),
        (None, Some(each)) => {
            let all = each.value() * f64::from(wires);
            at.bounded("current_per_wire", all, &CURRENT)
        }
        (Some(_), Some(_)) => {
            let wanted = "either `current` (all wires together) or `current_per_wire`";
            at.push_either("current_per_wire", "two currents", wanted);
            None
        }
        (None, None) => {
            let wanted = "`current` of all wires together, or `current_per_wire`";
            at.push("current", "nothing", wanted);
            None
        }
    };
    let voltage = match shape.voltage {
        Some(given) => at.bounded("voltage", given.value(), &VOLTAGE),
        None => {
            at.push("voltage", "nothing", "`voltage` of the arc");
            None
        }
    };
    (at.problems() == before).then_some(())?;
    Some(Arc {
        wires,
        wire_diameter_mm,
        current_a: current?,
        voltage_v: voltage?,
        polarity: shape.polarity.unwrap_or_default(),
        extension_mm,
    })
}
