//! The answer on a terminal.

use super::advice::{change_first, summary};
use super::asked::Asked;
use super::gather::next_push;
use super::piece::{basis, camber_then, readings, recorded, sided, steel, strange, thermal};
use super::words::{self, name, percent};
use crate::cli::lists::listed;
use crate::cli::show::{Columns, Report, bare_chance, from_welding_alone, if_right};
use crate::input::text::capital;
use crate::member::Seam;
use crate::shop::Readiness;
use crate::straighten::decide::Limits;
use crate::straighten::plan::{Chosen, Work};
use crate::tolerance::Quantity;
use crate::units::{System, show};

/// Everything, in the order a shop asks.
pub(super) fn report(asked: &Asked, system: System, out: &mut Report) {
    head(asked, system, out);
    out.line(format!("\n{}", summary(asked)));
    need(asked, system, out);
    let advice = change_first(asked, system);
    if !advice.is_empty() {
        out.heading("Change the process first", "straightening pays for the same shift on every piece");
        out.say_all(&advice);
    }
    let plan = &asked.found.plan;
    if !plan.refusals.is_empty() {
        out.heading("Advice withheld", "");
        out.say_all(plan.refusals.iter().map(refusal));
    }
    out.heading("CAUTION", "");
    out.say_all(plan.cautions.iter().map(|c| c.text.in_units(system)).chain(thermal(asked, system)));
    if !asked.logged.is_empty() {
        out.heading("Push log", "what the readings ask for next");
        out.say_all(asked.logged.iter().map(|l| next_push(l, system)));
    }
    plan.chosen.iter().for_each(|chosen| way(asked, chosen, system, out));
    for blocked in &plan.blocked {
        out.heading(
            &format!("{}: this shop cannot straighten it", what(blocked.quantity, blocked.flange)),
            "",
        );
        out.say_all(blocked.blocks.iter().map(|b| b.sentence(system)));
    }
    end(asked, out)
}

/// What the answer is about.
fn head(asked: &Asked, system: System, out: &mut Report) {
    out.line(&asked.job.title);
    out.line(basis(asked));
    if let Some(said) = recorded(asked, system) {
        out.line(said);
    }
    out.line(format!("steel: {}", steel(asked, system)));
    let mark = if asked.own_shop { "" } else { " (no --shop file given; `weldbow new --shop` writes one)" };
    out.line(format!("shop: {}{mark}", asked.shop.title))
}

/// One refusal in words.
pub(crate) fn refusal(r: &crate::straighten::decide::Refusal) -> String {
    let what = match (r.cold, r.heat) {
        (true, true) => "cold work and heat",
        (true, false) => "cold work",
        _ => "heat",
    };
    format!("No advice on {what}: {}. Needed: {}.", r.reason, r.needed)
}

/// What the shop's own record of the family says.
fn record(asked: &Asked, system: System, out: &mut Report) {
    if asked.found.recorded.is_empty() {
        return;
    }
    let remark = "Student's t below 30 pieces; acted on: outside the limit less the guard band";
    out.heading("What your record says", remark);
    let process = &asked.found.plan.process;
    let of = |quantity| process.iter().find(|p| p.quantity == quantity).map(|p| &p.capability);
    let recorded = asked.found.recorded.iter();
    let known: Vec<_> = recorded.filter_map(|r| Some((r, of(r.quantity)?))).collect();
    Columns::of(&known)
        .left("what", |(r, _)| name(r.quantity))
        .right("pieces", |(r, _)| r.family.pieces.map_or(String::new(), |n| n.to_string()))
        .right("mean", |(r, _)| show::offset(r.family.mean, system))
        .right("scatter σ", |(r, _)| show::offset(r.family.sd, system))
        .right("next piece, 95 %", |(_, c)| format!("± {}", show::offset(c.next_piece_95, system)))
        .right("out", |(_, c)| percent(c.out))
        .right("acted on", |(_, c)| percent(c.acted_on))
        .right("once centred", |(_, c)| percent(c.acted_on_centred))
        .right("C_pk", |(_, c)| index(c.cpk))
        .put(out);
    out.say_all(known.iter().map(|(r, c)| words::process(r.quantity, c)))
}

