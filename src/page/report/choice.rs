//! What weld holds every limit: needs, options, how to lay the first of them, or what would make it possible.

use super::reported::Reported;
use super::table::{As, Columns};
use super::verdicts::{percent, size};
use maud::{Markup, html};
use weldbow_engine::choose::book::ArcSetting;
use weldbow_engine::choose::{Choice, ChosenPass, Governs, Requirement, Stretch, Weld, said_inside};
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
        @for (number, weld) in choice.options.iter().enumerate() {
            @if let Some(text) = &weld.assumed { p.says { "Option " (number) ": " (text.in_units(system)) "." } }
        }
        @for (number, weld) in choice.options.iter().enumerate().filter(|(_, w)| !w.breaks.is_empty()) {
            p.says { (number) " breaks a rule: " @for text in &weld.breaks { (text.in_units(system)) " " } }
        }
        @for (number, weld) in choice.options.iter().enumerate() {
            @for text in &weld.outside { p.says { (number) " has no chances and sizes: " (text.in_units(system)) "." } }
        }
        @for (number, weld) in choice.options.iter().enumerate() {
            @for text in &weld.cautions { p.says { (number) " caution: " (text.in_units(system)) "." } }
        }
        @if let Some(weld) = best { (passes(weld, system)) }
        @if !choice.feasible || !choice.limits.is_empty() { (blocked(choice, system)) }
        ul { @for text in &choice.cautions { li { (text) } } }
    }
}

fn needs(stretches: &[Stretch], system: System) -> Markup {
    Columns::of(stretches)
        .column(As::Words, "seam", |s| s.seam.name())
        .column(As::Number, "from", |s| show::position(s.from_mm, system))
        .column(As::Number, "to", |s| show::position(s.to_mm, system))
        .column(As::Number, "web", |s| show::plate(s.web_mm, system))
        .column(As::Number, "flange", |s| show::plate(s.flange_mm, system))
        .column(As::Number, "shear flow", |s| show::flow(s.flow.n_per_mm, system))
        .column(As::Number, "by strength", |s| show::offset(s.need().strength_mm, system))
        .column(As::Number, "by code", |s| show::offset(s.need().minimum_mm, system))
        .column(As::Result, "leg needed", |s| show::plate(s.need().leg_mm, system))
        .column(As::Words, "sides", |s| if s.one.is_some() { "one" } else { "both" })
        .column(As::Long, "because of", |s| because(s.need()))
        .under("What each seam needs before anything is searched")
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
    let span = |of: Option<(f64, f64)>| {
        of.map_or_else(|| "–".to_owned(), |(value, spread)| size(value, spread, system))
    };
    Columns::of(choice.options.iter().enumerate())
        .column(As::Number, "", |(number, _)| number.to_string())
        .column(As::Words, "option", |(_, w)| w.name.clone())
        .column(As::Result, "pieces inside", |(_, w)| w.pieces.said(choice.wishes.confidence, percent))
        .column(As::Words, "holds", |(_, w)| if w.passes_all { "yes" } else { "no" })
        .column(As::Number, "camber", |(_, w)| span(w.camber_mm))
        .column(As::Number, "sweep", |(_, w)| span(w.sweep_mm))
        .column(As::Number, "toe", |(_, w)| span(w.toe_mm))
        .column(As::Number, "arc time", |(_, w)| show::duration(w.score.effort.arc_s))
        .column(As::Number, "time in all", |(_, w)| show::duration(w.score.effort.line_s))
        .column(As::Number, "cost", |(_, w)| format!("{:.0}", w.score.effort.cost))
        .column(As::Number, "weld metal", |(_, w)| show::mass(w.score.effort.deposit_kg, system))
        .under("Options: 0 is what the job does today")
}

fn passes(weld: &Weld, system: System) -> Markup {
    let cold = if weld.cold && weld.job.orders.len() > 1 { ", cold between runs" } else { "" };
    Columns::of(&weld.passes)
        .column(As::Number, "run", |p| p.order.to_string())
        .column(As::Words, "seam, side", |p| format!("{} {}", p.seam.name(), p.side.name()))
        .column(As::Number, "from", |p| show::position(p.from_mm, system))
        .column(As::Number, "to", |p| show::position(p.to_mm, system))
        .column(As::Result, "leg", |p| show::plate(p.leg_mm, system))
        .column(As::Words, "because of", |p| word(&p.governs))
        .column(As::Words, "procedure", |p| p.procedure_said())
        .column(As::Number, "current", |p| set(p, |s| format!("{:.0} A", s.current_a)))
        .column(As::Number, "voltage", |p| set(p, |s| format!("{:.1} V", s.voltage_v)))
        .column(As::Number, "travel", |p| set(p, |s| show::speed(s.speed_mm_s, system)))
        .column(As::Number, "net heat", |p| show::heat_input(p.heat_j_per_mm, system))
        .under(&format!("Option 1, {}: {}{cold}", weld.name, weld.way.in_units(system)))
}

/// What is set for a pass; nothing where the job gives its heat alone.
fn set(pass: &ChosenPass, text: impl Fn(&ArcSetting) -> String) -> String {
    pass.setting.as_ref().map_or_else(String::new, text)
}

fn blocked(choice: &Choice, system: System) -> Markup {
    let opened = Columns::of(&choice.opened)
        .column(As::Words, "what would make it possible", |o| o.what)
        .column(As::Words, "how much", |o| o.text.in_units(system))
        .column(As::Number, "pieces inside, at least", |o| {
            said_inside(o.inside, choice.wishes.confidence, percent)
        })
        .column(As::Words, "enough", |o| if o.enough { "yes" } else { "no" });
    html! {
        p {
            strong { @if choice.feasible { "Nothing but current practice holds every limit." } @else { "Nothing that was looked at holds every limit." } }
            " The last option is the nearest."
        }
        ul { @for text in choice.blocks.iter().chain(&choice.limits) { li { (text.in_units(system)) } } }
        @if !choice.opened.is_empty() { (opened.under("")) }
    }
}
