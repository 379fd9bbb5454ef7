//! The page for the floor: cautions first, then the steps with room to write, and the shape before and after.

use super::advice::{capital, summary};
use super::gather::Asked;
use super::show::{basis, limit, outcome, refusal, strange, thermal, what};
use super::words::{self, name};
use crate::chart::{ChartError, straightening_shape};
use crate::units::{System, show};
use maud::{DOCTYPE, Markup, PreEscaped, html};

/// Black on white, readable at arm's length, for A4 and Letter alike; a table row is never torn.
const STYLE: &str = "\
@page{margin:14mm}\
*{box-sizing:border-box}\
body{font:11pt/1.35 'DejaVu Sans',Arial,sans-serif;color:#000;margin:0 auto;max-width:190mm;padding:4mm}\
h1{font-size:16pt;margin:0 0 2mm}h2{font-size:12.5pt;margin:5mm 0 1.5mm;break-after:avoid}h2+p{break-after:avoid}\
p{margin:1mm 0}ul{margin:1mm 0;padding-left:5mm}li{margin:.6mm 0}\
.caution{border:1mm solid #000;padding:2mm 4mm;margin:0 0 4mm}\
.caution h2{margin:0 0 1mm;font-size:15pt;letter-spacing:.15em}\
.sum{font-weight:bold;font-size:12.5pt}\
table{border-collapse:collapse;width:100%}\
th,td{border:.3mm solid #444;padding:1.2mm 1.6mm;vertical-align:top;text-align:left}\
th{background:#eee;font-size:9.5pt}tr{break-inside:avoid}thead{display:table-header-group}\
td.n{text-align:right;white-space:nowrap}td.w{width:22mm}th.w{width:22mm}\
.steps ul{font-size:9.5pt}.steps .head{font-weight:bold}\
svg{width:100%;height:auto}figure{margin:3mm 0;break-inside:avoid}\
.page{break-after:page}.page:last-child{break-after:auto}\
.sign{display:flex;gap:8mm;margin-top:6mm}.sign div{flex:1;border-top:.3mm solid #000;padding-top:1mm;font-size:9.5pt}\
@media print{body{padding:0;max-width:none}th{-webkit-print-color-adjust:exact;print-color-adjust:exact}}";

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
            body { @for page in pages { section.page { (page) } } }
        }
    }
    .into_string()
}

/// The page of one member.
///
/// # Errors
/// If its picture cannot be drawn.
pub fn page(asked: &Asked, system: System) -> Result<Markup, ChartError> {
    let plan = &asked.plan;
    let picture = if plan.chosen.is_empty() {
        None
    } else {
        Some(straightening_shape(&asked.job, &asked.piece, plan, system)?.svg)
    };
    Ok(html! {
        div.caution {
            h2 { "CAUTION" }
            ul {
                @for caution in &plan.cautions { li { (caution.text) } }
                @if let Some(text) = thermal(asked, system) { li { (text) } }
            }
        }
        h1 { (asked.job.title) }
        p { (capital(&basis(asked))) ". Shop: " (asked.shop.title) "." }
        p.sum { (summary(asked)) }
        (decisions(asked, system))
        @if asked.measured.is_some() {
            @for text in strange(asked, system) { p { (text) } }
        }
        @if !plan.refusals.is_empty() {
            h2 { "Advice withheld" }
            ul { @for r in &plan.refusals { li { (refusal(r)) } } }
        }
        @for chosen in &plan.chosen {
            h2 { (what(chosen.quantity, chosen.flange)) ": " (words::method(chosen.way.method)) }
            p { (capital(&outcome(asked, chosen, system))) "." }
            table.steps {
                thead { tr { th { "Step" } th { "Do" } th.w { "Measured before" } th.w { "Measured after" } th.w { "Initials" } } }
                tbody {
                    @for (step, said) in words::steps(&chosen.way.steps, &asked.job.member, system) {
                        tr {
                            td.n { (step.number) }
                            td {
                                div.head { (said.head) }
                                ul { @for line in &said.lines { li { (line) } } }
                            }
                            td.w {} td.w {} td.w {}
                        }
                    }
                }
            }
            @if chosen.rework_is_cheaper {
                p { "Cutting the seams and welding again is expected to cost less than this." }
            }
            @if let Some(next) = &chosen.next_best {
                p {
                    "Next best: " (words::method(next.method)) ", leaves " (show::offset(next.left_mm, system))
                    " ± " (show::offset(next.left_sd_mm, system)) "."
                }
            }
        }
        @for blocked in &plan.blocked {
            h2 { (what(blocked.quantity, blocked.flange)) ": no method of this shop mends it" }
            ul { @for block in &blocked.blocks { li { (words::blocked(block)) } } }
        }
        @if let Some(svg) = picture { figure { (PreEscaped(svg)) } }
        @if plan.placeholder_rates && !plan.chosen.is_empty() {
            p { "Times and costs rest on placeholder rates of no shop: " (asked.shop.placeholder_rates.join(", ")) "." }
        }
        p { "An estimate that was not checked against measured straightening: believe the piece, not the plan. Keep this sheet with the member." }
        div.sign { div { "Piece" } div { "Planned by, date" } div { "Agreed by the engineer, date" } div { "Done by, date" } }
    })
}

fn decisions(asked: &Asked, system: System) -> Markup {
    let planned = if asked.measured.is_some() { "Measured" } else { "Planned for" };
    html! {
        @if !asked.plan.decisions.is_empty() {
            table {
                thead { tr { th { "What" } th { (planned) } th { "Limit" } th { "Decision" } th.w { "Final value" } } }
                tbody {
                    @for d in &asked.plan.decisions {
                        tr {
                            td { (capital(name(d.quantity))) }
                            td.n { (show::offset(d.value_mm, system)) }
                            td.n { (limit(&d.limits, system)) }
                            td { (words::action(d.action)) }
                            td.w {}
                        }
                    }
                }
            }
        }
    }
}
