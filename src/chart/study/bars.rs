//! Bars lying one under another, their names at the left.

use super::axis::Axis;
use super::foot::{Foot, wrap};
use super::width::RIGHT;
use crate::Done;
use crate::axes::Panel;
use crate::canvas::{At, Canvas, MARGIN};
use crate::theme::{GRID, LABEL, ZERO};

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
        let right = RIGHT - self.inset.1;
        let foot = Foot::of(paper, self.axis, right - left)?;
        let panel = Panel {
            left,
            right,
            top,
            bottom: bottom - foot.tall - 22.0,
            x: self.axis.range,
            y: self.axis.range,
        };
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
        let name = paper.shortened(&self.axis.name, RIGHT - MARGIN, LABEL)?;
        let half = 0.5 * paper.width_of(&name, LABEL)?;
        let x = (0.5 * (left + right)).min(RIGHT - half).max(MARGIN + half);
        paper.text((x, bottom - 9.0), At::Middle, &name, LABEL)?;
        Ok(panel)
    }
}
