//! A record's answer as a part of a page.

use super::told::{self, Body};
use super::{UNSETTLED, USUAL_SEED, found};
use crate::chart::{Picture, record_pictures};
use crate::cli::ended::{Ended, Outcome};
use crate::units::System;
use maud::{Markup, PreEscaped, html};
use std::path::Path;

/// What a record teaches: what was learned, before and after, and whether the shop moved.
///
/// # Errors
/// Mistakes in its files, readings from which nothing can be learned, a picture that cannot be drawn.
pub(crate) fn part_of(record: &Path, shop: Option<&Path>, system: System) -> Outcome<Markup> {
    let (gathered, learned) = found(record, shop, USUAL_SEED)?;
    if !learned.agreement.holds() {
        return Err(Ended::by_file(record, UNSETTLED));
    }
    let pictures = record_pictures(&learned, system).map_err(|error| Ended::by_file(record, error))?;
    let (before, in_order): (Vec<_>, Vec<_>) =
        pictures.into_iter().partition(|picture| picture.name == "record-before-after");
    let drawn =
        |pictures: &[Picture]| html! { @for p in pictures { figure.native { (PreEscaped(&p.svg)) } } };
    Ok(html! {
        article.report.shop {
            h2 { "What this shop's pieces say" }
            p.says { (told::head(&gathered, &learned)) ". Offsets: sweep + toward the near side, camber + toward the inner flange." }
            @for part in told::parts(&gathered, &learned, system) {
                h3 { (part.title) }
                @if !part.remark.is_empty() { p.says { (part.remark) } }
                (body(&part.body))
            }
            h3 { "Before and after, drawn" }
            (drawn(&before))
            @if !in_order.is_empty() {
                h3 { "In the order of welding" }
                (drawn(&in_order))
            }
            p.says { (told::foot(&learned)) }
        }
    })
}

fn body(body: &Body) -> Markup {
    match body {
        Body::Lines(lines) => html! { ul { @for line in lines { li { (line) } } } },
        Body::Table { heads, right, rows, rest } => {
            let class = |column: usize| right.contains(&column).then_some("n");
            html! {
                table {
                    thead { tr { @for (k, head) in heads.iter().enumerate() { th class=[class(k)] { (head) } } } }
                    tbody {
                        @for row in rows { tr { @for (k, cell) in row.iter().enumerate() { td class=[class(k)] { (cell) } } } }
                    }
                }
                @if let Some(rest) = rest { p.says { (rest) } }
            }
        }
    }
}
