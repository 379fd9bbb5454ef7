//! Passes: their place on the member, and their leg, heat and deposit.

use super::procedure::{HEAT, Procedures};
use super::wanted::FACTOR;
use crate::input::findings::{Bounds, Findings, Lines, bounds, exact, mm, within};
use crate::input::{Hint, near};
use crate::job::arc_limits::SHOP_C;
use crate::job::file::PassShape;
use crate::prediction::field::ranges::{self, SAME_PLACE_MM, SHORTEST_MM};
use crate::units::Length;
use crate::welding::{HeatSource, Pass, Procedure, Process, fillet};

/// Passes in one job at most (a choice).
const MOST_PASSES: usize = 64;

/// Highest order number (a choice: as many as there may be passes).
pub(crate) const HIGHEST_ORDER: u32 = 64;

/// A whole pass in one line.
const ONE_PASS: &str = "[[pass]]\nseam = \"outer\"\nside = \"near\"\nleg = \"6 mm\"";

/// Of what is laid, net or gross.
pub(super) const ONE_HEAT: &str =
    "either `heat_input` (net) or `gross_heat_input` (as a welding procedure states it)";

pub(crate) const LEG: Bounds = within("a fillet leg", &ranges::LEG_MM, "1 mm to 25 mm", "mm");
const RUNS: Bounds = bounds("a number of runs", 1.0, 6.0, "1 to 6", "");
const STITCH: Bounds = bounds("a stitch", 5.0, 10_000.0, "5 mm to 10 m", "mm");
const STITCH_GAP: Bounds = bounds("a gap between stitches", 0.0, 10_000.0, "0 mm to 10 m", "mm");
const ORDER: Bounds = bounds("a step", 1.0, HIGHEST_ORDER as f64, "1 to 64", "");

/// What passes are checked against.
pub(super) struct PassContext<'a> {
    /// Member length, mm, if it is sound.
    pub length_mm: Option<f64>,
    /// Root gap, mm.
    pub gap_mm: f64,
    /// Procedures by name.
    pub procedures: &'a Procedures,
    /// Multiplier on heat deduced from a leg.
    pub(crate) heat_from_leg: f64,
}

/// A pass with the procedure it was laid with.
pub(super) struct PlacedPass<'a> {
    /// Its number in the file, from 0.
    pub index: usize,
    /// The pass.
    pub pass: Pass,
    /// Its procedure.
    pub procedure: Option<&'a Procedure>,
    /// Runs that build it up.
    pub runs: u32,
}

/// Checks and builds all passes, in the order of the file.
pub(super) fn passes<'a>(
    shapes: &[PassShape],
    setting: &PassContext<'a>,
    findings: &mut Findings,
) -> Vec<PlacedPass<'a>> {
    if shapes.is_empty() {
        let wanted = "at least one [[pass]]: without welds nothing distorts";
        findings.push_hint("pass", "no pass at all", wanted, Hint::Example(ONE_PASS.to_owned()));
    }
    if shapes.len() > MOST_PASSES {
        let wanted = format!(
            "at most {MOST_PASSES}: a pass is one weld laid along a seam; stitches are one pass with \
             `intermittent = \"200 mm weld, 100 mm gap\"`"
        );
        findings.push_hint("pass", format!("{} passes", shapes.len()), wanted, Hint::Nothing);
        return Vec::new();
    }
    let laid: Vec<PlacedPass<'a>> = shapes
        .iter()
        .enumerate()
        .filter_map(|(index, shape)| {
            let (pass, procedure, runs) =
                one(&mut Lines::of(&format!("pass[{index}]"), findings), shape, setting)?;
            Some(PlacedPass { index, pass, procedure, runs })
        })
        .collect();
    overlaps(&laid, findings);
    laid
}

