//! Marks of points: seven shapes, so that with six colours and five dash patterns no two lines look alike.

use crate::Done;
use crate::canvas::{Canvas, Point};
use crate::theme::{FULL, Ink, Stroke, WHITE, ZERO};
use std::f64::consts::TAU;

const SHAPES: usize = 7;
/// White rim that sets a mark off from lines, px.
const RIM: f64 = 1.1;
/// How much larger a hollow mark is, and how heavy its line, px: seen at a glance beside full ones.
const HOLLOW_MORE: f64 = 1.6;
const HOLLOW_LINE: f64 = 2.0;

/// The n-th mark, about as large as a disc of that radius.
pub(super) fn mark(paper: &Canvas<'_>, at: Point, n: usize, radius: f64, ink: Ink) -> Done {
    match n % SHAPES {
        0 => paper.dot(at, radius, ink),
        6 => paper.ring(at, radius + 0.4, ink),
        shape => {
            paper.fill(&corners_of(at, shape, radius + RIM), WHITE, 1.0)?;
            paper.fill(&corners_of(at, shape, radius), ink, 1.0)
        }
    }
}

/// The n-th mark as an outline, larger than a full one: what it stands for carries a warning.
pub(super) fn hollow(paper: &Canvas<'_>, at: Point, n: usize, radius: f64, ink: Ink) -> Done {
    let radius = radius + HOLLOW_MORE;
    match n % SHAPES {
        0 | 6 => {
            paper.dot(at, radius, ink)?;
            paper.disc(at, radius - HOLLOW_LINE, WHITE)
        }
        shape => {
            paper.fill(&corners_of(at, shape, radius + RIM), WHITE, 1.0)?;
            paper.outline(&corners_of(at, shape, radius), Stroke { ink, width: HOLLOW_LINE, dash: FULL })
        }
    }
}

fn corners_of(at: Point, shape: usize, radius: f64) -> Vec<Point> {
    // corners, first angle in parts of a turn, reach over the radius of a disc as heavy
    let (corners, first, reach) = match shape {
        1 => (4, 0.125, 1.25),
        2 => (3, -0.25, 1.45),
        3 => (4, 0.0, 1.4),
        4 => (3, 0.25, 1.45),
        _ => return plus(at, radius),
    };
    (0..corners)
        .map(|i| TAU * (first + f64::from(i) / f64::from(corners)))
        .map(|angle| (at.0 + reach * radius * angle.cos(), at.1 + reach * radius * angle.sin()))
        .collect()
}

fn plus(at: Point, radius: f64) -> Vec<Point> {
    let (long, short) = (1.35 * radius, 0.42 * radius);
    let quarter = [(short, -long), (short, -short), (long, -short)];
    let turned = |(x, y): Point, turn: usize| match turn {
        0 => (x, y),
        1 => (-y, x),
        2 => (-x, -y),
        _ => (y, -x),
    };
    (0..4).flat_map(|turn| quarter.map(|p| turned(p, turn))).map(|(x, y)| (at.0 + x, at.1 + y)).collect()
}

/// The cross of a case that failed.
pub(super) fn cross(paper: &Canvas<'_>, at: Point, radius: f64) -> Done {
    for side in [-1.0, 1.0] {
        let ends = [(at.0 - radius, at.1 - side * radius), (at.0 + radius, at.1 + side * radius)];
        paper.line(&ends, Stroke { width: 1.6, ..ZERO })?;
    }
    Ok(())
}

/// Slanting lines over an upright rectangle: its pattern in a grey print.
pub(super) fn hatch(paper: &Canvas<'_>, (a, b): (Point, Point), apart: f64, stroke: Stroke) -> Done {
    let (left, right) = (a.0.min(b.0), a.0.max(b.0));
    let (top, bottom) = (a.1.min(b.1), a.1.max(b.1));
    let (first, last) = (((left + top) / apart).ceil() as i64, ((right + bottom) / apart).floor() as i64);
    for n in first..=last.min(first + 2000) {
        // the line x + y = sum, inside the rectangle
        let sum = n as f64 * apart;
        let (from, to) = ((sum - bottom).max(left), (sum - top).min(right));
        if to - from > 0.2 {
            paper.line(&[(from, sum - from), (to, sum - to)], stroke)?;
        }
    }
    Ok(())
}
