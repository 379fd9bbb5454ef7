//! The pages for the floor: the foreman's, to be read at arm's length and filled in, and the engineer's apart from it.

use super::asked::Asked;
use super::engineer;
use super::framed::framed;
use super::heat_words;
use super::piece::{camber_then, readings, sided, steel, strange, thermal};
use super::show::{limit, refusal, what};
use super::word::Words;
use super::words::{self, name};
use crate::chart::{ChartError, straightening_setup, straightening_sketch};
use crate::input::text::capital;
use crate::straighten::decide::Limits;
use crate::straighten::heat::{HeatPlace, HeatSeries};
use crate::straighten::plan::{MOST_TRIES, Push, Step, Work};
use crate::straighten::press::Rams;
use crate::units::{System, show};
use maud::{DOCTYPE, Markup, PreEscaped, html};

/// Black on white, A4 or Letter. Text of 11.5 pt on the foreman's page, none in its pictures below 11 pt, 10 pt on the engineer's; each page of paper repeats title and
/// cautions in short, as the head of the table that the page is.
const STYLE: &str = "\
@page{margin:10mm}\
*{box-sizing:border-box}\
body{font:11.5pt/1.25 'DejaVu Sans',Arial,sans-serif;color:#000;margin:0 auto;max-width:200mm;padding:4mm}\
h1{font-size:16pt;margin:0}h2{font-size:14pt;margin:.7em 0 .25em;break-after:avoid}h3{font-size:12.5pt;margin:0 0 .2em;break-after:avoid}\
p{margin:.3em 0;break-inside:avoid}ul{margin:.25em 0;padding-left:1.2em}li{margin:.15em 0;break-inside:avoid}\
.page{width:100%;border-collapse:collapse;break-after:page}.page:last-child{break-after:auto}\
.page>thead>tr>td,.page>tbody>tr>td{padding:0 .3mm 0 0;border:0}.page>thead{display:table-header-group}\
.run{border-bottom:.6mm solid #000;padding-bottom:.2em;margin-bottom:.4em;font-weight:bold}\
.run span{font-weight:normal}\
.caution{border:.8mm solid #000;padding:.3em .7em;margin:.3em 0 .6em}.caution h2{margin:0;letter-spacing:.12em}\
.sum{font-weight:bold;font-size:12.5pt}\
.grid{border-collapse:collapse;width:100%;margin:.3em 0}\
.grid th,.grid td{border:.25mm solid #333;padding:.22em .4em;vertical-align:top;text-align:left}\
.grid th{background:#e8e8e8}.grid tr{break-inside:avoid}.grid td.n{text-align:right;white-space:nowrap}\
.write td{height:8mm}\
.step{break-inside:avoid;padding-top:.8em}.step>h2{margin-top:0}\
.keep{break-inside:avoid}.sketch{max-width:168mm}figure{margin:.3em 0;break-inside:avoid}svg{width:100%;height:auto;display:block}\
.sign{display:flex;gap:8mm;margin-top:2.4em;break-inside:avoid}.sign div{flex:1;border-top:.3mm solid #000;padding-top:.3em}\
.engineer{font-size:10pt;line-height:1.25}.engineer h1{font-size:14pt}.engineer h2{font-size:12pt}\
@media print{body{padding:0;max-width:none}th{-webkit-print-color-adjust:exact;print-color-adjust:exact}}";

/// All pages in one document.
pub(super) fn whole(pages: &[Markup]) -> String {
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { "Straightening sheet" }
                style { (PreEscaped(STYLE)) }
            }
            body { @for page in pages { (page) } }
        }
    }
    .into_string()
}

/// The pages of one member: the foreman's and the engineer's.
///
/// # Errors
/// If a picture cannot be drawn.
pub(crate) fn page(asked: &Asked, system: System) -> Result<Markup, ChartError> {
    Ok(html! {
        (foreman(asked, system)?)
        (engineer::page(asked, system))
    })
}

