//! A choice as tables for people.

use super::super::show::{Columns, Report, SIGNS, bare, roomy, unit};
use crate::choose::book::ArcSetting;
use crate::choose::{Choice, ChosenPass, Governs, Stretch, Tightest, Weld, said_inside};
use crate::cli::lists::{distinct, grouped};
use crate::prediction::Job;
use crate::tolerance::{Band, Quantity};
use crate::units::{FT_MM, IN_MM, LB_KG, System, show as units};

/// Everything, in the order an engineer asks: what is needed, what is proposed, how to lay it, what blocks.
pub(super) fn show(choice: &Choice, job: &Job, book: &str, system: System, out: &mut Report) {
    out.line(&choice.title);
    out.line(format!(
        "{}, {}, strength by {}, procedures of {book}\n{} with {} of pieces inside, legs in steps of {}",
        units::position(job.member.length_mm, system),
        if job.member.steel.name == "own values" { "steel of own values" } else { &job.member.steel.name },
        choice.code,
        choice.wishes.objective.words(),
        percent(choice.wishes.confidence),
        units::plate(choice.wishes.step_mm, system),
    ));
    needed(&choice.stretches, system, out);
    options(choice, system, out);
    nearest(choice, job, system, out);
    for (number, weld) in choice.options.iter().enumerate() {
        passes(number, weld, system, out);
    }
    blocked(choice, system, out);
    out.heading("Keep in mind", "");
    out.say_all(&choice.cautions)
}

fn percent(part: f64) -> String {
    let of = 100.0 * part;
    match of {
        p if p >= 99.95 => "over 99.9 %".to_owned(),
        p if p < 0.05 => "under 0.1 %".to_owned(),
        p if !(1.0..=99.0).contains(&p) => format!("{p:.1} %"),
        p => format!("{p:.0} %"),
    }
}

/// A stretch of the member, short enough for a table.
fn stretch(from_mm: f64, to_mm: f64, system: System) -> String {
    let (decimals, mm) = system.pick((2, 1000.0), (1, FT_MM));
    format!("{:.decimals$}–{:.decimals$}", from_mm / mm, to_mm / mm)
}

/// A size and two standard deviations, its unit in the head of the column; a dash where there is none.
fn span(of: Option<(f64, f64)>, system: System) -> String {
    let bare = |mm: f64| bare(&units::offset(mm, system));
    of.map_or_else(|| NONE.to_owned(), |(value, two_s)| format!("{} ± {}", bare(value), bare(two_s)))
}

/// In the place of a number that there is not.
const NONE: &str = "–";

fn long(system: System) -> &'static str {
    system.pick("x, m", "x, ft")
}

fn needed(stretches: &[Stretch], system: System, out: &mut Report) {
    // what the taper adds to the flow is left out where there is no room for it
    let both = roomy();
    let remark = if both {
        "q: shear flow with the taper, V·Q/I: without; legs by strength and by code minimum"
    } else {
        "q: shear flow; legs by strength, code minimum"
    };
    out.heading("What each seam needs", remark);
    let flow = system.pick("q, N/mm", "q, kip/in");
    let in_unit = |what: &str| format!("{what}, {}", unit(system));
    let prismatic = |s: &&Stretch| bare(&units::flow(s.flow.prismatic_n_per_mm, system));
    Columns::of(stretches)
        .left("seam", |s| s.seam.name())
        .right(long(system), |s| stretch(s.from_mm, s.to_mm, system))
        .right("web", |s| units::plate(s.web_mm, system))
        .right("flange", |s| units::plate(s.flange_mm, system))
        .right(flow, |s| bare(&units::flow(s.flow.n_per_mm, system)))
        .right_if(both, "V·Q/I", prismatic)
        .right(in_unit("strength"), |s| leg(s.need().strength_mm, system))
        .right(in_unit("code"), |s| leg(s.need().minimum_mm, system))
        .right("leg", |s| units::plate(s.need().leg_mm, system))
        .left("governs", |s| word(&s.need().governs))
        .left("sides", |s| if s.one.is_some() { "one" } else { "both" })
        .put(out);
    let said = stretches.iter().flat_map(|s| {
        let text = match &s.need().governs {
            Governs::Strength(clause) => Some(format!(" strength: {clause}")),
            Governs::Minimum(clause) => Some(format!(" minimum: {clause}")),
            Governs::OwnBound | Governs::Process | Governs::Search => None,
        };
        let both = s.both_sides.as_ref().map(|why| {
            let why = why.in_units(system);
            let place =
                format!("{} to {}", units::position(s.from_mm, system), units::position(s.to_mm, system));
            format!(" both sides, {place}: {why}")
        });
        [text, both].into_iter().flatten()
    });
    distinct(said).iter().for_each(|line| out.line(line))
}

