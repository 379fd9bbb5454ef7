//! A choice as tables for people.

use super::super::show::{SIGNS, heading, roomy, row_table, unit, wide, wrapped};
use crate::choose::{Choice, Governs, Stretch, Weld};
use crate::prediction::Job;
use crate::units::{Message, System, show as units};
use std::io::{Result, Write};

/// Everything, in the order an engineer asks: what is needed, what is proposed, how to lay it, what blocks.
pub(super) fn show(
    choice: &Choice,
    job: &Job,
    book: &str,
    system: System,
    out: &mut dyn Write,
) -> Result<()> {
    writeln!(out, "{}", choice.title)?;
    writeln!(
        out,
        "{}, {}, strength by {}, procedures of {book}\n{} with {} of pieces inside, legs in steps of {}",
        units::position(job.member.length_mm, system),
        if job.member.steel.name == "own values" { "steel of own values" } else { &job.member.steel.name },
        choice.code,
        choice.wishes.objective.words(),
        percent(choice.wishes.confidence),
        units::plate(choice.wishes.step_mm, system),
    )?;
    needed(&choice.stretches, system, out)?;
    options(choice, system, out)?;
    nearest(choice, system, out)?;
    for (number, weld) in choice.options.iter().enumerate() {
        passes(number, weld, system, out)?;
    }
    blocked(choice, system, out)?;
    heading("Keep in mind", "", out)?;
    choice.cautions.iter().try_for_each(|text| writeln!(out, "{}", wrapped(text)))
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

fn minutes(s: f64) -> String {
    if s < 5400.0 { format!("{:.1} min", s / 60.0) } else { format!("{:.1} h", s / 3600.0) }
}

/// A stretch of the member, short enough for a table.
fn stretch(from_mm: f64, to_mm: f64, system: System) -> String {
    let (decimals, mm) = system.pick((2, 1000.0), (1, 304.8));
    format!("{:.decimals$}–{:.decimals$}", from_mm / mm, to_mm / mm)
}

/// The number of a shown quantity, its unit in the head of the column.
fn bare(shown: &str) -> String {
    shown.split(' ').next().unwrap_or_default().to_owned()
}

/// A size and two standard deviations, its unit in the head of the column.
fn span((value, two_s): (f64, f64), system: System) -> String {
    let bare = |mm: f64| bare(&units::offset(mm, system));
    format!("{} ± {}", bare(value), bare(two_s))
}

fn long(system: System) -> &'static str {
    system.pick("x, m", "x, ft")
}

fn needed(stretches: &[Stretch], system: System, out: &mut dyn Write) -> Result<()> {
    // what the taper adds to the flow is left out where there is no room for it
    let both = roomy();
    let remark = if both {
        "q: shear flow with the taper, V·Q/I: without; legs by strength and by code minimum"
    } else {
        "q: shear flow; legs by strength, code minimum"
    };
    heading("What each seam needs", remark, out)?;
    let flow = system.pick("q, N/mm", "q, kip/in");
    let in_unit = |what: &str| format!("{what}, {}", unit(system));
    let (strength, minimum) = (in_unit("strength"), in_unit("code"));
    let mut head =
        vec!["seam", long(system), "web", "flange", flow, &strength, &minimum, "leg", "governs", "sides"];
    if both {
        head.insert(5, "V·Q/I");
    }
    let mut table = row_table(&head, 1..if both { 9 } else { 8 });
    for s in stretches {
        let need = s.one.as_ref().unwrap_or(&s.two);
        let mut row = vec![
            s.seam.name().to_owned(),
            stretch(s.from_mm, s.to_mm, system),
            units::plate(s.web_mm, system),
            units::plate(s.flange_mm, system),
            bare(&units::flow(s.flow.n_per_mm, system)),
            leg(need.strength_mm, system),
            leg(need.minimum_mm, system),
            units::plate(need.leg_mm, system),
            word(&need.governs).to_owned(),
            if s.one.is_some() { "one".to_owned() } else { "both".to_owned() },
        ];
        if both {
            row.insert(5, bare(&units::flow(s.flow.prismatic_n_per_mm, system)));
        }
        table.add_row(row);
    }
    table.put(out)?;
    let mut said: Vec<String> = Vec::new();
    for s in stretches {
        let need = s.one.as_ref().unwrap_or(&s.two);
        let text = match &need.governs {
            Governs::Strength(clause) => format!(" strength: {clause}"),
            Governs::Minimum(clause) => format!(" minimum: {clause}"),
            Governs::OwnBound | Governs::Process | Governs::Search => String::new(),
        };
        let both = s.both_sides.as_ref().map(|why| {
            let place =
                format!("{} to {}", units::position(s.from_mm, system), units::position(s.to_mm, system));
            format!(" both sides, {place}: {why}")
        });
        for line in [Some(text), both].into_iter().flatten().filter(|line| !line.is_empty()) {
            if !said.contains(&line) {
                said.push(line);
            }
        }
    }
    said.iter().try_for_each(|line| writeln!(out, "{line}"))
}