fn foreman(asked: &Asked, system: System) -> Result<Markup, ChartError> {
    let plan = &asked.found.plan;
    let head = html! {
        (asked.job.title) " " span {
            "· CAUTION: stand clear of ram, supports and chains; no push without its guides; no heat without a permit; no step on a guess."
        }
    };
    let mut steps = Vec::new();
    for chosen in &plan.chosen {
        for (i, (step, said)) in words::steps(&chosen.way.steps, system, true).into_iter().enumerate() {
            let title = (i == 0).then(|| {
                format!("{}: {}", what(chosen.quantity, chosen.flange), words::method(chosen.way.method))
            });
            steps.push(one(asked, title.as_deref(), step, &said, system)?);
        }
    }
    let sketch = || straightening_sketch(&asked.job, &asked.found.piece, plan, system);
    let shape = (!plan.chosen.is_empty()).then(sketch).transpose()?;
    let body = html! {
        h1 { "Straightening: " (asked.job.title) }
        (facts(asked, system))
        div.caution {
            h2 { "CAUTION" }
            ul {
                @for caution in &plan.cautions { li { (caution.text.in_units(system)) } }
                @if let Some(text) = thermal(asked, system) { li { (text) } }
            }
        }
        div.keep {
            p.sum { (super::advice::summary(asked)) }
            (decisions(asked, system))
        }
        @if let Some(text) = camber_then(asked, system) { p { (text) } }
        @if asked.measured.is_some() {
            @for text in strange(asked, system).into_iter().chain(readings(asked, system)) { p { (text) } }
        }
        @if let Some(shape) = shape { figure.sketch { (PreEscaped(shape.svg)) } }
        @if !plan.refusals.is_empty() {
            h2 { "Advice withheld" }
            ul { @for r in &plan.refusals { li { (refusal(r)) } } }
        }
        @for step in &steps { (step) }
        @for blocked in &plan.blocked {
            h2 { (what(blocked.quantity, blocked.flange)) ": this shop cannot straighten it" }
            ul { @for block in &blocked.blocks { li { (block.sentence(system)) } } }
        }
        div.keep {
            p { "Believe the piece, not the plan. Measure everything again after each step. Keep this sheet with the member." }
            div.sign { div { "Done by, date" } div { "MT/PT result, by, date" } div { "Measured last by, date" } }
        }
    };
    Ok(framed("foreman", &head, &body))
}

/// What the piece is and what the plan rests on.
fn facts(asked: &Asked, system: System) -> Markup {
    let m = &asked.job.member;
    let readings = match &asked.measured {
        Some(path) => {
            let name = path.file_name().unwrap_or(path.as_os_str()).to_string_lossy();
            format!("{}, {}", crate::input::text::short(&name), asked.hash.as_deref().unwrap_or(""))
        }
        None => "predicted shape, no readings".to_owned(),
    };
    html! {
        table.grid {
            tr {
                th { "Mark / piece no." } td { (asked.piece.as_deref().unwrap_or_default()) }
                th { "Length, mass" } td { (show::position(m.length_mm, system)) ", " (show::mass(asked.found.prediction.mass_kg, system)) }
            }
            tr {
                th { "Steel, yield used, delivery" } td colspan="3" { (steel(asked, system)) }
            }
            @if let Some(wps) = asked.job.wps_said() {
                tr { th { "Welded by WPS" } td colspan="3" { (wps) } }
            }
            tr {
                th { "Readings" } td { (readings) }
                th { "Planned" } td { (asked.date) ", weldbow " (env!("CARGO_PKG_VERSION")) }
            }
            tr {
                th { "Shop" } td { (asked.shop.title) }
                th { "Agreed by the engineer, date" } td { }
            }
        }
    }
}

fn decisions(asked: &Asked, system: System) -> Markup {
    let planned = if asked.measured.is_some() { "Measured" } else { "Planned for" };
    html! {
        @if !asked.found.plan.decisions.is_empty() {
            table.grid {
                thead { tr { th { "What" } th { (planned) } th { "Limit" } th { "Accept, as read" } th { "Decision" } th { "Final value" } } }
                tbody {
                    @for d in &asked.found.plan.decisions {
                        tr {
                            td { (capital(name(d.quantity))) }
                            td { (sided(d.quantity, d.value_mm, system)) }
                            td.n { (limit(&d.limits, system)) }
                            td.n { (limit(&accepted(&d.limits), system)) }
                            td { (words::action(d.action)) }
                            td {}
                        }
                    }
                }
            }
        }
    }
}

/// The limits less what measuring may hide.
fn accepted(limits: &Limits) -> Limits {
    let (guard, middle) = (limits.guard(), 0.5 * (limits.lowest + limits.highest));
    Limits {
        lowest: (limits.lowest + guard).min(middle),
        highest: (limits.highest - guard).max(middle),
        ..*limits
    }
}

/// A step: its head and picture stay together, and so does each table.
fn one(
    asked: &Asked,
    title: Option<&str>,
    step: &Step,
    said: &Words,
    system: System,
) -> Result<Markup, ChartError> {
    let picture = straightening_setup(&asked.job, step, system)?.map(|p| p.svg);
    let table = match &step.work {
        Work::Push(push) => push_table(push, system),
        Work::Heats(series) => heat_table(series, system),
        Work::Fold { .. } => toe_table("Pass", "Force set", MOST_TRIES as u32),
        Work::Lines { passes, .. } => toe_table("Line", "Speed", passes.count),
    };
    Ok(html! {
        div.step {
            @if let Some(title) = title { h2 { (title) } }
            h3 { (step.number) ". " (said.head) }
            @if let Some(svg) = picture { figure { (PreEscaped(svg)) } }
        }
        ul { @for line in &said.lines { li { (line) } } }
        (table)
    })
}

