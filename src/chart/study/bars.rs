//! Bars lying one under another, their names at the left.

use super::axis::Axis;
use super::foot::{Foot, wrap};
use super::marks::hatch;
use crate::Done;
use crate::axes::Panel;
use crate::canvas::{At, BELOW_TITLE, Canvas, MARGIN, Point, RIGHT_END, corners};
use crate::theme::{BLACK, BLUE, FULL, GRID, LABEL, SKY_PALE, SMALL, Stroke, WHITE, ZERO};

/// Widest name, px.
const NAMES: f64 = 230.0;
const LINE: f64 = 14.0;

/// Rows of bars over one axis.
pub(super) struct Bars<'a> {
    pub names: &'a [String],
    pub axis: &'a Axis,
    /// Kept free left and right of the bars for labels, px.
    pub(crate) inset: (f64, f64),
}

impl Bars<'_> {
    /// Draws names and axis between two heights; `content` draws the bars of a row about its middle.
    pub(super) fn draw(
        &self,
        paper: &Canvas<'_>,
        (top, bottom): (f64, f64),
        content: impl Fn(usize, &Panel, f64) -> Done,
    ) -> Done<Panel> {
        let mut names = Vec::new();
        let mut widest = 0.0_f64;
        for name in self.names {
            let lines = match wrap(paper, name, NAMES)? {
                Some(lines) if lines.len() < 3 => lines,
                _ => vec![paper.shortened(name, NAMES, LABEL)?],
            };
            for line in &lines {
                widest = widest.max(paper.width_of(line, LABEL)?);
            }
            names.push(lines);
        }
        let left = MARGIN + widest + 16.0 + self.inset.0;
        let right = RIGHT_END - self.inset.1;
        let foot = Foot::of(paper, self.axis, right - left)?;
        let panel =
            Panel::new((left, right), (top, bottom - foot.tall - 22.0), self.axis.range, self.axis.range);
        for mark in self.axis.marks((right - left) / 70.0) {
            let x = panel.px(mark.place);
            let zero = mark.place.abs() < 1e-9 * (panel.x.high - panel.x.low);
            paper.line(&[(x, panel.top), (x, panel.bottom)], if zero { ZERO } else { GRID })?;
        }
        let tall = (panel.bottom - panel.top) / self.names.len().max(1) as f64;
        for (row, lines) in names.iter().enumerate() {
            let middle = panel.top + tall * (row as f64 + 0.5);
            let first = middle - 0.5 * LINE * (lines.len() as f64 - 1.0);
            for (n, line) in lines.iter().enumerate() {
                paper.text((MARGIN, first + LINE * n as f64), At::Left, line, LABEL)?;
            }
            content(row, &panel, middle)?;
        }
        foot.line(paper, &panel)?;
        foot.labels(paper, &panel)?;
        let name = paper.shortened(&self.axis.name, RIGHT_END - MARGIN, LABEL)?;
        let half = 0.5 * paper.width_of(&name, LABEL)?;
        let x = (0.5 * (left + right)).min(RIGHT_END - half).max(MARGIN + half);
        paper.text((x, bottom - 9.0), At::Middle, &name, LABEL)?;
        Ok(panel)
    }
}

/// A piece of the first kind, dark and hatched in white, or of the second, pale with a dark edge.
pub(super) fn piece(paper: &Canvas<'_>, kind: usize, a: Point, b: Point) -> Done {
    paper.fill(&corners(a, b), if kind == 0 { BLUE } else { SKY_PALE }, 1.0)?;
    if kind == 0 {
        hatch(paper, (a, b), 6.0, Stroke::new(WHITE, 1.0, FULL))?;
    }
    paper.outline(&corners(a, b), Stroke::new(BLACK, 0.8, FULL))
}

/// What the two kinds of pieces are, and what else there is to say of them.
pub(super) fn key(paper: &Canvas<'_>, texts: &[&str]) -> Done {
    let y = BELOW_TITLE + 6.0;
    let mut x = MARGIN;
    for (kind, text) in texts.iter().enumerate() {
        if kind < 2 {
            piece(paper, kind, (x, y - 6.0), (x + 24.0, y + 6.0))?;
            x += 31.0;
        }
        paper.text((x, y), At::Left, text, SMALL)?;
        x += paper.width_of(text, SMALL)? + 24.0;
    }
    Ok(())
}
