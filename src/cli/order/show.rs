//! The order for people: pieces, hours, weeks, what the shop cannot straighten, what to fix first.

use super::families::{families, levelling, pieces_out};
use super::words::{figure, range, saves, what, worthwhile};
use crate::cli::lists::{counted, grouped};
use crate::cli::show::{Columns, Report, chance, percent};
use crate::cli::straighten::ground;
use crate::order::{MarkResult, OrderResult};
use crate::tolerance::Likely;
use crate::units::System;

/// Most marks shown (a choice); the rest is summed up.
const MOST_MARKS: usize = 60;
/// Most families to fix, and most lines of what blocks.
const MOST_FAMILIES: usize = 5;
const MOST_BLOCKS: usize = 8;
/// Part of what the best measure saves from which a second one is told.
const SECOND: f64 = 0.1;
/// Pieces below which nothing is said to block.
const LEAST_BLOCKED: f64 = 0.05;
/// Pieces below which none is said to be measured again.
const LEAST_AGAIN: f64 = 0.05;

/// Everything; `spread` is a number of weeks to spread over, and whether the list has weeks of its own.
pub(super) fn report(
    found: &OrderResult,
    system: System,
    spread: Option<(u32, bool)>,
    marks: bool,
    out: &mut Report,
) {
    opening(found, system, out);
    families(found, marks, out);
    weeks(found, spread, out);
    levelling(found, out);
    first(found, system, out);
    blocks(found, system, out);
    if marks {
        pieces(found, out);
        hours(found, out);
    }
    trust(found, system, out);
    out.heading("Cautions", "");
    out.say_all(found.cautions.iter().map(|caution| caution.text.in_units(system)))
}

fn opening(found: &OrderResult, system: System, out: &mut Report) {
    let (marks, pieces) = (found.marks.len(), found.quantity);
    let (d, t) = (&found.draws, &found.totals);
    out.line(format!("Order of {}, {}", counted(marks, "mark"), counted(pieces as usize, "piece")));
    out.line(format!("shop: {}", found.shop));
    // what the record of the shop's pieces says, each once with the marks that it is said of
    let learned = found.marks.iter().map(|m| (m.learned.as_ref(), m.mark.as_str()));
    let recorded = grouped(learned.filter_map(|(text, mark)| Some((text?.in_units(system), mark))));
    out.line(format!(
        "{} possible model errors × {} pieces of each mark; {}, formula level{}",
        d.bias,
        d.pieces,
        ground(found.welding_alone),
        if recorded.is_empty() { ", not measured" } else { "" }
    ));
    out.say_all(recorded.iter().map(|(said, marks)| format!("{}: {said}", marks.join(", "))));
    out.heading("In short", "");
    out.line(format!(
        "  about {} of {pieces} pieces will need straightening ({} allowing for model error, ± {} by luck)",
        figure(t.needing.expected),
        range(t.needing.low, t.needing.high),
        figure(t.luck)
    ));
    let beyond: f64 = found.marks.iter().map(pieces_out).sum();
    out.line(format!(
        "  about {} are out of a limit, lengths and web too, by the chances that `predict`, `scatter` and `straighten` say; \
         straightened are those that measuring once shows to be out beyond its doubt",
        figure(beyond)
    ));
    if t.again.expected > LEAST_AGAIN {
        out.line(format!(
            "  {} pieces are too near a limit to tell: a second measurement decides; {} of them are out, and what straightening \
             those takes is in no hours",
            figure(t.again.expected),
            figure(t.again_out.expected)
        ));
    }
    out.line(format!(
        "  {} h of work ({}): press {} h, heat {} h, measuring again {} h; and {} h to measure every piece once",
        figure(t.hours.expected),
        range(t.hours.low, t.hours.high),
        figure(t.press_h.expected),
        figure(t.heat_h.expected),
        figure(t.measure_h.expected),
        figure(t.first_h)
    ));
    let mark = if found.placeholder_rates.is_empty() { "" } else { " (placeholder rates)" };
    out.line(format!(
        "  money {:.0} ({:.0} … {:.0}){mark}, of which {:.0} to cut and weld anew what this shop cannot straighten",
        t.money.expected, t.money.low, t.money.high, t.rework_money.expected
    ));
    if t.blocked.expected > LEAST_BLOCKED {
        out.line(format!(
            "  {} pieces ({}) that this shop cannot straighten: refer to the engineer, or rework; money is counted for these, no hours",
            figure(t.blocked.expected),
            range(t.blocked.low, t.blocked.high)
        ));
    }
}