/// Room for the toes after each pass of rollers or each line of heat.
fn toe_table(pass: &str, set: &str, passes: u32) -> Markup {
    html! {
        table.grid.write.keep {
            thead { tr {
                th { (pass) } th { (set) } th { "Toes after, near / far: start" } th { "middle" } th { "other end" } th { "Camber" } th { "Initials" }
            } }
            tbody { @for n in 1..=passes { tr { td { (n) } td {} td {} td {} td {} td {} td {} } } }
        }
    }
}

/// Stops of the first push, and room for the readings of each.
fn push_table(push: &Push, system: System) -> Markup {
    let mm = |v: f64| show::offset(v, system);
    let two = matches!(push.layout.rams, Rams::Two(..));
    let each = if two { " (each ram)" } else { "" };
    let travel = if two { "dial midway" } else { "travel" };
    html! {
        div.keep {
        table.grid {
            tr { th { "Push 1: stop at force" (each) } @for s in push.stops() { td.n { (show::force(s.force_n, system)) } } }
            tr { th { "and " (travel) } @for s in push.stops() { td.n { (mm(s.travel_mm)) } } }
        }
        table.grid {
            tr { th { "Push 2 without a gauge: set" } @for s in push.second_rule() { td.n { (mm(s.stayed_mm)) } } }
            tr { th { (travel) " of push 1 and" } @for s in push.second_rule() { td.n { (signed(s.more_mm, system)) } } }
        }
        p { "Push 2 and 3 by gauge, from the new rest: stop where " (travel) " = (" (travel) " − set, of the last push) × force ÷ its force + what is missing to " (mm(push.later_aim_mm())) "." }
        table.grid.write {
            thead { tr {
                th { "Push" } th { "Travel to go" } th { (capital(travel)) " read" } th { "Force read" }
                th { "Set in all (" (mm(push.wanted_mm())) " wanted)" } th { "Initials" }
            } }
            tbody {
                @for n in 1..=MOST_TRIES {
                    tr { td { (n) } td { @if n == 1 { "table above" } } td {} td {} td {} td {} }
                }
            }
        }
        }
    }
}

fn signed(mm: f64, system: System) -> String {
    let size = show::offset(mm.abs(), system);
    // what rounds to nothing has no sign
    let sign = match mm {
        _ if size == show::offset(0.0, system) => "",
        mm if mm < 0.0 => "−",
        _ => "+",
    };
    format!("{sign}{size}")
}

/// A line for each heat.
fn heat_table(series: &HeatSeries, system: System) -> Markup {
    let mut heats: Vec<(u32, &HeatPlace)> = heat_words::in_turn(series)
        .into_iter()
        .flat_map(|p| (1..=p.heats).map(move |round| (round, p)))
        .collect();
    heats.sort_by_key(|(round, p)| (*round, p.turn));
    let place = |x: f64| show::position(x, system);
    let both = |[a, b]: [f64; 2]| format!("{}, {}", place(a), place(b));
    html! {
        table.grid {
            thead { tr {
                th { "Heat" } th { "Place" } th { "Deep, wide" } th { "Jack, in all" } th { "Feet at" } th { "Supports at" }
            } }
            tbody {
                @for p in heat_words::in_turn(series) {
                    tr {
                        td { (p.turn) } td.n { (place(p.x_mm)) }
                        td.n { (heat_words::size(p.vee.depth_mm, system)) ", " (heat_words::size(p.vee.base_mm, system)) }
                        td.n { (show::force(p.jack.force_n, system)) } td.n { (both(p.jack.feet_mm)) } td.n { (both(p.jack.supports_mm)) }
                    }
                }
            }
        }
        table.grid.write.keep {
            thead { tr {
                th { "Heat" } th { "Place" } th { "Start" } th { "Peak, never above " (show::hottest(series.most_c, system)) }
                th { "Below " (show::hottest(crate::straighten::heat::NEXT_HEAT_C, system)) " at" } th { "Bow" } th { "Initials" }
            } }
            tbody {
                @for (n, (_, p)) in heats.iter().enumerate() {
                    tr { td { (n + 1) } td { (show::position(p.x_mm, system)) } td {} td {} td {} td {} td {} }
                }
            }
        }
    }
}