/// An index of capability: "1.33".
fn index(value: f64) -> String {
    format!("{value:.2}").replace('-', "−")
}

fn need(asked: &Asked, system: System, out: &mut Report) {
    needed(asked, system, out);
    out.say_all(camber_then(asked, system))
}

fn needed(asked: &Asked, system: System, out: &mut Report) {
    if asked.measured.is_some() {
        measured_need(asked, system, out);
        chances(asked, "Pieces of this kind, as predicted", system, out);
        record(asked, system, out);
        return out.say_all(strange(asked, system).into_iter().chain(readings(asked, system)));
    }
    chances(asked, "Does it need straightening?", system, out);
    record(asked, system, out);
    if !asked.found.far.is_empty() {
        let what: Vec<&str> = asked.found.far.iter().map(|q| name(*q)).collect();
        out.line(format!(
            "  The mean piece is not clearly out in {}: planned for a piece at the far end of the ± (two deviations).",
            what.join(" and ")
        ));
    }
}

fn measured_need(asked: &Asked, system: System, out: &mut Report) {
    let remark = "sag of member and string taken out as noted; guard: 1.645 times the measuring uncertainty";
    out.heading("Does it need straightening?", remark);
    Columns::of(&asked.found.plan.decisions)
        .left("what", |d| name(d.quantity))
        .right("largest", |d| sided(d.quantity, d.value_mm, system))
        .right("limit", |d| limit(&d.limits, system))
        .right("guard", |d| show::offset(d.limits.guard(), system))
        .left("decision", |d| words::action(d.action))
        .left("rule", |d| rule(asked, d.quantity, &d.limits))
        .put(out);
    if asked.job.wanted_camber.is_some()
        && asked.found.plan.decisions.iter().any(|d| d.quantity == Quantity::Camber)
    {
        out.line("  Camber is what differs from the wanted camber.");
    }
}

fn chances(asked: &Asked, title: &str, system: System, out: &mut Report) {
    if asked.found.expected.is_empty() {
        return;
    }
    let remark = "σ: one deviation; scatter from piece to piece, bias of the model for all pieces alike";
    out.heading(title, remark);
    Columns::of(&asked.found.expected)
        .left("what", |e| name(e.quantity))
        .right("mean", |e| show::offset(e.mean_mm, system))
        .right("scatter σ", |e| show::offset(e.scatter_sd_mm, system))
        .right("bias σ", |e| show::offset(e.bias_sd_mm, system))
        .right("limit", |e| limit(&e.limits, system))
        .right("out", |e| bare_chance(&e.likely))
        .right("out by scatter", |e| if_right(&e.likely))
        .right("C_pk", |e| e.capability.map_or(String::new(), |c| index(c.cpk)))
        .left("straighten?", |e| match asked.found.readiness(e, asked.shop.plan_from_chance) {
            Readiness::Expect => "likely",
            Readiness::BeReady => "be ready",
            Readiness::Nothing => "no",
        })
        .put(out);
    out.line(format!("  {}", crate::cli::show::SIGNS));
    let rules: Vec<String> = asked
        .found
        .expected
        .iter()
        .map(|e| format!("{} {}", name(e.quantity), rule(asked, e.quantity, &e.limits)))
        .collect();
    let columns = "Out: of the pieces, the model's own doubt in it; out by scatter: from piece to piece only, if the model is right.";
    out.say(format!("{columns} Limits: {}.", rules.join("; ")));
    let alone = asked.found.welding_alone;
    let more = if alone { ": plates delivered with a bow, cutting and assembly come on top" } else { "" };
    out.say(format!("Chances are {}{more}.", words::ground(alone)));
    let chances = asked.found.expected.iter().map(|e| (name(e.quantity), e.likely));
    out.say_all(from_welding_alone(chances));
    for (name, bow) in [("Camber", &asked.found.prediction.camber), ("Sweep", &asked.found.prediction.sweep)]
    {
        out.say(format!("{name} {}.", bow.max_2s_of.sentence().in_units(system)));
    }
}

