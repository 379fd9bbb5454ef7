//! Published estimates side by side with the prediction: how far the methods differ.

use super::axes::{Panel, Range};
use super::canvas::{At, BELOW_TITLE, Canvas, Heading, MARGIN, corners, draw};
use super::measure::Unit;
use super::theme::{BAND_ALPHA, BLACK, BLUE, GRID, HEADING, LABEL, PREDICTED, SMALL, VALUE, WHITE};
use super::{Done, Picture};
use weldbow_engine::prediction::{Estimate, Job, Prediction};
use weldbow_engine::units::System;

const WIDTH: f64 = 900.0;
const LEFT: f64 = 400.0;
const RIGHT: f64 = 812.0;
const ROW: f64 = 38.0;
const LEAST_SPAN_MM: f64 = 0.5;

/// One quantity with all its estimates, smallest first.
struct Group<'p> {
    name: &'static str,
    predicted_mm: f64,
    two_s_mm: f64,
    estimates: Vec<&'p Estimate>,
}

impl Group<'_> {
    fn tall(&self) -> f64 {
        44.0 + ROW * self.estimates.len() as f64 + 40.0
    }
}

pub(super) fn methods(job: &Job, prediction: &Prediction, system: System) -> Done<Vec<Picture>> {
    let p = prediction;
    [
        ("camber", "camber.max_mm", p.camber.max_mm, p.camber.max_2s_mm),
        ("shortening", "shortening_mm", p.shortening_mm, p.shortening.centroid_2s_mm),
        ("sweep", "sweep.max_mm", p.sweep.max_mm, p.sweep.max_2s_mm),
    ]
    .into_iter()
    .map(|(name, quantity, predicted_mm, two_s_mm)| {
        let mut estimates: Vec<&Estimate> = p.estimates.iter().filter(|e| e.quantity == quantity).collect();
        estimates.sort_by(|a, b| a.value.total_cmp(&b.value));
        Group { name, predicted_mm, two_s_mm, estimates }
    })
    .filter(|group| !group.estimates.is_empty())
    .map(|group| picture(job, &group, system))
    .collect()
}

fn picture(job: &Job, group: &Group<'_>, system: System) -> Done<Picture> {
    let rows = group.estimates.len();
    let heading = Heading {
        name: &format!("methods-{}", group.name),
        job: &job.title,
        what: &format!("{} by other methods", group.name),
        subtitle:
            "Line and band: this prediction ± 2σ. Full dots: estimates. Open dots: bounds and range checks."
                .to_owned(),
        description: format!(
            "{rows} other estimates of {} as dots, one row each, against the prediction as a line.",
            group.name
        ),
    };
    draw(&heading, (WIDTH, BELOW_TITLE + group.tall()), |paper| panel(paper, group, BELOW_TITLE, system))
}

fn panel(paper: &Canvas<'_>, group: &Group<'_>, top: f64, system: System) -> Done {
    let largest = group.estimates.iter().map(|e| e.value.abs()).fold(group.predicted_mm.abs(), f64::max);
    let unit = Unit::offset(system).to_tell_apart(largest);
    let (low, high) = (group.predicted_mm - group.two_s_mm, group.predicted_mm + group.two_s_mm);
    let values = group.estimates.iter().map(|e| e.value).chain([low, high]);
    let rows = group.estimates.len() as f64;
    let x = Range::around(values, LEAST_SPAN_MM);
    let y = Range::to(rows);
    let panel = Panel::new((LEFT, RIGHT), (top + 44.0, top + 44.0 + ROW * rows), x, y);
    let name = format!("{}{}, {}", group.name[..1].to_uppercase(), &group.name[1..], unit.name);
    paper.text((MARGIN, top + 26.0), At::Left, &name, HEADING)?;
    panel.x_grid(paper, unit.mm, 6.0, 12.0)?;
    for row in 0..group.estimates.len() {
        let y = panel.top + ROW * (row as f64 + 0.5);
        paper.line(&[(LEFT, y), (RIGHT, y)], GRID)?;
        if row > 0 {
            let between = panel.top + ROW * row as f64;
            paper.line(&[(MARGIN, between), (LEFT - 16.0, between)], GRID)?;
        }
    }
    paper.fill(&corners(panel.at(low, 0.0), panel.at(high, rows)), BLUE, BAND_ALPHA)?;
    let predicted = panel.px(group.predicted_mm);
    paper.line(&[(predicted, panel.top - 6.0), (predicted, panel.bottom)], PREDICTED)?;
    let value = format!("this prediction {} ± {}", unit.bare(group.predicted_mm), unit.bare(group.two_s_mm));
    let half = 0.5 * paper.width_of(&value, VALUE)?;
    let at = (predicted.clamp(LEFT + half - 60.0, WIDTH - 12.0 - half), panel.top - 15.0);
    paper.text(at, At::Middle, &value, VALUE.in_ink(BLUE))?;

    for (row, estimate) in group.estimates.iter().enumerate() {
        let y = panel.top + ROW * (row as f64 + 0.5);
        line_of(paper, estimate, (panel.px(estimate.value), y), unit)?;
    }
    Ok(())
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
