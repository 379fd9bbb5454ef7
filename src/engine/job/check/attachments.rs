//! What is welded across the member: its place, what it is welded to, its heat.

use super::passes::{LEG, ONE_HEAT, PassContext, procedure};
use super::procedure::HEAT;
use crate::input::Hint;
use crate::input::findings::{Bounds, Findings, Lines, bounds, exact, mm, within};
use crate::job::file::{AttachmentShape, PartShape};
use crate::member::Parts;
use crate::prediction::field::ranges::{self, SAME_PLACE_MM};
use crate::units::Length;
use crate::welding::{Attachment, AttachmentKind, HeatSource, Procedure, Process, fillet};

/// Attachments in one job at most, places counted (a choice).
const MOST: usize = 200;

/// Thickness of an attached plate when the job does not say, mm: usual, and on an end (common practice, no source).
const USUAL_MM: [f64; 2] = [10.0, 20.0];

const FILLETS: Bounds = bounds("a number of fillets along an edge", 1.0, 2.0, "1 or 2", "");
const WIDTH: Bounds = bounds("a length of weld across a flange", 5.0, 2000.0, "5 mm to 2 m", "mm");
const THICKNESS: Bounds = within("a plate thickness", &ranges::THICKNESS_MM, "1 mm to 200 mm", "mm");

/// Checks and builds all attachments, along x.
pub(crate) fn attachments(
    shapes: &[AttachmentShape],
    setting: &PassContext<'_>,
    findings: &mut Findings,
) -> Vec<Attachment> {
    let places: usize = shapes.iter().map(|shape| shape.at.len()).sum();
    if places > MOST {
        let wanted = format!("at most {MOST} places");
        findings.push("attachment", format!("{places} places of attachments"), wanted);
        return Vec::new();
    }
    let mut all = Vec::with_capacity(places);
    for (index, shape) in shapes.iter().enumerate() {
        let path = format!("attachment[{index}]");
        let mut table = Lines::of(&path, findings);
        let one = one(&mut table, shape, setting);
        if shape.at.is_empty() {
            let wanted = "at least one place along the member";
            table.push_example("at", "no place", wanted, "at = [\"3.0 m\"]");
        }
        for (n, at) in shape.at.iter().enumerate() {
            let place = place(&format!("{path}.at[{n}]"), shape, *at, setting.length_mm, findings);
            all.extend(one.clone().zip(place).map(|(one, at_mm)| Attachment { at_mm, ..one }));
        }
    }
    all.sort_by(|a, b| a.at_mm.total_cmp(&b.at_mm));
    all
}

/// All of an attachment but its place.
fn one(at: &mut Lines<'_>, shape: &AttachmentShape, setting: &PassContext<'_>) -> Option<Attachment> {
    let before = at.problems();
    let to = parts(at, shape);
    side(at, shape);
    let fillets = shape.fillets.unwrap_or(2);
    let usual = USUAL_MM[usize::from(shape.kind.ends_member())];
    at.given("leg", Some(shape.leg), &LEG);
    at.given("fillets", Some(fillets), &FILLETS);
    let width_mm = at.given("width", shape.width, &WIDTH);
    let thickness_mm = at.one("thickness", shape.thickness, usual, &THICKNESS);
    let procedure = procedure(at, shape.procedure.as_ref(), setting)?;
    let (heat_source, heat) = heat(at, shape, procedure, setting)?;
    (at.problems() == before).then_some(())?;
    Some(Attachment {
        kind: shape.kind,
        at_mm: 0.0,
        side: shape.side,
        to,
        leg_mm: shape.leg.value(),
        heat_j_per_mm: heat,
        heat_source,
        fillets,
        width_mm,
        thickness_mm,
    })
}

/// A side where one is needed, and only there.
fn side(at: &mut Lines<'_>, shape: &AttachmentShape) {
    match (shape.kind, shape.side) {
        (AttachmentKind::Stiffener, None) => {
            let wanted = "the side of the web on which it stands; two of them are a `stiffener-pair`";
            at.push_example("side", "nothing", wanted, "side = \"near\"");
        }
        (AttachmentKind::Stiffener | AttachmentKind::Cleat, _) | (_, None) => {}
        (_, Some(_)) => {
            let wanted = "a `side` only on a single stiffener, or a cleat at the edge of its flange";
            at.push_with("side", "a side", wanted, "leave `side` out");
        }
    }
}

/// Parts it is welded to.
fn parts(at: &mut Lines<'_>, shape: &AttachmentShape) -> Parts {
    let named = shape.to.as_ref();
    let to = PartShape::all(named.map(Vec::as_slice));
    if to == Parts::NONE {
        let wanted = "at least one of web, outer_flange, inner_flange";
        at.push_example("to", "no part", wanted, "to = [\"web\"]");
    } else if shape.kind == AttachmentKind::Cleat && to != Parts::OUTER_FLANGE && to != Parts::INNER_FLANGE {
        let found = if named.is_some() { "more or other than one flange" } else { "nothing" };
        at.push_example("to", found, "the flange that the cleat sits on", "to = [\"outer_flange\"]");
    }
    to
}

fn heat(
    at: &mut Lines<'_>,
    shape: &AttachmentShape,
    procedure: Option<&Procedure>,
    setting: &PassContext<'_>,
) -> Option<(HeatSource, f64)> {
    let efficiency =
        procedure.map_or(Process::GasMetalArc.default_efficiency(), |procedure| procedure.efficiency);
    let (source, key, heat) = match (shape.heat_input, shape.gross_heat_input, procedure) {
        (Some(_), Some(_), _) => {
            at.push_either("gross_heat_input", "two heats", ONE_HEAT);
            return None;
        }
        (Some(net), None, _) => (HeatSource::Stated, "heat_input", net.value()),
        (None, Some(gross), _) => (HeatSource::Stated, "gross_heat_input", efficiency * gross.value()),
        (None, None, Some(procedure)) => (HeatSource::Procedure, "procedure", procedure.net_heat_j_per_mm()),
        (None, None, None) => {
            let rule = fillet::leg_rule_net_heat_j_per_mm(shape.leg.value(), efficiency);
            (HeatSource::Leg, "leg", setting.heat_from_leg * rule)
        }
    };
    Some((source, at.bounded(key, heat, &HEAT)?))
}

/// A place on the member, mm; plates on the ends stand at the ends.
fn place(
    path: &str,
    shape: &AttachmentShape,
    at: Length,
    length_mm: Option<f64>,
    findings: &mut Findings,
) -> Option<f64> {
    let (at, length) = (at.value(), length_mm?);
    let near = |end: f64| (at - end).abs() <= SAME_PLACE_MM;
    if near(0.0) || near(length) {
        return Some(if near(0.0) { 0.0 } else { length });
    }
    if shape.kind.ends_member() {
        let found = format!("{}: not at an end", mm(at));
        let end = if at < 0.5 * length { 0.0 } else { length };
        let wanted = format!("an end of the member, 0 mm or {}", mm(length));
        findings.push_hint(path, found, wanted, Hint::Value(format!("\"{}\"", exact(end))));
        return None;
    }
    if !(0.0..=length).contains(&at) {
        let found = format!("{}: outside the member", mm(at));
        let wanted = format!("a place on the member, 0 mm to {}", mm(length));
        // of a short member the field's own example is outside, too
        let middle = Hint::Example(format!("\"{}\"", exact((0.5 * length).round())));
        findings.push_hint(path, found, wanted, middle);
        return None;
    }
    Some(at)
}
