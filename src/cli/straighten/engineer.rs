//! The engineer's page: limits used, costs, what is next best, what is blocked, and how far the numbers go.

use super::advice::change_first;
use super::asked::Asked;
use super::framed::framed;
use super::gather::next_push;
use super::piece::{basis, recorded};
use super::show::{outcome, what};
use super::words::{self, name};
use crate::input::text::capital;
use crate::straighten::plan::Work;
use crate::units::{System, show};
use maud::{Markup, html};

/// The page.
pub(crate) fn page(asked: &Asked, system: System) -> Markup {
    let plan = &asked.found.plan;
    let head = html! {
        (asked.job.title) " " span { "· for the engineer · CAUTION: an estimate; codes, specification and licensed practice decide." }
    };
    let mark = if plan.placeholder_rates && !plan.chosen.is_empty() {
        "Times and costs rest on placeholder rates of no shop."
    } else {
        ""
    };
    let body = html! {
        h1 { "Straightening, for the engineer" }
        p { (capital(&basis(asked))) ". Shop: " (asked.shop.title) "." @if let Some(said) = recorded(asked, system) { " " (capital(&said)) "." } }
        h2 { "Limits" }
        ul { @for n in &asked.found.judged.named {
            li { (capital(name(n.quantity))) ": " (show::offset(-n.less_mm, system)) " to " (show::offset(n.more_mm, system)) " (" (n.standard) " " (n.trust.beside(n.clause)) ", " (n.rule) ")" }
        } }
        @if !asked.logged.is_empty() {
            h2 { "Push log" }
            ul { @for l in &asked.logged { li { (next_push(l, system)) } } }
        }
        @for chosen in &plan.chosen {
            h2 { (what(chosen.quantity, chosen.flange)) ": " (words::method(chosen.way.method)) }
            p { (capital(&outcome(asked, chosen, system))) ". " (mark) }
            ul {
                @for step in &chosen.way.steps {
                    @if let Work::Push(push) = &step.work { li { "Step " (step.number) ": " (words::reckoned(push, system)) } }
                    @if let Work::Heats(h) = &step.work {
                        li { "Step " (step.number) ": turn of one heat: " (h.trust) "; jack at most a quarter of the cold plastic moment wherever it bends (FHWA manual, memory) and below hot yield (EN 1993-1-2 Table 3.1, memory); vee at most 0.75 of the web there (FHWA manual, memory) and no wider than a hot strip that does not buckle (our limit)." }
                    }
                }
                @if let Some(next) = &chosen.next_best {
                    li { "Next best: " (words::method(next.method)) ", leaves " (show::offset(next.left_mm, system)) " ± " (show::offset(next.left_sd_mm, system)) ", " (words::price(&next.price, plan.placeholder_rates)) "." }
                }
                @for block in &chosen.blocked { li { "Not " (block.sentence(system)) } }
                @if chosen.rework_is_cheaper { li { "Cutting the seams and welding again is expected to cost less than this." } }
            }
        }
        @let advice = change_first(asked, system);
        @if !advice.is_empty() {
            h2 { "Change the process first" }
            ul { @for line in &advice { li { (line) } } }
        }
        h2 { "How far the numbers go" }
        p {
            "No part of this was checked against measured straightening. A series of up to three pushes by the printed rule was simulated with a true yield "
            "of 0.9 to 1.35 of the given one; the chance of still being out rests on that and on the measuring uncertainty. Clauses marked memory were recalled, "
            "not read: check them before relying on a ratio near 1."
        }
    };
    framed("engineer", &head, &body)
}
