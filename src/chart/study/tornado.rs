//! How far each input moves a result when it goes from low to high by itself, the strongest on top.

use super::axis::Axis;
use super::bars::{Bars, key, piece};
use super::check::ChartSpecFault;
use super::sheet::{SheetText, sheet};
use super::view::StudyView;
use super::worded::{alike, axis_name, bare, column, counted, head, sentences, sound, value};
use crate::axes::Panel;
use crate::canvas::{At, Canvas, MARGIN, RIGHT_END, clean};
use crate::theme::{BLACK, FULL, LABEL, SMALL, Stroke, VALUE, WHITE};
use crate::{ChartError, Done, Picture};
use weldbow_engine::scatter::OneAtATime;
use weldbow_engine::study::ChartSpec;

/// Most inputs drawn; the rest is summed up in words (a choice).
const MOST: usize = 14;
const ROW: f64 = 38.0;
const HALF_BAR: f64 = 9.5;
/// Over the bars for the key and the middle result, under them for the axis and the rest, px.
const OVER: f64 = 46.0;
const UNDER: f64 = 48.0;
const REST: f64 = 18.0;
/// Part of the strongest bar below which an input does not move the result.
const STILL: f64 = 1e-9;
/// Widest label beside a bar, px.
const WIDEST: f64 = 150.0;
const LEAST: f64 = 452.0;

pub(super) fn tornado(view: &StudyView<'_>, spec: &ChartSpec, name: &str) -> Done<Picture> {
    let Some(shown) = column(view.table, spec.y.first()) else { return Err(ChartError::NotANumber) };
    let usable =
        |swing: &&OneAtATime| swing.results.iter().chain([&swing.middle]).all(|r| sound(*r).is_finite());
    let usable = view.swings.iter().filter(usable);
    let tidy: Vec<OneAtATime> = usable
        .map(|s| OneAtATime { results: s.results.map(sound), middle: sound(s.middle), ..s.clone() })
        .collect();
    let mut swings: Vec<&OneAtATime> = tidy.iter().collect();
    let failed = view.swings.len() - swings.len();
    if swings.is_empty() {
        let instead = "it wants inputs that are moved one at a time and give a result at both ends";
        return Ok(ChartSpecFault::nothing("tornado chart", instead)?);
    }
    swings.sort_by(|a, b| reach(b).total_cmp(&reach(a)).then_with(|| a.input.cmp(&b.input)));
    let middle = swings.first().map_or(0.0, |s| s.middle);
    // the strongest stays even where nothing moves, so that there is something to see
    let least = STILL * swings.first().map_or(0.0, |s| reach(s));
    let moving = swings.iter().filter(|s| reach(s) > least).count().max(1);
    let still = swings.split_off(moving).len();
    let rest = swings.split_off(swings.len().min(MOST));
    let ends = swings.iter().flat_map(|s| s.results).chain([middle]);
    let (low, high) = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| (l.min(v), h.max(v)));
    let axis = Axis::exactly(|power| axis_name(shown, power), low, high);
    let labels = end_labels(&swings, high - low);
    let names: Vec<String> = swings.iter().map(|s| clean(&s.input)).collect();
    let strongest = swings.first().map_or(String::new(), |s| {
        let (a, b) = (bare(s.results[0]), value(s.results[1], &shown.unit));
        format!("{} moves it most, from {a} to {b}", clean(&s.input))
    });
    let failed =
        if failed > 0 { format!("{} failed and left out", counted(failed, "input")) } else { String::new() };
    let said = SheetText {
        what: format!("what moves {}", head(shown)),
        subtitle: sentences(&[
            strongest,
            "Each input by itself, the others at their middle".to_owned(),
            failed,
        ]),
        description: format!(
            "Bars of {} for {} moved by itself from low (dark, hatched) to high (pale), strongest on top.",
            head(shown),
            counted(names.len(), "input")
        ),
    };
    let rest = rest_in_words(&rest, still, &shown.unit);
    let tall = LEAST.max(OVER + ROW * names.len() as f64 + UNDER) + if rest.is_empty() { 0.0 } else { REST };
    sheet(view, spec, name, said, tall, |paper, (top, bottom)| {
        let room = paper.widest(labels.iter().flatten(), LABEL)?.min(WIDEST) + 12.0;
        let bars = Bars { names: &names, axis: &axis, inset: (room, room) };
        let bottom = if rest.is_empty() { bottom } else { bottom - REST };
        let panel = bars.draw(paper, (top + OVER, bottom), |row, panel, y| {
            bar(paper, panel, (swings[row], &labels[row]), (panel.px(middle), y))
        })?;
        let x = panel.px(middle);
        paper.line(&[(x, panel.top - 6.0), (x, panel.bottom)], Stroke::new(BLACK, 1.6, FULL))?;
        let text = format!("{} with all inputs at their middle", value(middle, &shown.unit));
        let half = 0.5 * paper.width_of(&text, VALUE)?;
        let at = x.clamp(MARGIN + half, (RIGHT_END - half).max(MARGIN + half));
        paper.text((at, panel.top - 15.0), At::Middle, &text, VALUE)?;
        key(paper, &["input at its low end", "input at its high end"])?;
        paper.text_within((MARGIN, bottom + 8.0), RIGHT_END - MARGIN, &rest, SMALL)
    })
}