/// A leg that is no shop size yet: in decimals.
fn leg(mm: f64, system: System) -> String {
    let (decimals, unit_mm) = system.pick((1, 1.0), (3, IN_MM));
    format!("{:.decimals$}", mm / unit_mm)
}

const fn word(by: &Governs) -> &'static str {
    match by {
        Governs::Strength(_) => "strength",
        Governs::Minimum(_) => "minimum",
        Governs::OwnBound => "your bound",
        Governs::Process => "process",
        Governs::Search => "tolerance",
    }
}

fn options(choice: &Choice, system: System, out: &mut Report) {
    let drawn = choice.options.iter().map(|w| w.pieces.drawn).max().unwrap_or(0);
    out.heading("Options", &format!("inside: part of {drawn} drawn pieces inside every tolerance"));
    let in_unit = |what: &str| format!("{what}, {}", unit(system));
    Columns::of(choice.options.iter().enumerate())
        .right("", |(number, _)| number.to_string())
        .left("option", |(_, w)| format!("{}{}", w.name, if w.breaks.is_empty() { "" } else { " *" }))
        .right("inside", |(_, w)| w.pieces.said(choice.wishes.confidence, percent))
        .left("holds", |(_, w)| if w.passes_all { "yes" } else { "no" })
        .right(in_unit("camber"), |(_, w)| span(w.camber_mm, system))
        .right(in_unit("sweep"), |(_, w)| span(w.sweep_mm, system))
        .right(in_unit("toe"), |(_, w)| span(w.toe_mm, system))
        .right("arc", |(_, w)| units::duration(w.score.effort.arc_s))
        .right("in all", |(_, w)| units::duration(w.score.effort.line_s))
        .right("cost", |(_, w)| money(w.score.effort.cost))
        .right("metal", |(_, w)| units::mass(w.score.effort.deposit_kg, system))
        .put(out);
    out.wide(format!("Proposed: {}.", choice.why.in_units(system)));
    out.line(format!(" {SIGNS}"));
    out.line(format!(
        " {} candidates on the grid, {} predicted in all, {} inside every tolerance by the quick estimate",
        choice.counts.grid, choice.counts.screened, choice.counts.inside
    ));
    let breaks = choice.options.iter().any(|w| !w.breaks.is_empty());
    let mark = if breaks { " * breaks a rule, see below;" } else { "" };
    out.line(format!("{mark} in all: with loading, turning over, waiting and changes of setting"));
    rates(choice, system, out);
    // what the record of the shop's pieces says, each once with the options that it is said of
    let recorded =
        |(number, weld): (usize, &Weld)| Some((weld.learned.as_ref()?.in_units(system), number.to_string()));
    for (text, of) in grouped(choice.options.iter().enumerate().filter_map(recorded)) {
        out.line(format!(" option {}: {text}", of.join(", ")));
    }
    for (number, weld) in choice.options.iter().enumerate() {
        let assumed = weld.assumed.iter();
        out.say_all(assumed.map(|text| format!("option {number}: {}", text.in_units(system))));
    }
    for allow in &choice.wishes.allow {
        use crate::choose::Allow;
        let text = match allow {
            Allow::Length => "plates are cut longer by the shortening",
            Allow::Camber => "the web is cut to its pre-camber ordinates",
            Allow::Flanges => "flanges are pre-bent and pre-tilted before welding",
        };
        out.line(format!(" judged as if {text}; what `weldbow predict` shows is without it"));
    }
}

/// Money in the shop's own: whole units from ten on.
fn money(amount: f64) -> String {
    if amount < 9.95 { format!("{amount:.1}") } else { format!("{amount:.0}") }
}

/// What the money is made of, and which of it is the shop's own.
fn rates(choice: &Choice, system: System, out: &mut Report) {
    let costs = &choice.costs;
    let (kg, unit) = system.pick((costs.per_kg, "kg"), (costs.per_kg * LB_KG, "lb"));
    let made = format!(
        "cost: {} an hour of crew and place, {} an hour of waiting until cold, {} a {unit} of weld metal",
        money(costs.per_hour),
        money(costs.waiting_per_hour),
        money(kg)
    );
    let whose = match costs.placeholders.as_slice() {
        [] => String::new(),
        all => format!("; placeholders, set your own in [rates]: {}", all.join(", ")),
    };
    out.wide(format!("{made}{whose}"))
}