fn pieces(found: &OrderResult, out: &mut Report) {
    out.heading("How many pieces", "most pieces first; … is the range from model error, 5 % to 95 %");
    let if_right = |m: &&MarkResult| m.likely.if_model_right.map_or_else(|| "not known".to_owned(), percent);
    let range_of = |(low, high)| format!("{} … {}", percent(low).trim_end_matches(" %"), percent(high));
    let marks = || Columns::of(found.marks.iter().take(MOST_MARKS)).left("mark", |m| m.mark.clone());
    marks()
        .right("pieces", |m| m.quantity.to_string())
        .right("out", |m| out_of(m.out))
        .right("chance", |m| chance(&m.likely))
        .right("if model right", if_right)
        .right("range …", |m| range_of(m.likely.range))
        .right("need it", |m| figure(m.totals.needing.expected))
        .right("again", |m| figure(m.totals.again.expected))
        .right("not here", |m| figure(m.totals.blocked.expected))
        .put(out);
    rest(found.marks.len(), out);
    out.line(
        "  out: chance that a piece is beyond any limit, lengths and web too.\n  \
         chance: that it needs straightening, ± its standard error: beyond by more than measuring it once can explain.\n  \
         again: too near a limit to tell, measured a second time. not here: this shop cannot straighten it, see below."
    );
    out.heading(
        "Which limits",
        "out: as `predict`, `scatter` and `straighten` say it; need: is straightened for it",
    );
    let limits = [(0, "toe"), (1, "sweep"), (2, "camber")].into_iter().fold(marks(), |table, (i, name)| {
        let part = move |m: &&MarkResult| m.parts.get(i).filter(|part| part.limits_mm.is_some()).copied();
        let nothing = || "–".to_owned();
        table
            .right(format!("{name} out"), move |m| part(m).map_or_else(nothing, |part| out_of(part.out)))
            .right(format!("{name} need"), move |m| {
                part(m).map_or_else(nothing, |part| percent(part.likely.chance))
            })
    });
    limits.put(out);
    let uncut: Vec<&str> = found.marks.iter().filter(|m| m.camber_wanted).map(|m| m.mark.as_str()).collect();
    if uncut.is_empty() || found.making.web_cut {
        return;
    }
    out.say(format!(
        "{}: a camber is wanted, and webs are taken as cut straight. With --web-cut they are cut to the ordinates of \
         `weldbow predict`.",
        uncut.join(", ")
    ))
}

/// What a long table leaves out.
fn rest(marks: usize, out: &mut Report) {
    let more = marks.saturating_sub(MOST_MARKS);
    if more > 0 {
        out.line(format!("  … and {more} marks with fewer pieces; --csv FILE has all"));
    }
}

fn hours(found: &OrderResult, out: &mut Report) {
    out.heading("Hours in the shop", "of all pieces of a mark");
    let (work, idle): (Vec<_>, Vec<_>) =
        found.marks.iter().partition(|m| m.totals.hours.expected > 0.0 || m.totals.needing.expected > 0.0);
    let marks = work.iter().take(MOST_MARKS).map(|m| (m.mark.as_str(), &m.totals));
    Columns::of(marks.chain([("all", &found.totals)]))
        .left("mark", |(name, _)| *name)
        .right("need it", |(_, t)| figure(t.needing.expected))
        .right("push places", |(_, t)| figure(t.push_places.expected))
        .right("heats", |(_, t)| figure(t.heats.expected))
        .right("flange runs", |(_, t)| figure(t.runs.expected))
        .right("press h", |(_, t)| figure(t.press_h.expected))
        .right("heat h", |(_, t)| figure(t.heat_h.expected))
        .right("measuring h", |(_, t)| figure(t.measure_h.expected))
        .right("all h", |(_, t)| figure(t.hours.expected))
        .right("all h …", |(_, t)| range(t.hours.low, t.hours.high))
        .put(out);
    rest(work.len(), out);
    match idle.as_slice() {
        [] => {}
        [one] => out.line(format!("  without work: {}", one.mark)),
        many => {
            let names: Vec<&str> = many.iter().map(|m| m.mark.as_str()).collect();
            out.say(format!("without work: {}", names.join(", ")))
        }
    }
}

fn weeks(found: &OrderResult, spread: Option<(u32, bool)>, out: &mut Report) {
    if found.weeks.is_empty() {
        return;
    }
    out.heading("Load by week", "");
    let over = |part: Option<f64>| part.map_or_else(String::new, percent);
    Columns::of(&found.weeks)
        .left("week", |w| w.week.map_or_else(|| "no week given".to_owned(), |week| week.to_string()))
        .right("pieces", |w| w.quantity.to_string())
        .right("need it", |w| figure(w.totals.needing.expected))
        .right("not here", |w| figure(w.totals.blocked.expected))
        .right("press h", |w| figure(w.totals.press_h.expected))
        .right("press h …", |w| range(w.totals.press_h.low, w.totals.press_h.high))
        .right("heat h", |w| figure(w.totals.heat_h.expected))
        .right("all h", |w| figure(w.totals.hours.expected))
        .right_if(found.capacity_h.is_some(), "over press", |w| over(w.over_capacity))
        .right_if(found.heat_capacity_h.is_some(), "over torch", |w| over(w.over_heat_capacity))
        .put(out);
    match spread {
        Some((weeks, own)) => {
            let instead = if own { "; the weeks of the list are left aside" } else { "" };
            out.line(format!(
                "  whole pieces in the order of the list, spread over {weeks} weeks so that weeks differ by one piece at most{instead}"
            ));
        }
        None => out.line("  by the weeks of the list; hours fall in the week the pieces are wanted"),
    }
    for (capacity, tool) in [(found.capacity_h, "press"), (found.heat_capacity_h, "torch")] {
        let Some(capacity) = capacity else { continue };
        out.line(format!(
            "  over capacity: part of the draws in which the {tool} needs more than its {} h a week",
            figure(capacity)
        ));
    }
}