fn one<'a>(
    at: &mut Lines<'_>,
    shape: &PassShape,
    setting: &PassContext<'a>,
) -> Option<(Pass, Option<&'a Procedure>, u32)> {
    let range = range(at, shape, setting.length_mm);
    let order = at.bounded("step", f64::from(shape.order), &ORDER);
    let runs = at.bounded("runs", f64::from(shape.runs.unwrap_or(1)), &RUNS);
    let stitch = shape.intermittent.as_ref().map_or(Some(None), |stitch| {
        at.bounded("intermittent", stitch.weld_mm(), &STITCH)?;
        at.bounded("intermittent", stitch.gap_mm(), &STITCH_GAP)?;
        Some(Some(stitch.stitch()))
    });
    let force_factor =
        shape.force_factor.map_or(Some(1.0), |factor| at.bounded("force_factor", factor, &FACTOR));
    let procedure = procedure(at, shape.procedure.as_ref(), setting);
    let own_wps = at.wps(shape.wps.as_ref());
    let stated_leg = shape.leg.map(|leg| at.bounded("leg", leg, &LEG));
    let stated_heat = shape.heat_input.map(|q| at.bounded("heat_input", q.value(), &HEAT));
    if shape.heat_input.is_some() && shape.gross_heat_input.is_some() {
        at.push_either("gross_heat_input", "two heats", ONE_HEAT);
        return None;
    }

    let procedure = procedure?;
    let stated_heat = stated_heat.or_else(|| {
        let gross = shape.gross_heat_input?.value();
        let efficiency = efficiency(procedure);
        Some(at.bounded("gross_heat_input", efficiency * gross, &HEAT))
    });
    let leg_mm = match stated_leg {
        Some(leg) => leg,
        None => leg_of_deposit(at, procedure).map(|leg| leg * runs.unwrap_or(1.0).sqrt()),
    }?;
    let runs = runs?;
    let (heat_source, heat) = match (stated_heat, procedure) {
        (Some(stated), _) => (HeatSource::Stated, stated?),
        (None, Some(procedure)) => (HeatSource::Procedure, procedure.net_heat_j_per_mm()),
        (None, None) => {
            (HeatSource::Leg, setting.heat_from_leg * leg_rule_net_heat(leg_mm / runs.sqrt(), None))
        }
    };
    at.bounded(if heat_source == HeatSource::Leg { "leg" } else { "" }, heat, &HEAT)?;
    let (from_mm, to_mm) = range?;
    order?;
    let deposit = procedure.and_then(Procedure::deposit_mm2).map(|one| one * runs);
    let pass = Pass {
        seam: shape.seam,
        side: shape.side,
        from_mm,
        to_mm,
        order: shape.order,
        leg_mm,
        layers: 1,
        heat_j_per_mm: heat,
        heat_source,
        deposit_mm2: deposit.unwrap_or_else(|| fillet::deposit_mm2(leg_mm, setting.gap_mm)),
        stitch: stitch?,
        preheat_k: procedure.map_or(0.0, |p| p.preheat_c - SHOP_C),
        force_factor: force_factor?,
        process: procedure.map_or(Process::SubmergedArc, |p| p.process),
        travel_speed_mm_s: procedure.map(|p| p.travel_speed_mm_s),
        wps: own_wps.or_else(|| procedure?.wps.clone()),
    };
    Some((pass, procedure, shape.runs.unwrap_or(1)))
}

/// Net heat that goes with a leg by the leg rule, J/mm. The rule is one of submerged arc, whose efficiency
/// holds where no procedure says otherwise.
pub(crate) fn leg_rule_net_heat(leg_mm: f64, procedure: Option<&Procedure>) -> f64 {
    fillet::leg_rule_net_heat_j_per_mm(leg_mm, efficiency(procedure))
}

/// Arc efficiency of a pass.
fn efficiency(procedure: Option<&Procedure>) -> f64 {
    procedure.map_or(Process::SubmergedArc.default_efficiency(), |p| p.efficiency)
}