/// A limit, of one that differs to either side both.
fn limit(t: &Tightest, system: System) -> String {
    let bare = |mm: f64| bare(&units::offset(mm, system));
    let Band { less_mm, more_mm } = t.band;
    let one = (less_mm - more_mm).abs() < 1e-9;
    if one { bare(t.limit_mm) } else { format!("{} to {}", bare(0.0 - less_mm), bare(more_mm)) }
}

fn nearest(choice: &Choice, job: &Job, system: System, out: &mut Report) {
    out.heading("Nearest limit of each", "");
    let tightest = || choice.options.iter().map(|weld| weld.tightest.as_ref()).enumerate();
    Columns::of(tightest().filter_map(|(number, tightest)| Some((number, tightest?))))
        .right("", |(number, _)| number.to_string())
        .left("what", |(_, t)| t.quantity.name())
        .right(format!("predicted, {}", unit(system)), |(_, t)| {
            span(Some((t.value_mm, t.value_2s_mm)), system)
        })
        .right(format!("limit, {}", unit(system)), |(_, t)| limit(t, system))
        .left("clause", |(_, t)| t.trust.beside(&t.clause))
        .put(out);
    // the sign of a deviation is not that of a bow
    let wanted = job
        .wanted_camber
        .filter(|_| tightest().any(|(_, t)| t.is_some_and(|t| t.quantity == Quantity::Camber)));
    let said = |mm| format!(" Camber here: off the wanted {}, + more, − less.", units::ordinate(mm, system));
    wanted.into_iter().for_each(|camber| out.line(said(camber.rise_mm)));
}

fn passes(number: usize, weld: &Weld, system: System, out: &mut Report) {
    let waits = if weld.cold && weld.job.orders.len() > 1 { ", cold between runs" } else { "" };
    out.heading(&format!("{number}  {}", weld.name), &format!("{}{waits}", weld.way.in_units(system)));
    let set = |p: &ChosenPass, said: &dyn Fn(&ArcSetting) -> String| {
        p.setting.as_ref().map_or_else(String::new, said)
    };
    let chosen = weld.candidate.is_some();
    Columns::of(&weld.passes)
        .right("run", |p| p.order.to_string())
        .left("seam, side", |p| format!("{} {}", p.seam.name(), p.side.name()))
        .right(long(system), |p| stretch(p.from_mm, p.to_mm, system))
        .right("leg", |p| units::plate(p.leg_mm, system))
        .left_if(chosen, "by", |p| word(&p.governs))
        .left_if(chosen, "procedure", |p| p.procedure_said())
        .right_if(chosen, "A", |p| set(p, &|s| format!("{:.0}", s.current_a)))
        .right_if(chosen, "V", |p| set(p, &|s| format!("{:.1}", s.voltage_v)))
        .right_if(chosen, "travel", |p| set(p, &|s| units::speed(s.speed_mm_s, system)))
        .right("net heat", |p| units::heat_input(p.heat_j_per_mm, system))
        .put(out);
    out.say_all(weld.outside.iter().map(|text| format!("no chances and sizes: {}", text.in_units(system))));
    out.say_all(weld.breaks.iter().map(|text| format!("breaks a rule: {}", text.in_units(system))));
    out.say_all(weld.cautions.iter().map(|text| format!("caution: {}", text.in_units(system))))
}

fn blocked(choice: &Choice, system: System, out: &mut Report) {
    if choice.feasible && choice.limits.is_empty() {
        return;
    }
    let what = if choice.feasible {
        "Nothing but current practice holds every limit"
    } else {
        "Nothing holds every limit"
    };
    let remark = if choice.options.len() > 1 { "the last option is the nearest" } else { "" };
    out.heading(what, remark);
    out.say_all(choice.blocks.iter().chain(&choice.limits).map(|text| text.in_units(system)));
    if choice.opened.is_empty() {
        return;
    }
    out.heading("What would make it possible", "inside: drawn pieces of the likeliest weld");
    Columns::of(&choice.opened)
        .left("remedy", |o| o.what)
        .left("how much", |o| o.text.in_units(system))
        .right("inside", |o| said_inside(o.inside, choice.wishes.confidence, percent))
        .left("enough", |o| if o.enough { "yes" } else { "no" })
        .put(out)
}
