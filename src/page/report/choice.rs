//! What weld holds every limit: needs, options, how to lay the first of them, or what would make it possible.

use super::reported::Reported;
use super::table::{As, table};
use super::verdicts::{percent, size};
use maud::{Markup, html};
use weldbow_engine::choose::{Choice, Governs, Requirement, Stretch, Weld};
use weldbow_engine::units::{System, show};

/// The choice of one member.
pub(crate) fn chosen(of: &Reported<'_>, choice: &Choice) -> Markup {
    let system = of.system;
    // current practice stands first, what was asked for behind it
    let best = choice.options.get(1);
    html! {
        p.says {
            "Made small: " (choice.wishes.objective.words()) ", with at least " (percent(choice.wishes.confidence)) " of pieces inside every limit; strength by " (choice.code)
            "; legs in steps of " (show::plate(choice.wishes.step_mm, system)) ". " (choice.counts.screened) " ways were looked at."
        }
        (needs(&choice.stretches, system))
        (options(choice, system))
        p.says { "Proposed: " (choice.why.in_units(system)) "." }
        @for (number, weld) in choice.options.iter().enumerate().filter(|(_, w)| !w.breaks.is_empty()) {
            p.says { (number) " breaks a rule: " @for text in &weld.breaks { (text.in_units(system)) " " } }
        }
        @if let Some(weld) = best { (passes(weld, system)) }
        @if !choice.feasible || !choice.limits.is_empty() { (blocked(choice, system)) }
        ul { @for text in &choice.cautions { li { (text) } } }
    }
}

fn needs(stretches: &[Stretch], system: System) -> Markup {
    let columns = [
        (As::Words, "seam"),
        (As::Number, "from"),
        (As::Number, "to"),
        (As::Number, "web"),
        (As::Number, "flange"),
        (As::Number, "shear flow"),
        (As::Number, "by strength"),
        (As::Number, "by code"),
        (As::Result, "leg needed"),
        (As::Words, "sides"),
        (As::Long, "because of"),
    ];
    let rows = stretches.iter().map(|s| {
        let need = s.one.as_ref().unwrap_or(&s.two);
        vec![
            s.seam.name().to_owned(),
            show::position(s.from_mm, system),
            show::position(s.to_mm, system),
            show::plate(s.web_mm, system),
            show::plate(s.flange_mm, system),
            show::flow(s.flow.n_per_mm, system),
            show::offset(need.strength_mm, system),
            show::offset(need.minimum_mm, system),
            show::plate(need.leg_mm, system),
            if s.one.is_some() { "one" } else { "both" }.to_owned(),
            because(need),
        ]
    });
    table("What each seam needs before anything is searched", &columns, rows)
}

fn because(need: &Requirement) -> String {
    match &need.governs {
        Governs::Strength(clause) => format!("strength, {clause}"),
        Governs::Minimum(clause) => format!("minimum, {clause}"),
        other => word(other).to_owned(),
    }
}

const fn word(governs: &Governs) -> &'static str {
    match governs {
        Governs::Strength(_) => "strength",
        Governs::Minimum(_) => "minimum",
        Governs::OwnBound => "own bound",
        Governs::Process => "process",
        Governs::Search => "tolerance",
    }
}

fn options(choice: &Choice, system: System) -> Markup {
    let columns = [
        (As::Number, ""),
        (As::Words, "option"),
        (As::Result, "pieces inside"),
        (As::Words, "holds"),
        (As::Number, "camber"),
        (As::Number, "sweep"),
        (As::Number, "toe"),
        (As::Number, "arc time"),
        (As::Number, "time in all"),
        (As::Number, "cost"),
        (As::Number, "weld metal"),
    ];
    let span = |(value, spread)| size(value, spread, system);
    let rows = choice.options.iter().enumerate().map(|(number, w)| {
        vec![
            number.to_string(),
            w.name.clone(),
            percent(w.pieces.inside),
            if w.passes_all { "yes" } else { "no" }.to_owned(),
            span(w.camber_mm),
            span(w.sweep_mm),
            span(w.toe_mm),
            format!("{:.1} min", w.score.effort.arc_s / 60.0),
            format!("{:.0} min", w.score.effort.line_s / 60.0),
            format!("{:.0}", w.score.effort.cost),
            show::mass(w.score.effort.deposit_kg, system),
        ]
    });
    table("Options: 0 is what the job does today", &columns, rows)
}

fn passes(weld: &Weld, system: System) -> Markup {
    let columns = [
        (As::Number, "run"),
        (As::Words, "seam, side"),
        (As::Number, "from"),
        (As::Number, "to"),
        (As::Result, "leg"),
        (As::Words, "because of"),
        (As::Words, "procedure"),
        (As::Number, "current"),
        (As::Number, "voltage"),
        (As::Number, "travel"),
        (As::Number, "net heat"),
    ];
    let rows = weld.passes.iter().map(|p| {
        let setting = |text: &dyn Fn(&weldbow_engine::choose::book::ArcSetting) -> String| {
            p.setting.as_ref().map_or_else(String::new, text)
        };
        vec![
            p.order.to_string(),
            format!("{} {}", p.seam.name(), p.side.name()),
            show::position(p.from_mm, system),
            show::position(p.to_mm, system),
            show::plate(p.leg_mm, system),
            word(&p.governs).to_owned(),
            p.procedure_said(),
            setting(&|s| format!("{:.0} A", s.current_a)),
            setting(&|s| format!("{:.1} V", s.voltage_v)),
            setting(&|s| show::speed(s.speed_mm_s, system)),
            show::heat_input(p.heat_j_per_mm, system),
        ]
    });
    let cold = if weld.cold && weld.job.orders.len() > 1 { ", cold between runs" } else { "" };
    table(&format!("Option 1, {}: {}{cold}", weld.name, weld.way), &columns, rows)
}

fn blocked(choice: &Choice, system: System) -> Markup {
    let columns = [
        (As::Words, "what would make it possible"),
        (As::Words, "how much"),
        (As::Number, "pieces inside, at least"),
        (As::Words, "enough"),
    ];
    let rows = choice.opened.iter().map(|o| {
        let enough = if o.enough { "yes" } else { "no" };
        vec![o.what.to_owned(), o.text.in_units(system), percent(o.inside), enough.to_owned()]
    });
    html! {
        p {
            strong { @if choice.feasible { "Nothing but current practice holds every limit." } @else { "Nothing that was looked at holds every limit." } }
            " The last option is the nearest."
        }
        ul { @for text in choice.blocks.iter().chain(&choice.limits) { li { (text.in_units(system)) } } }
        @if !choice.opened.is_empty() { (table("", &columns, rows)) }
    }
}
