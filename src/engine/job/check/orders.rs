//! The sequence: which parts act together, how long the line waits.

use super::passes::{HIGHEST_ORDER, PlacedPass};
use crate::input::findings::{Bounds, Findings, Lines, bounds, within};
use crate::job::file::{OrderShape, PartShape, WaitShape};
use crate::member::Parts;
use crate::prediction::field::ranges;
use crate::welding::{FlangeFit, Wait, WeldingOrder};
use std::collections::BTreeMap;

const WAIT: Bounds = within("a wait", &ranges::WAIT_S, "1 s to a week", "s");
const SPACING: Bounds = bounds("a distance of weld heads", 5.0, 100_000.0, "5 mm to 100 m", "mm");
const NUMBER: Bounds = bounds("the number of a step", 1.0, HIGHEST_ORDER as f64, "1 to 64", "");

/// Each with its entry in the file, if it has one.
type Orders = BTreeMap<u32, (Option<usize>, WeldingOrder)>;

/// Checks and builds every order that the passes name, rising.
pub(crate) fn orders(
    shapes: &[OrderShape],
    named: &[u32],
    laid: &[PlacedPass<'_>],
    findings: &mut Findings,
) -> Vec<WeldingOrder> {
    let mut orders: Orders = named.iter().map(|number| (*number, (None, usual(*number)))).collect();
    for (at, shape) in shapes.iter().enumerate() {
        let path = format!("step[{at}]");
        let Some(number) = findings.bounded(format!("{path}.number"), f64::from(shape.number), &NUMBER)
        else {
            continue;
        };
        match orders.get_mut(&shape.number) {
            None => {
                let found = format!("step {number}, which no pass names");
                let right = format!("leave this entry out, or give a pass `step = {number}`");
                findings.push_with(format!("{path}.number"), found, "the step of at least one pass", right);
            }
            Some((Some(first), _)) => {
                let found = format!("step {number} again, as in entry {}", *first + 1);
                let right = "one [[step]] with all of it";
                findings.push_with(format!("{path}.number"), found, "each step once", right);
            }
            Some(entry) => *entry = (Some(at), one(&mut Lines::of(&path, findings), shape, laid)),
        }
    }
    sequence(&orders, findings);
    welded_parts(&orders, laid, findings);
    orders.into_values().map(|(_, order)| order).collect()
}

const fn usual(number: u32) -> WeldingOrder {
    WeldingOrder { number, joined: Parts::ALL, wait: Wait::Cold, fit: FlangeFit::Straight }
}

fn one(at: &mut Lines<'_>, shape: &OrderShape, laid: &[PlacedPass<'_>]) -> WeldingOrder {
    let joined = PartShape::all(shape.joined.as_deref());
    let wait = match shape.wait {
        None => behind(at, shape, laid).unwrap_or(Wait::Cold),
        Some(_) if shape.head_spacing.is_some() => {
            let wanted = "either `wait`, or `head_spacing` from which it follows";
            at.push_either("head_spacing", "two waits", wanted);
            Wait::Cold
        }
        Some(WaitShape::Cold) => Wait::Cold,
        Some(WaitShape::Time(time)) => {
            at.bounded("wait", time.value(), &WAIT);
            Wait::Seconds(time.value())
        }
    };
    WeldingOrder {
        joined,
        wait,
        fit: shape.added_flange.unwrap_or(FlangeFit::Straight),
        ..usual(shape.number)
    }
}

/// The wait by which heads at a distance follow: that over the travel speed of the order's procedure.
fn behind(at: &mut Lines<'_>, shape: &OrderShape, laid: &[PlacedPass<'_>]) -> Option<Wait> {
    let spacing = shape.head_spacing?;
    let spacing_mm = at.bounded("head_spacing", spacing, &SPACING)?;
    let here = laid.iter().filter(|one| one.pass.order == shape.number);
    let speed = here.filter_map(|one| one.pass.travel_speed_mm_s).reduce(f64::min);
    let Some(speed) = speed else {
        let wanted = "a `procedure` with its travel speed on a pass of this step, or a `wait`";
        at.push_example("head_spacing", "no travel speed to go by", wanted, "wait = \"40 s\"");
        return None;
    };
    let seconds = at.bounded("head_spacing", spacing_mm / speed, &WAIT)?;
    Some(Wait::Seconds(seconds))
}

/// What is joined stays joined, the last order joins everything, and the first waits for nothing.
fn sequence(orders: &Orders, findings: &mut Findings) {
    let mut before: Option<WeldingOrder> = None;
    for (entry, order) in orders.values() {
        if let Some(before) = before.filter(|before| !order.joined.contains(before.joined)) {
            let lost: Vec<_> =
                before.joined.names().filter(|name| !order.joined.names().any(|n| n == *name)).collect();
            let found =
                format!("{} no longer joined, though step {} had joined it", lost.join(", "), before.number);
            let wanted = format!(
                "parts once joined stay joined; a step without `joined` joins all three, so step {} may need its own",
                before.number
            );
            let right = joined_line(before.joined.with(order.joined));
            findings.push_with(joined_path(*entry), found, wanted, right);
            return;
        }
        if let (None, Wait::Seconds(_)) = (before, order.wait) {
            let path = entry.map_or_else(|| "step".to_owned(), |at| format!("step[{at}].wait"));
            let wanted = "no `wait` here: nothing is welded before it";
            findings.push_with(path, "a wait before the first step", wanted, "leave `wait` out");
        }
        before = Some(*order);
    }
    if let Some((entry, last)) = orders.values().next_back().filter(|(_, last)| last.joined != Parts::ALL) {
        let found = format!("only {} joined in the last step", listed(last.joined, ", "));
        let wanted = "all three parts joined in the end";
        findings.push_with(joined_path(*entry), found, wanted, joined_line(Parts::ALL));
    }
}

fn joined_path(entry: Option<usize>) -> String {
    entry.map_or_else(|| "step".to_owned(), |at| format!("step[{at}].joined"))
}

fn joined_line(parts: Parts) -> String {
    format!("joined = [\"{}\"]", listed(parts, "\", \""))
}

fn listed(parts: Parts, between: &str) -> String {
    parts.names().collect::<Vec<_>>().join(between)
}

/// A pass needs its web and its flange.
fn welded_parts(orders: &Orders, laid: &[PlacedPass<'_>], findings: &mut Findings) {
    for PlacedPass { index, pass, .. } in laid {
        let Some((_, order)) = orders.get(&pass.order) else { continue };
        let needed = Parts::WEB.with(Parts::flange(pass.seam));
        if !order.joined.contains(needed) {
            let joined = listed(order.joined, ", ");
            let found = format!("a pass on the {} seam while only {joined} are joined", pass.seam.name());
            let wanted = format!("{} joined in step {}", listed(needed, " and "), pass.order);
            let right = format!("in that [[step]]: {}", joined_line(order.joined.with(needed)));
            findings.push_with(format!("pass[{index}].step"), found, wanted, right);
        }
    }
}
