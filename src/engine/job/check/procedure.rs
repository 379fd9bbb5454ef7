//! Shop procedures.

use crate::input::findings::{Bounds, Findings, bounds, rounded, within};
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
    let speed = findings.bounded(format!("{path}.travel_speed"), shape.travel_speed.value(), &SPEED);
    let efficiency = match shape.arc_efficiency {
        Some(given) => findings.bounded(format!("{path}.arc_efficiency"), given, &EFFICIENCY),
        None => Some(shape.process.default_efficiency()),
    };
    let preheat = match shape.preheat {
        Some(given) => findings.bounded(format!("{path}.preheat"), given.value(), &PREHEAT),
        None => Some(SHOP_C),
    };
    let arcs = arcs(&path, shape, findings);
    let feed = shape.wire_feed.map_or(Some(None), |feed| {
        findings.bounded(format!("{path}.wire_feed"), feed.value(), &FEED).map(Some)
    });
    let procedure = Procedure {
        name: name.to_owned(),
        wps: findings.wps(&path, shape.wps.as_ref()),
        process: shape.process,
        arcs: arcs?,
        travel_speed_mm_s: speed?,
        wire_feed_mm_s: feed?,
        efficiency: efficiency?,
        preheat_c: preheat?,
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

fn arcs(path: &str, shape: &ProcedureShape, findings: &mut Findings) -> Option<Vec<Arc>> {
    let single = shape.single_arc();
    let Some(several) = &shape.arcs else { return arc(path, &single, findings).map(|arc| vec![arc]) };
    if let Some(key) = first_given(&single) {
        let wanted = "each arc under `arcs`, or one arc written directly, not both";
        let right = format!("leave `{key}` out, or `arcs`");
        findings.push_with(format!("{path}.{key}"), format!("`{key}` beside `arcs`"), wanted, right);
    }
    findings.bounded(format!("{path}.arcs"), several.len() as f64, &ARCS)?;
    let built: Vec<_> = several
        .iter()
        .enumerate()
        .map(|(at, shape)| arc(&format!("{path}.arcs[{at}]"), shape, findings))
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

fn arc(path: &str, shape: &ArcShape, findings: &mut Findings) -> Option<Arc> {
    let wires = shape.wires.unwrap_or(1);
    let wires_sound = findings.bounded(format!("{path}.wires"), f64::from(wires), &WIRES);
    let diameter =
        shape.wire_diameter.map(|d| findings.length(format!("{path}.wire_diameter"), d, &DIAMETER));
    let extension = shape.extension.map(|e| findings.length(format!("{path}.extension"), e, &EXTENSION));
    let current = match (shape.current, shape.current_per_wire) {
        (Some(all), None) => findings.bounded(format!("{path}.current"), all.value(), &CURRENT),
        (None, Some(each)) => {
            let all = each.value() * f64::from(wires);
            findings.bounded(format!("{path}.current_per_wire"), all, &CURRENT)
        }
        (Some(_), Some(_)) => {
            let wanted = "either `current` (all wires together) or `current_per_wire`";
            findings.push_with(
                format!("{path}.current_per_wire"),
                "two currents",
                wanted,
                "leave one of the two out",
            );
            None
        }
        (None, None) => {
            findings.push(
                format!("{path}.current"),
                "nothing",
                "`current` of all wires together, or `current_per_wire`",
            );
            None
        }
    };
    let voltage = match shape.voltage {
        Some(given) => findings.bounded(format!("{path}.voltage"), given.value(), &VOLTAGE),
        None => {
            findings.push(format!("{path}.voltage"), "nothing", "`voltage` of the arc");
            None
        }
    };
    wires_sound?;
    let wire_diameter_mm = diameter.map_or(Some(None), |d| d.map(Some))?;
    let usual = wire_diameter_mm.map_or(UNKNOWN_WIRE_EXTENSION_MM, melt::default_extension_mm);
    Some(Arc {
        wires,
        wire_diameter_mm,
        current_a: current?,
        voltage_v: voltage?,
        polarity: shape.polarity.unwrap_or_default(),
        extension_mm: extension.unwrap_or(Some(usual))?,
    })
}
