//! Whether to get ready, what to change before anything is straightened, and the whole in one line.

use super::super::show::remedies;
use super::asked::Asked;
use super::words::{ground, name, percent};
use crate::cli::lists::{counted, listed};
use crate::input::text::capital;
use crate::straighten::decide::{Action, Advice};
use crate::straighten::piece::Expected;
use crate::tolerance::Quantity;
use crate::units::{System, show};
use crate::welding::Side;

/// What would spare the straightening of every piece.
pub(crate) fn change_first(asked: &Asked, system: System) -> Vec<String> {
    let mut out = Vec::new();
    for e in &asked.found.expected {
        let Some(c) = e.capability else { continue };
        if e.likely.chance < asked.shop.plan_from_chance {
            continue;
        }
        let gain = format!(
            "of 100 pieces {} would be acted on, those near a limit as measured among them, instead of {}, if the model is right",
            of_100(c.acted_on_centred),
            of_100(c.acted_on)
        );
        // a web cut to the ordinates is cut for the middle already
        let centred = e.quantity == Quantity::Camber && asked.found.making.web_cut;
        match c.advice {
            Advice::CentreProcess if !centred => out.push(format!("{}: {}; {gain}.", capital(name(e.quantity)), centre(asked, e, system))),
            Advice::NarrowScatter => out.push(format!(
                "{}: the scatter is too wide for the limit (C_p {:.2}); look at fixture, fit-up gap, tack length, plate flatness.",
                capital(name(e.quantity)),
                c.cp
            )),
            Advice::CentreProcess | Advice::AsNeeded | Advice::Exception => {}
        }
    }
    out
}

fn centre(asked: &Asked, e: &Expected, system: System) -> String {
    let allowance = &asked.found.prediction.allowance;
    match e.quantity {
        Quantity::Camber => {
            let (most_mm, at_mm) = allowance.web.largest();
            let size =
                format!(" (up to {} at {})", show::offset(most_mm, system), show::position(at_mm, system));
            format!(
                "cut the web to the ordinates of `weldbow predict`{size}; that takes the mean out of every piece"
            )
        }
        Quantity::Sweep => {
            let near = asked.job.passes.iter().filter(|p| p.side == Side::Near).count();
            let all = asked.job.passes.len();
            let one_sided = near == 0 || near == all;
            let side = if near == all { "near" } else { "far" };
            let which = match all {
                1 => "the one pass is".to_owned(),
                2 => "both passes are".to_owned(),
                _ => format!("all {all} passes are"),
            };
            if one_sided {
                format!(
                    "{which} on the {side} side: weld half of the leg from each side, the second side soon after the first, or smaller legs"
                )
            } else {
                "balance both sides, or lay the second side sooner after the first".to_owned()
            }
        }
        _ => {
            let most = allowance.presets.iter().max_by(|a, b| {
                let size =
                    |p: &crate::prediction::FlangePreset| p.near_packing_mm.abs().max(p.far_packing_mm.abs());
                size(a).total_cmp(&size(b))
            });
            let firmer = remedies(&asked.found.prediction.hold)
                .map_or(String::new(), |what| format!("; or, against the tilt, {what}"));
            most.map_or("preset the flanges".to_owned(), |p| {
                let packing = p.in_words(system).map_or_else(String::new, |[_, _, near, far]| {
                    format!(" (packing under the near flange toe {near}, under the far one {far})")
                });
                format!(
                    "preset the {} flange before welding: pre-bend each half {} away from the web and pre-tilt the near half {} {} the web{packing}{firmer}",
                    p.flange.name(),
                    show::angle(p.crown_rad, system),
                    show::angle(p.lean_rad.abs(), system),
                    if p.lean_rad < 0.0 { "toward" } else { "away from" }
                )
            })
        }
    }
}

/// Quantities that the shop's record is asked for before the model, in words: ", sweep by your record"; nothing without one.
fn by_record(asked: &Asked) -> String {
    let told = asked.found.recorded.iter().filter(|r| r.out.is_some());
    let names: Vec<&str> = told.map(|r| name(r.quantity)).collect();
    if names.is_empty() { String::new() } else { format!("; {} by your record", listed(&names)) }
}

/// The whole in one line.
pub(crate) fn summary(asked: &Asked) -> String {
    let plan = &asked.found.plan;
    let acts = |a: Action| plan.decisions.iter().filter(move |d| d.action == a).map(|d| name(d.quantity));
    let straighten: Vec<&str> =
        plan.decisions.iter().map(|d| d.quantity).filter(|q| plan.asks(*q)).map(name).collect();
    if !straighten.is_empty() {
        let mut blocked: Vec<&str> = plan.blocked.iter().map(|b| name(b.quantity)).collect();
        blocked.dedup();
        let blocks = match blocked.as_slice() {
            [] => String::new(),
            some => format!("; this shop cannot straighten the {}", listed(some)),
        };
        let steps: usize = plan.chosen.iter().map(|c| c.way.steps.len()).sum();
        let work = if steps == 0 { String::new() } else { format!(": {}", counted(steps, "step")) };
        if asked.found.far.is_empty() || asked.measured.is_some() {
            let record = if asked.measured.is_some() { String::new() } else { by_record(asked) };
            return format!("Straighten {}{work}{blocks}{record}.", listed(&straighten));
        }
        let likely = |q: &Quantity| {
            asked.found.expected.iter().find(|e| e.quantity == *q).map_or(0.0, |e| asked.found.chance(e))
        };
        let chances: Vec<String> = asked
            .found
            .far
            .iter()
            .map(|q| format!("{} with a chance of {}", name(*q), percent(likely(q))))
            .collect();
        let sure: Vec<&str> = straighten
            .iter()
            .copied()
            .filter(|what| asked.found.far.iter().all(|q| name(*q) != *what))
            .collect();
        let ready = match sure.as_slice() {
            [] => "Be ready to straighten".to_owned(),
            sure => format!("Straighten {}, and be ready to straighten", listed(sure)),
        };
        return format!(
            "{ready} {}{work} for a piece at the far end of the ±{blocks}{}.",
            listed(&chances),
            by_record(asked)
        );
    }
    let again: Vec<&str> = acts(Action::MeasureAgain).chain(acts(Action::AskEngineer)).collect();
    if !again.is_empty() {
        let measured = asked.measured.is_some();
        let engineer = acts(Action::AskEngineer).next().is_some();
        return match (measured, engineer) {
            (true, true) => format!(
                "Too near to the limit to tell after two measurements: {}. The engineer decides.",
                listed(&again)
            ),
            (true, false) => format!(
                "Too near to the limit to tell: cool, turn over and measure {} again.",
                listed(&again)
            ),
            (false, _) => {
                format!("Near the limit as predicted: measure {} on the first pieces.", listed(&again))
            }
        };
    }
    if plan.decisions.is_empty() {
        return "Nothing to judge: the job names no limit for what is known.".to_owned();
    }
    if asked.measured.is_some() {
        return "Nothing to straighten: everything measured is inside its limit, less what measuring may hide.".to_owned();
    }
    let most = asked.found.expected.iter().map(|e| asked.found.chance(e)).fold(0.0, f64::max);
    format!(
        "Nothing to get ready for: the chance that a piece needs straightening is at most {}, {}{}.",
        percent(most),
        ground(asked.found.welding_alone),
        by_record(asked)
    )
}

/// Pieces of a hundred, in words at the ends.
fn of_100(part: f64) -> String {
    match 100.0 * part {
        n if n < 0.5 => "none".to_owned(),
        n if n >= 99.5 => "all".to_owned(),
        n => format!("{n:.0}"),
    }
}