/// How far an input moves the result.
fn reach(swing: &OneAtATime) -> f64 {
    (swing.results[1] - swing.results[0]).abs()
}

/// "6 mm → 9.20" at either end of each input.
fn end_labels(swings: &[&OneAtATime], span: f64) -> Vec<[String; 2]> {
    let results: Vec<f64> = swings.iter().flat_map(|s| s.results).collect();
    let results = alike(&results, span);
    let label = |s: &OneAtATime, end: usize, result: &str| format!("{} → {result}", clean(&s.ends[end]));
    let pairs = swings.iter().zip(results.chunks(2));
    pairs.map(|(s, pair)| [0, 1].map(|end| label(s, end, &pair[end]))).collect()
}

/// The bar of one input: from the middle to its low end dark and hatched, to its high end pale.
fn bar(
    paper: &Canvas<'_>,
    panel: &Panel,
    (swing, labels): (&OneAtATime, &[String; 2]),
    (middle, y): (f64, f64),
) -> Done {
    let ends = swing.results.map(|result| panel.px(result));
    let one_side = (ends[0] - middle) * (ends[1] - middle) > 0.0;
    for (end, x) in ends.into_iter().enumerate() {
        // ends on one side share the height of the bar, so that neither covers the other
        let (top, bottom) = match (one_side, end) {
            (false, _) => (y - HALF_BAR, y + HALF_BAR),
            (true, 0) => (y - HALF_BAR, y - 0.5),
            (true, _) => (y + 0.5, y + HALF_BAR),
        };
        let (a, b) = ((middle, top), (x, bottom));
        piece(paper, end, a, b)?;
        let left = if ends[0] < ends[1] { end == 0 } else { end == 1 };
        let left = if one_side { x < middle } else { left };
        let (at, from) = if left { (x - 6.0, At::Right) } else { (x + 6.0, At::Left) };
        let height = if one_side { 0.5 * (top + bottom) + if end == 0 { -3.0 } else { 3.0 } } else { y };
        let text = paper.shortened(&labels[end], WIDEST, LABEL)?;
        paper.plated((at, height), from, &text, LABEL, WHITE)?;
    }
    Ok(())
}

fn rest_in_words(rest: &[&OneAtATime], still: usize, unit: &str) -> String {
    let mut parts = Vec::new();
    if let Some(first) = rest.first() {
        let most = value(reach(first), unit);
        parts.push(format!("{}, each moving it by {most} or less", counted(rest.len(), "more input")));
    }
    if still > 0 {
        let verb = if still == 1 { "does" } else { "do" };
        parts.push(format!("{} that {verb} not move it", counted(still, "input")));
    }
    if parts.is_empty() { String::new() } else { format!("Not drawn: {}.", parts.join("; ")) }
}