/// The procedure that something names; the outer `None` if it is wrong or unknown.
pub(crate) fn procedure<'a>(
    at: &mut Lines<'_>,
    named: Option<&String>,
    setting: &PassContext<'a>,
) -> Option<Option<&'a Procedure>> {
    let Some(name) = named else { return Some(None) };
    if let Some(known) = setting.procedures.get(name) {
        return known.as_ref().map(Some);
    }
    let names: Vec<&str> = setting.procedures.keys().map(String::as_str).collect();
    let (wanted, hint) = if names.is_empty() {
        (format!("a table [procedure.{name}] in this file; there is no procedure at all"), Hint::Nothing)
    } else {
        let hint = match names.as_slice() {
            [only] => Hint::Value(format!("{only:?}")),
            _ => near::hint(name, &names),
        };
        (format!("a procedure of this file: {}", near::wanted(name, &names)), hint)
    };
    at.push_hint("procedure", format!("unknown procedure `{name}`"), wanted, hint);
    None
}

fn leg_of_deposit(at: &mut Lines<'_>, procedure: Option<&Procedure>) -> Option<f64> {
    let Some(procedure) = procedure else {
        let wanted = "`leg`, or `procedure` with its wire diameter, or both";
        at.push("leg", "neither a leg nor a procedure", wanted);
        return None;
    };
    let Some(leg) = procedure.leg_mm() else {
        let why = if procedure.process == Process::SubmergedArc {
            "has no wire diameter"
        } else {
            "is not submerged arc and has no wire feed, and only for submerged arc the melt-off is known here"
        };
        let found = format!("no leg, and procedure `{}` {why}", procedure.name);
        at.push(
            "leg",
            found,
            "`leg` here, or a procedure with `wire_diameter` and, but for submerged arc, `wire_feed`",
        );
        return None;
    };
    if !(LEG.low..=LEG.high).contains(&leg) {
        let found = format!("a leg of {} from the deposit of procedure `{}`", mm(leg), procedure.name);
        at.push("leg", found, format!("a procedure that fills a leg of {}", LEG.words));
        return None;
    }
    Some(leg)
}

fn range(at: &mut Lines<'_>, shape: &PassShape, length_mm: Option<f64>) -> Option<(f64, f64)> {
    let length = length_mm?;
    let from = shape.from.map_or(0.0, Length::value);
    let to = shape.to.map_or(length, Length::value);
    let to = if (to - length).abs() <= SAME_PLACE_MM { length } else { to };
    let mut sound = true;
    for (key, x) in [("from", from), ("to", to)] {
        if !(0.0..=length).contains(&x) {
            let found = format!("{}: the pass is outside the member", mm(x));
            let right = format!("{key} = \"{}\"", exact(if x < 0.0 { 0.0 } else { length }));
            let wanted = format!("a place on the member, 0 mm to {}", mm(length));
            at.push_with(key, found, wanted, right);
            sound = false;
        }
    }
    if sound && to - from < SHORTEST_MM {
        let key = if shape.to.is_some() { "to" } else { "from" };
        let found = format!("a pass from {} to {}", mm(from), mm(to));
        let wanted = format!("an end at least {SHORTEST_MM} mm beyond the start");
        let right = format!("leave `{key}` out, to weld as far as the member goes");
        at.push_with(key, found, wanted, right);
        sound = false;
    }
    sound.then_some((from, to))
}

fn overlaps(laid: &[PlacedPass<'_>], findings: &mut Findings) {
    for (at, second) in laid.iter().enumerate() {
        let (b, over) = (&second.pass, |a: &Pass, b: &Pass| a.to_mm.min(b.to_mm) - a.from_mm.max(b.from_mm));
        let first = laid[..at].iter().find(|first| {
            let a = &first.pass;
            (a.seam, a.side, a.order) == (b.seam, b.side, b.order) && over(a, b) > SAME_PLACE_MM
        });
        let Some(first) = first else { continue };
        let found = format!(
            "a second pass on the {} seam, {} side, in step {}, over {} of pass {}",
            b.seam.name(),
            b.side.name(),
            b.order,
            mm(over(&first.pass, b)),
            first.index + 1,
        );
        let wanted =
            "passes of one seam, side and step that do not overlap; a pass over another has a later `step`";
        let path = format!("pass[{}]", second.index);
        // or one of the two is a slip
        findings.push_example(path, found, wanted, format!("step = {}", b.order + 1));
    }
}
