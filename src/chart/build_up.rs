//! How the camber builds up: its line as pass after pass is added.

use super::axes::{LEAST_SPAN_MM, LEFT, Panel, Range};
use super::canvas::{At, BELOW_TITLE, Canvas, Heading, MARGIN, SIZE, draw};
use super::measure::Unit;
use super::number::signed;
use super::smooth::smooth;
use super::theme::{HEADING, LABEL, Letters, SMALL, Stroke, WHITE, series};
use super::{Done, Picture};
use weldbow_engine::prediction::{Job, Prediction, WeldingStep};
use weldbow_engine::units::System;

const RIGHT: f64 = 620.0;
const KEY: f64 = 646.0;
const BADGE: Letters = Letters { size: 11.0, ink: WHITE, bold: true };

pub(super) fn build_up(job: &Job, prediction: &Prediction, system: System) -> Done<Picture> {
    let steps = &prediction.build_up;
    // with digits that tell the steps apart
    let largest = steps.iter().map(|s| s.camber_mm.abs()).fold(0.0, f64::max);
    let unit = Unit::offset(system).to_tell_apart(largest);
    let so_far = |s: &WeldingStep| {
        let with = if s.seam.is_some() { format!("pass {}", s.pass) } else { "welds across".to_owned() };
        format!("{} {} with {with}", signed(s.camber_mm / unit.mm, unit.decimals), unit.name)
    };
    let told: Vec<String> = steps.iter().map(so_far).collect();
    let last = told.last().cloned().unwrap_or_default();
    let heading = Heading {
        name: "build-up",
        job: &job.title,
        what: "how the camber builds up",
        subtitle: format!(
            "Camber so far as each pass is added, whether laid together or in turn; in the end {last}."
        ),
        description: format!("Camber along x as each pass is added. {}.", told.join("; ")),
    };
    let values = steps.iter().flat_map(|s| s.camber_profile_mm.iter().copied());
    let x = Range::to(job.member.length_mm);
    let y = Range::around(values, LEAST_SPAN_MM);
    let panel = Panel::new((LEFT, RIGHT), (BELOW_TITLE + 26.0, SIZE.1 - 54.0), x, y);
    draw(&heading, SIZE, |paper| {
        paper.text((MARGIN, panel.top - 18.0), At::Left, "Camber", HEADING)?;
        let signs = "+ toward the inner flange, \u{2212} toward the outer flange";
        paper.text((LEFT + 6.0, panel.top - 18.0), At::Left, signs, SMALL)?;
        panel.y_axis(paper, unit, "offset from the chord")?;
        panel.x_axis(paper, Unit::along(system), "x from the start end")?;
        lines(paper, &panel, prediction)?;
        key(paper, &panel, steps, unit)
    })
}

/// The line of every step, with its number on it: all lines end at zero, so their ends cannot be told apart.
fn lines(paper: &Canvas<'_>, panel: &Panel, prediction: &Prediction) -> Done {
    let steps = &prediction.build_up;
    let xs: Vec<f64> = prediction.camber.profile.iter().map(|p| p[0]).collect();
    for (n, step) in steps.iter().enumerate() {
        let points: Vec<(f64, f64)> =
            xs.iter().copied().zip(step.camber_profile_mm.iter().copied()).collect();
        paper.line(&panel.path(smooth(&points)), stroke(n, steps.len()))?;
    }
    for (n, step) in steps.iter().enumerate() {
        // badges go step by step from 35 to 65 % of the length, so that lines lying together still show theirs
        let share = 0.35 + 0.3 * (n as f64 + 0.5) / steps.len() as f64;
        let station = (share * xs.len() as f64) as usize;
        let (Some(x), Some(y)) = (xs.get(station), step.camber_profile_mm.get(station)) else { continue };
        badge(paper, panel.at(*x, *y), step.pass, stroke(n, steps.len()))?;
    }
    Ok(())
}

/// The last step is what stays: it is drawn full and heavy.
fn stroke(n: usize, steps: usize) -> Stroke {
    if n + 1 == steps { Stroke { width: 2.8, ..series(0) } } else { series(n + 1) }
}

fn badge(paper: &Canvas<'_>, at: (f64, f64), number: usize, stroke: Stroke) -> Done {
    paper.dot(at, 8.5, stroke.ink)?;
    paper.text(at, At::Middle, &number.to_string(), BADGE)
}

/// Right of the plot: each pass, and how far the camber is with it.
fn key(paper: &Canvas<'_>, panel: &Panel, steps: &[WeldingStep], unit: Unit) -> Done {
    let tall = (58.0_f64).min((panel.bottom - panel.top) / steps.len().max(1) as f64);
    let room = SIZE.0 - KEY - 46.0 - 8.0;
    for (n, step) in steps.iter().enumerate() {
        let y = panel.top + 10.0 + tall * n as f64;
        let stroke = stroke(n, steps.len());
        paper.line(&[(KEY - 16.0, y), (KEY + 36.0, y)], stroke)?;
        badge(paper, (KEY + 10.0, y), step.pass, stroke)?;
        let so_far = format!("{} {}", signed(step.camber_mm / unit.mm, unit.decimals), unit.name);
        paper.text_within((KEY + 46.0, y), room, &so_far, HEADING)?;
        if tall > 30.0 {
            let rows = match (step.seam, step.side) {
                (Some(seam), Some(side)) => {
                    [format!("{} seam, {} side", seam.name(), side.name()), format!("step {}", step.order)]
                }
                _ => ["welds across".to_owned(), "attachments, splices".to_owned()],
            };
            for (row, text) in rows.iter().enumerate() {
                let text = paper.shortened(text, room, LABEL)?;
                paper.text((KEY + 46.0, y + 16.0 + 15.0 * row as f64), At::Left, &text, SMALL)?;
            }
        }
    }
    Ok(())
}