/// A leg that is no shop size yet: in decimals.
fn leg(mm: f64, system: System) -> String {
    let (decimals, unit_mm) = system.pick((1, 1.0), (3, 25.4));
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

fn options(choice: &Choice, system: System, out: &mut dyn Write) -> Result<()> {
    let drawn = choice.options.first().map_or(0, |w| w.pieces.drawn);
    heading("Options", &format!("inside: part of {drawn} drawn pieces inside every tolerance"), out)?;
    let in_unit = |what: &str| format!("{what}, {}", unit(system));
    let (camber, sweep, toe) = (in_unit("camber"), in_unit("sweep"), in_unit("toe"));
    let head = ["", "option", "inside", "holds", &camber, &sweep, &toe, "arc", "in all", "cost", "metal"];
    let mut table = row_table(&head, [0, 2, 4, 5, 6, 7, 8, 9, 10]);
    for (number, weld) in choice.options.iter().enumerate() {
        let broken = if weld.breaks.is_empty() { "" } else { " *" };
        table.add_row([
            number.to_string(),
            format!("{}{broken}", weld.name),
            percent(weld.pieces.inside),
            if weld.passes_all { "yes" } else { "no" }.to_owned(),
            span(weld.camber_mm, system),
            span(weld.sweep_mm, system),
            span(weld.toe_mm, system),
            minutes(weld.score.effort.arc_s),
            minutes(weld.score.effort.line_s),
            money(weld.score.effort.cost),
            units::mass(weld.score.effort.deposit_kg, system),
        ]);
    }
    table.put(out)?;
    writeln!(out, "{}", wide(&format!("Proposed: {}.", choice.why.in_units(system))))?;
    writeln!(out, " {SIGNS}")?;
    writeln!(
        out,
        " {} candidates on the grid, {} predicted in all, {} inside every tolerance by the quick estimate",
        choice.counts.grid, choice.counts.screened, choice.counts.inside
    )?;
    if choice.options.iter().any(|w| !w.breaks.is_empty()) {
        writeln!(
            out,
            " * breaks a rule, see below; in all: with loading, turning over, waiting and changes of setting"
        )?;
    } else {
        writeln!(out, " in all: with loading, turning over, waiting and changes of setting")?;
    }
    rates(choice, system, out)?;
    for (text, of) in recorded(choice, system) {
        writeln!(out, " {of}: {text}")?;
    }
    for allow in &choice.wishes.allow {
        use crate::choose::Allow;
        let text = match allow {
            Allow::Length => "plates are cut longer by the shortening",
            Allow::Camber => "the web is cut to its pre-camber ordinates",
            Allow::Flanges => "flanges are pre-bent and pre-tilted before welding",
        };
        writeln!(out, " judged as if {text}; what `weldbow predict` shows is without it")?;
    }
    Ok(())
}

/// What the record of the shop's pieces says, each once with the options that it is said of.
fn recorded(choice: &Choice, system: System) -> Vec<(String, String)> {
    let mut said: Vec<(String, String)> = Vec::new();
    for (number, weld) in choice.options.iter().enumerate() {
        let Some(text) = weld.learned.as_ref().map(|text| text.in_units(system)) else { continue };
        match said.iter_mut().find(|known| known.0 == text) {
            Some(known) => known.1 = format!("{}, {number}", known.1),
            None => said.push((text, format!("option {number}"))),
        }
    }
    said
}

/// Money in the shop's own: whole units from ten on.
fn money(amount: f64) -> String {
    if amount < 9.95 { format!("{amount:.1}") } else { format!("{amount:.0}") }
}

/// What the money is made of, and which of it is the shop's own.
fn rates(choice: &Choice, system: System, out: &mut dyn Write) -> Result<()> {
    let costs = &choice.costs;
    let (kg, unit) = system.pick((costs.per_kg, "kg"), (costs.per_kg * KG_PER_LB, "lb"));
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
    writeln!(out, "{}", wide(&format!("{made}{whose}")))
}

/// Kilograms of a pound.
const KG_PER_LB: f64 = 0.453_592_37;

fn nearest(choice: &Choice, system: System, out: &mut dyn Write) -> Result<()> {
    heading("Nearest limit of each", "", out)?;
    let (predicted, limit) = (format!("predicted, {}", unit(system)), format!("limit, {}", unit(system)));
    let mut table = row_table(&["", "what", &predicted, &limit, "clause"], [0, 2, 3]);
    for (number, weld) in choice.options.iter().enumerate() {
        let Some(t) = &weld.tightest else { continue };
        let limit = units::offset(t.limit_mm, system);
        table.add_row([
            number.to_string(),
            t.quantity.name().to_owned(),
            span((t.value_mm, t.value_2s_mm), system),
            limit.split(' ').next().unwrap_or_default().to_owned(),
            t.trust.beside(&t.clause),
        ]);
    }
    table.put(out)
}

fn passes(number: usize, weld: &Weld, system: System, out: &mut dyn Write) -> Result<()> {
    let waits = if weld.cold && weld.job.orders.len() > 1 { ", cold between runs" } else { "" };
    heading(&format!("{number}  {}", weld.name), &format!("{}{waits}", weld.way), out)?;
    let current = weld.candidate.is_none();
    let right: &[usize] = if current { &[0, 2, 3, 4] } else { &[0, 2, 3, 6, 7, 8, 9] };
    let head: &[&str] = if current {
        &["run", "seam, side", long(system), "leg", "net heat"]
    } else {
        &["run", "seam, side", long(system), "leg", "by", "procedure", "A", "V", "travel", "net heat"]
    };
    let mut table = row_table(head, right.iter().copied());
    for p in &weld.passes {
        let mut row = vec![
            p.order.to_string(),
            format!("{} {}", p.seam.name(), p.side.name()),
            stretch(p.from_mm, p.to_mm, system),
            units::plate(p.leg_mm, system),
        ];
        if let Some(set) = &p.setting {
            row.extend([
                word(&p.governs).to_owned(),
                p.procedure_said(),
                format!("{:.0}", set.current_a),
                format!("{:.1}", set.voltage_v),
                units::speed(set.speed_mm_s, system),
            ]);
        }
        row.push(units::heat_input(p.heat_j_per_mm, system));
        table.add_row(row);
    }
    table.put(out)?;
    let say = |text: &Message| wrapped(&format!("breaks a rule: {}", text.in_units(system)));
    weld.breaks.iter().try_for_each(|text| writeln!(out, "{}", say(text)))
}

fn blocked(choice: &Choice, system: System, out: &mut dyn Write) -> Result<()> {
    if choice.feasible && choice.limits.is_empty() {
        return Ok(());
    }
    let what = if choice.feasible {
        "Nothing but current practice holds every limit"
    } else {
        "Nothing holds every limit"
    };
    let remark = if choice.options.len() > 1 { "the last option is the nearest" } else { "" };
    heading(what, remark, out)?;
    for text in choice.blocks.iter().chain(&choice.limits) {
        writeln!(out, "{}", wrapped(&text.in_units(system)))?;
    }
    if choice.opened.is_empty() {
        return Ok(());
    }
    heading("What would make it possible", "inside: drawn pieces of the likeliest weld", out)?;
    let mut table = row_table(&["remedy", "how much", "inside", "enough"], [2]);
    for o in &choice.opened {
        let enough = if o.enough { "yes" } else { "no" };
        table.add_row([o.what.to_owned(), o.text.in_units(system), percent(o.inside), enough.to_owned()]);
    }
    table.put(out)
}
