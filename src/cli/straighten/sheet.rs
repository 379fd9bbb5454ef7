//! The page for the floor: cautions first, then the steps with room to write, and the shape before and after.

use super::advice::{capital, summary};
use super::gather::Asked;
use super::show::{basis, limit, outcome, readings, refusal, strange, thermal, what};
use super::words::{self, name};
use crate::chart::{ChartError, straightening_sketch};
use crate::units::{System, show};
use maud::{DOCTYPE, Markup, PreEscaped, html};

/// Black on white; on paper, A4 or Letter, a piece takes one page: the text is set as large as that allows, down to
/// [`SMALLEST_PT`]. Every size follows the text.
const STYLE: &str = "\
@page{margin:8mm}\
*{box-sizing:border-box}\
body{font:11pt/1.22 'DejaVu Sans',Arial,sans-serif;color:#000;margin:0 auto;max-width:200mm;padding:4mm}\
h1{font-size:1.5em;margin:0 0 .2em}h2{font-size:1.15em;margin:.6em 0 .2em;break-after:avoid}\
.aside{font-weight:normal;font-size:11pt}p{margin:.25em 0}ul{margin:.2em 0;padding-left:1.3em}li{margin:.12em 0;break-inside:avoid}\
.caution{border:.8mm solid #000;padding:.4em .8em;margin:0 0 .7em}.caution ul{columns:2;column-gap:1.6em}\
.caution h2{margin:0 0 .1em;font-size:1.3em;letter-spacing:.15em}\
.sum{font-weight:bold;font-size:1.1em}\
table{border-collapse:collapse;width:100%}\
th,td{border:.25mm solid #444;padding:.3em .45em;vertical-align:top;text-align:left}\
th{background:#eee;font-size:.9em}tr{break-inside:avoid}thead{display:table-header-group}\
td.n{text-align:right;white-space:nowrap}th.w{width:16mm}\
.step{border:.25mm solid #444;margin:.3em 0;break-inside:avoid}.step ul{columns:2;column-gap:2em;margin:.2em .6em .3em}\
.top{display:flex;border-bottom:.25mm solid #444;background:#eee}.head{font-weight:bold;flex:1;padding:.3em .45em}\
.field{width:19mm;background:#fff;border-left:.25mm solid #444;padding:.1em .3em;font-size:.8em;min-height:3.4em}\
.found{display:flex;gap:1em;align-items:flex-start}.found>div{flex:1}.found figure{flex:0 0 39%;margin:0}\
svg{width:100%;height:auto;display:block}\
.page{break-after:page}.page:last-child{break-after:auto}\
.sign{display:flex;gap:8mm;margin-top:2.2em}.sign div{flex:1;border-top:.3mm solid #000;padding-top:.3em;font-size:.9em}\
@media print{body{padding:0;max-width:none}.page,.aside{font-size:var(--print)}\
th,.top,.field{-webkit-print-color-adjust:exact;print-color-adjust:exact}}";

/// Smallest text on paper, pt: below it a shop reads badly, and a long plan takes a second page instead (choice).
const SMALLEST_PT: f64 = 7.2;
/// Largest text on paper, pt (choice).
const LARGEST_PT: f64 = 11.0;
/// Text size times the root of the letters a page then holds, pt: measured on pages of both paper sizes.
const FILLS_A_PAGE: f64 = 545.0;

/// Text size at which a piece fills one page, pt.
fn print_pt(page: &str) -> f64 {
    let (mut letters, mut inside) = (0_usize, 0_usize);
    for part in page.split_inclusive(['<', '>']) {
        if inside == 0 {
            letters += part.chars().count();
        }
        inside = usize::from(part.ends_with('<'));
    }
    (FILLS_A_PAGE / (letters.max(1) as f64).sqrt()).clamp(SMALLEST_PT, LARGEST_PT)
}

/// All pages in one document.
pub fn whole(pages: &[Markup]) -> String {
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { "Straightening sheet" }
                style { (PreEscaped(STYLE)) }
            }
            body {
                @for page in pages {
                    section.page style=(format!("--print:{:.1}pt", print_pt(&page.0))) { (page) }
                }
            }
        }
    }
    .into_string()
}

/// The page of one member.
///
/// # Errors
/// If its picture cannot be drawn.
pub fn page(asked: &Asked, system: System) -> Result<Markup, ChartError> {
    let plan = &asked.found.plan;
    let picture = if plan.chosen.is_empty() {
        None
    } else {
        Some(straightening_sketch(&asked.job, &asked.found.piece, plan, system)?.svg)
    };
    Ok(html! {
        div.caution {
            h2 { "CAUTION" }
            ul {
                @for caution in &plan.cautions { li { (caution.text.in_units(system)) } }
                @if let Some(text) = thermal(asked, system) { li { (text) } }
            }
        }
        h1 {
            (asked.job.title) " "
            span.aside { (capital(&basis(asked))) ". Shop: " (asked.shop.title) "." }
        }
        p.sum { (summary(asked)) }
        div.found {
            div {
                (decisions(asked, system))
                @if asked.measured.is_some() {
                    @for text in strange(asked, system).into_iter().chain(readings(asked, system)) { p { (text) } }
                }
            }
            @if let Some(svg) = picture { figure { (PreEscaped(svg)) } }
        }
        @if !plan.refusals.is_empty() {
            h2 { "Advice withheld" }
            ul { @for r in &plan.refusals { li { (refusal(r)) } } }
        }
        @for chosen in &plan.chosen {
            h2 {
                (what(chosen.quantity, chosen.flange)) ": " (words::method(chosen.way.method)) " "
                span.aside {
                    (capital(&outcome(asked, chosen, system))) "."
                    @if let Some(next) = &chosen.next_best {
                        " Next best: " (words::method(next.method)) ", leaves " (show::offset(next.left_mm, system)) "."
                    }
                }
            }
            @for (step, said) in words::steps(&chosen.way.steps, system) {
                div.step {
                    div.top {
                        div.head { (step.number) ". " (said.head) }
                        div.field { "Measured before" }
                        div.field { "Measured after" }
                        div.field { "Initials" }
                    }
                    ul { @for line in &said.lines { li { (line) } } }
                }
            }
            @if chosen.rework_is_cheaper {
                p { "Cutting the seams and welding again is expected to cost less than this." }
            }
        }
        @for blocked in &plan.blocked {
            h2 { (what(blocked.quantity, blocked.flange)) ": no method of this shop mends it" }
            ul { @for block in &blocked.blocks { li { (block.sentence(system)) } } }
        }
        p {
            @if plan.placeholder_rates && !plan.chosen.is_empty() { "Times and costs rest on placeholder rates of no shop. " }
            "An estimate that was not checked against measured straightening: believe the piece, not the plan. Keep this sheet with the member."
        }
        div.sign { div { "Piece" } div { "Planned by, date" } div { "Agreed by the engineer, date" } div { "Done by, date" } }
    })
}

fn decisions(asked: &Asked, system: System) -> Markup {
    let planned = if asked.measured.is_some() { "Measured" } else { "Planned for" };
    html! {
        @if !asked.found.plan.decisions.is_empty() {
            table {
                thead { tr { th { "What" } th { (planned) } th { "Limit" } th { "Decision" } th.w { "Final value" } } }
                tbody {
                    @for d in &asked.found.plan.decisions {
                        tr {
                            td { (capital(name(d.quantity))) }
                            td.n { (show::offset(d.value_mm, system)) }
                            td.n { (limit(&d.limits, system)) }
                            td { (words::action(d.action)) }
                            td {}
                        }
                    }
                }
            }
        }
    }
}
