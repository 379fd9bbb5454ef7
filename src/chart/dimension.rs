//! Dimension lines: a thin line with a filled arrow head at one or both ends.

use super::Done;
use super::canvas::{Canvas, Point};
use super::theme::{FULL, Ink, Stroke};

/// Length of an arrow head, px; shorter dimensions get smaller heads.
const HEAD: f64 = 7.0;

/// A line from `tail` to `tip` with a head at the tip.
pub(super) fn arrow(paper: &Canvas<'_>, tail: Point, tip: Point, ink: Ink) -> Done {
    paper.line(&[tail, tip], Stroke::new(ink, 1.1, FULL))?;
    head(paper, tail, tip, ink)
}

/// A line with heads at both ends.
pub(super) fn span(paper: &Canvas<'_>, a: Point, b: Point, ink: Ink) -> Done {
    arrow(paper, a, b, ink)?;
    head(paper, b, a, ink)
}

fn head(paper: &Canvas<'_>, tail: Point, tip: Point, ink: Ink) -> Done {
    let (dx, dy) = (tip.0 - tail.0, tip.1 - tail.1);
    let length = dx.hypot(dy);
    if length < 1.0 {
        return Ok(());
    }
    let (ux, uy) = (dx / length, dy / length);
    let back = HEAD.min(0.45 * length);
    let half = 0.38 * back;
    let root = (tip.0 - ux * back, tip.1 - uy * back);
    let (left, right) = ((root.0 - uy * half, root.1 + ux * half), (root.0 + uy * half, root.1 - ux * half));
    paper.fill(&[tip, left, right], ink, 1.0)
}

/// A curved arrow around `centre`, from one angle to another (radians, counter-clockwise from +x as seen).
pub(super) fn turn(paper: &Canvas<'_>, centre: Point, radius: f64, from: f64, to: f64, ink: Ink) -> Done {
    let at = |angle: f64| (centre.0 + radius * angle.cos(), centre.1 - radius * angle.sin());
    let points: Vec<Point> = (0..=20).map(|i| at(from + (to - from) * f64::from(i) / 20.0)).collect();
    paper.line(&points, Stroke::new(ink, 1.1, FULL))?;
    // the head points along the tangent at the end
    let (tip, onward) = (at(to), (to - from).signum());
    head(paper, (tip.0 + onward * HEAD * 2.0 * to.sin(), tip.1 + onward * HEAD * 2.0 * to.cos()), tip, ink)
}