fn blocks(found: &OrderResult, system: System, out: &mut Report) {
    let mut all: Vec<(&MarkResult, &crate::order::Blocking)> = found
        .marks
        .iter()
        .flat_map(|m| m.blocks.iter().map(move |b| (m, b)))
        .filter(|(_, b)| b.pieces > LEAST_BLOCKED)
        .collect();
    if all.is_empty() {
        return;
    }
    all.sort_by(|a, b| b.1.pieces.total_cmp(&a.1.pieces));
    out.heading("This shop cannot straighten", "refer to the engineer, or cut and weld again");
    for (m, b) in all.iter().take(MOST_BLOCKS) {
        let (pieces, of, what) = (figure(b.pieces), m.quantity, b.quantity.name());
        out.line(format!("  {}, {pieces} of {of} pieces: {what}", m.mark));
        out.say_all(b.methods.iter().map(|way| way.sentence(system)));
    }
    if all.len() > MOST_BLOCKS {
        out.line(format!("  … and {} more; --json has all", all.len() - MOST_BLOCKS));
    }
}

fn first(found: &OrderResult, system: System, out: &mut Report) {
    out.heading("What to fix first", "if the predicted shape were taken out, or the scatter narrowed");
    let mut number = 0;
    for family in found.families.iter().take(MOST_FAMILIES) {
        let fixes = worthwhile(family);
        let Some(best) = fixes.first() else { continue };
        number += 1;
        let marks = family.marks.join(", ");
        let name = if family.name == marks { marks } else { format!("{} ({marks})", family.name) };
        let hours = family.totals.hours.expected;
        out.line(format!("  {number}. {name}"));
        out.say(format!("{}; {}", what(best, system), saves(best, hours)));
        let second = fixes.get(1).filter(|fix| fix.worth_h() > SECOND * best.worth_h());
        if let Some(second) = second {
            out.say(format!("or {}; {}", what(second, system), saves(second, hours)));
        }
    }
    if number == 0 {
        return out.line("  nothing: no measure here saves hours");
    }
    out.line(
        "  The savings hold if the predicted shape is taken out exactly; what the model is wrong by stays in."
    )
}

fn trust(found: &OrderResult, system: System, out: &mut Report) {
    out.heading("How far to trust it", "");
    let wrong = found.marks.iter().map(|m| m.may_be_wrong).fold(0.0, f64::max);
    let plans: usize = found.marks.iter().map(|m| m.plans).sum();
    if !found.placeholder_rates.is_empty() {
        let rates = found.placeholder_rates.join(", ");
        out.say(format!(
            "Hours rest on placeholders for {rates}: no published times exist. Put your own into the shop file (`weldbow new --shop`)."
        ));
    }
    let scatter = if found.welding_alone {
        "What plates, cutting and fit-up add to the scatter is not in the chances."
    } else {
        "What plates and assembly add is drawn as the job or the shop's record has it; the chances from welding alone stand \
         in `weldbow predict`."
    };
    let (camber, toe) = (found.making.camber_basis(), found.making.toe_basis());
    out.say(format!(
        "Judged with the {camber} and the {toe}. Pieces are judged as `weldbow straighten` judges them, as if \
         measured once without error. {scatter} Hours: straightening and measuring a second time; those of the first \
         measurement stand apart."
    ));
    if let Some(first) = found.marks.first() {
        for (name, of) in ["camber", "sweep"].iter().zip(&first.two_s_of) {
            let said = of.sentence().in_units(system);
            out.say(format!("{} {name} {said}.", first.mark));
        }
    }
    let wrong = percent(wrong);
    out.say(format!(
        "{plans} full plans were made; the work on the other drawn pieces is read off between them by their size, which may be \
             wrong by about {wrong} of a mark's hours, and by two in a hundred of the pieces that need it as to what this shop cannot straighten (eight where a limit is hardly wider \
             than its guard band)."
    ));
    let pieces = found.draws.pieces;
    out.say(format!(
        "A range from model error counts {pieces} pieces of each mark in every draw, which makes it a little wider than it is; \
         --pieces and --draws make it finer."
    ));
    let failed: usize = found.marks.iter().map(|m| m.failed).sum();
    if failed > 0 {
        out.say(format!("{failed} drawn pieces made no job and are left out."));
    }
}

/// The chance to be out, alone.
fn out_of(likely: Option<Likely>) -> String {
    likely.map_or_else(|| "not known".to_owned(), |likely| percent(likely.chance))
}
