//! Published estimates side by side with the prediction: how far the methods differ.

use super::axes::{LEAST_SPAN_MM, Panel, Range};
use super::canvas::{At, BELOW_TITLE, Canvas, Heading, MARGIN, WIDTH, corners, draw};
use super::measure::Unit;
use super::theme::{BAND_ALPHA, BLACK, BLUE, GRID, HEADING, LABEL, PREDICTED, SMALL, VALUE, WHITE};
use super::{Done, Picture};
use weldbow_engine::input::text::capital;
use weldbow_engine::prediction::{Estimate, Job, Prediction};
use weldbow_engine::units::System;

const LEFT: f64 = 400.0;
const RIGHT: f64 = 812.0;
const ROW: f64 = 38.0;

/// A picture of each quantity that others estimate.
pub(super) fn methods(job: &Job, prediction: &Prediction, system: System) -> Done<Vec<Picture>> {
    let p = prediction;
    let mut all = Vec::new();
    for (name, quantity, predicted_mm, two_s_mm) in [
        ("camber", "camber.max_mm", p.camber.max_mm, p.camber.max_2s_mm),
        ("shortening", "shortening_mm", p.shortening_mm, p.shortening.centroid_2s_mm),
        ("sweep", "sweep.max_mm", p.sweep.max_mm, p.sweep.max_2s_mm),
    ] {
        let mut estimates: Vec<&Estimate> = p.estimates.iter().filter(|e| e.quantity == quantity).collect();
        if !estimates.is_empty() {
            estimates.sort_by(|a, b| a.value.total_cmp(&b.value));
            all.push(picture(job, name, &estimates, (predicted_mm, two_s_mm), system)?);
        }
    }
    Ok(all)
}

/// One quantity with all its estimates, smallest first.
fn picture(
    job: &Job,
    name: &str,
    estimates: &[&Estimate],
    (predicted_mm, two_s_mm): (f64, f64),
    system: System,
) -> Done<Picture> {
    let heading = Heading {
        name: &format!("methods-{name}"),
        job: &job.title,
        what: &format!("{name} by other methods"),
        subtitle:
            "Line and band: this prediction ± 2σ. Full dots: estimates. Open dots: bounds and range checks."
                .to_owned(),
        description: format!(
            "{} other estimates of {name} as dots, one row each, against the prediction as a line.",
            estimates.len()
        ),
    };
    let largest = estimates.iter().map(|e| e.value.abs()).fold(predicted_mm.abs(), f64::max);
    let unit = Unit::offset(system).to_tell_apart(largest);
    let (low, high) = (predicted_mm - two_s_mm, predicted_mm + two_s_mm);
    let values = estimates.iter().map(|e| e.value).chain([low, high]);
    let rows = estimates.len() as f64;
    let x = Range::around(values, LEAST_SPAN_MM);
    let y = Range::to(rows);
    let top = BELOW_TITLE + 44.0;
    let panel = Panel::new((LEFT, RIGHT), (top, top + ROW * rows), x, y);
    draw(&heading, (WIDTH, panel.bottom + 40.0), |paper| {
        let text = format!("{}, {}", capital(name), unit.name);
        paper.text((MARGIN, BELOW_TITLE + 26.0), At::Left, &text, HEADING)?;
        panel.x_grid(paper, unit.mm, 6.0, 12.0)?;
        for row in 0..estimates.len() {
            let y = panel.top + ROW * (row as f64 + 0.5);
            paper.line(&[(LEFT, y), (RIGHT, y)], GRID)?;
            if row > 0 {
                let between = panel.top + ROW * row as f64;
                paper.line(&[(MARGIN, between), (LEFT - 16.0, between)], GRID)?;
            }
        }
        paper.fill(&corners(panel.at(low, 0.0), panel.at(high, rows)), BLUE, BAND_ALPHA)?;
        let predicted = panel.px(predicted_mm);
        paper.line(&[(predicted, panel.top - 6.0), (predicted, panel.bottom)], PREDICTED)?;
        let value = format!("this prediction {} ± {}", unit.bare(predicted_mm), unit.bare(two_s_mm));
        let half = 0.5 * paper.width_of(&value, VALUE)?;
        let at = (predicted.clamp(LEFT + half - 60.0, WIDTH - 12.0 - half), panel.top - 15.0);
        paper.text(at, At::Middle, &value, VALUE.in_ink(BLUE))?;

        for (row, estimate) in estimates.iter().enumerate() {
            let y = panel.top + ROW * (row as f64 + 0.5);
            line_of(paper, estimate, (panel.px(estimate.value), y), unit)?;
        }
        Ok(())
    })
}

/// Method and source at the left, dot and value in the plot.
fn line_of(paper: &Canvas<'_>, estimate: &Estimate, at: (f64, f64), unit: Unit) -> Done {
    let room = LEFT - MARGIN - 16.0;
    paper.text_within((MARGIN, at.1 - 7.0), room, estimate.method, LABEL)?;
    paper.text_within((MARGIN, at.1 + 8.0), room, estimate.source, SMALL)?;
    if estimate.bound {
        paper.ring(at, 5.0, BLACK)?;
    } else {
        paper.dot(at, 4.5, BLACK)?;
    }
    paper.plated((at.0 + 10.0, at.1), At::Left, &unit.bare(estimate.value), LABEL, WHITE)
}