/// "±9.0 mm", or both ends.
pub(super) fn limit(l: &Limits, system: System) -> String {
    let (low, high) = (show::offset(l.lowest, system), show::offset(l.highest, system));
    if (l.lowest + l.highest).abs() < 1e-9 { format!("±{high}") } else { format!("{low} to {high}") }
}

/// The clauses behind a limit.
fn rule(asked: &Asked, quantity: Quantity, limits: &Limits) -> String {
    let same = |n: &&crate::straighten::piece::Named| {
        let toe = |q| matches!(q, Quantity::FlangeToe | Quantity::FlangeCup | Quantity::FlangeTilt);
        (n.quantity == quantity || (toe(quantity) && toe(n.quantity)))
            && (n.more_mm - limits.highest).abs() < 1e-9
    };
    let mut clauses: Vec<String> = Vec::new();
    for n in asked.found.judged.named.iter().filter(same) {
        let clause = format!("{} {}", n.standard, n.trust.beside(n.clause));
        if !clauses.contains(&clause) {
            clauses.push(clause);
        }
    }
    listed(&clauses)
}

/// What is mended, with its flange.
pub(crate) fn what(quantity: Quantity, flange: Option<Seam>) -> String {
    match flange {
        Some(seam) => format!("{} flange toes", capital(seam.name())),
        None => capital(name(quantity)),
    }
}

fn way(asked: &Asked, chosen: &Chosen, system: System, out: &mut Report) {
    let w = &chosen.way;
    let title = format!("{}: {}", what(chosen.quantity, chosen.flange), words::method(w.method));
    out.heading(&title, &outcome(asked, chosen, system));
    for (step, words) in words::steps(&w.steps, system, false) {
        out.line(format!(" {}. {}", step.number, words.head));
        out.say_all(&words.lines);
        if let Work::Push(push) = &step.work {
            out.say(words::reckoned(push, system));
        }
    }
    if chosen.rework_is_cheaper {
        out.line("  Cutting the seams and welding again is expected to cost less than this.");
    }
    if let Some(next) = &chosen.next_best {
        out.line(format!(
            "  Next best: {}, leaves {} ± {}, {}.",
            words::method(next.method),
            show::offset(next.left_mm, system),
            show::offset(next.left_sd_mm, system),
            words::price(&next.price, asked.found.plan.placeholder_rates)
        ));
    }
    out.say_all(chosen.blocked.iter().map(|block| format!("Not {}", block.sentence(system))))
}

/// What a way leaves and costs.
pub(super) fn outcome(asked: &Asked, chosen: &Chosen, system: System) -> String {
    let w = &chosen.way;
    // rollers and lines mend the cup; where a toe is limited, it is out by cup and tilt together
    let cup = if chosen.quantity == Quantity::FlangeToe { " of cup" } else { "" };
    let tilted = !cup.is_empty() && asked.found.piece.goals.toe.is_some();
    let tilt = if tilted { ", its tilt counted in" } else { "" };
    format!(
        "leaves {} ± {}{cup}; still out with a chance of {}{tilt}; {}",
        show::offset(w.left_mm, system),
        show::offset(w.left_sd_mm, system),
        percent(w.price.fails),
        words::price(&w.price, asked.found.plan.placeholder_rates)
    )
}

fn end(asked: &Asked, out: &mut Report) {
    let plan = &asked.found.plan;
    if plan.chosen.is_empty() {
        return;
    }
    out.line(format!(
        "\nAll together about {:.0} min, cost {:.0}. In this order, measuring everything again after each: tilt, sweep, camber; twist is never pressed at a single point.",
        plan.minutes, plan.cost
    ));
    if plan.placeholder_rates {
        let which = asked.shop.placeholder_rates.join(", ");
        out.say(format!("Placeholder rates, put your own into [rates] of the shop file: {which}."));
    }
    out.say("No part of this was checked against measured straightening: believe the piece, not the plan.")
}
