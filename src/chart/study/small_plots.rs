//! One plot, or several small ones of the same axes side by side.

use super::axis::Axis;
use super::foot::Foot;
use crate::Done;
use crate::axes::Panel;
use crate::canvas::{At, Canvas, MARGIN, RIGHT_END};
use crate::theme::{BLACK, GRID, HEADING, LABEL, Letters, OUTLINE, SMALL, ZERO};

/// Most small plots on one sheet (a choice: more are too small to read).
pub(super) const MOST_PLOTS: usize = 12;
/// Height of the chart of one plot, px.
const ONE: f64 = 452.0;
/// Least height of a small plot, px, and what a labelled line adds if there are many.
const SMALL_PLOT: f64 = 150.0;
const LINE: f64 = 14.5;
/// Over a small plot for its name, px.
const OVER: f64 = 34.0;
const GAP: f64 = 20.0;
/// Most room for labels right of each of three plots in a row, px: the fourteen letters they may have (`lines`).
const SMALL_ROOM: f64 = 124.0;
/// Words longer than this many letters may have to stand upright and get this room more, px.
const LONG_WORD: usize = 12;
const WORDS: f64 = 60.0;
/// The axis' name under the numbers.
const NAME: f64 = 22.0;

/// Plots of the same axes.
pub(super) struct Plots<'a> {
    /// Name of each; one empty name if there is but one plot.
    pub(crate) names: &'a [String],
    pub(crate) x: &'a Axis,
    pub(crate) y: &'a Axis,
    /// Labels at the ends of the lines of the fullest plot.
    pub(crate) labels: usize,
}

impl Plots<'_> {
    fn columns(&self) -> usize {
        match self.names.len() {
            0 | 1 => 1,
            2 | 4 => 2,
            _ => 3,
        }
    }

    fn rows(&self) -> usize {
        self.names.len().max(1).div_ceil(self.columns())
    }

    fn several(&self) -> bool {
        self.names.len() > 1
    }

    /// Height of the whole chart, px.
    pub(super) fn tall(&self) -> f64 {
        let rows = self.rows() as f64;
        let least = SMALL_PLOT.max(LINE * self.labels as f64) + OVER;
        let long = |words: &[String]| words.iter().any(|word| word.chars().count() > LONG_WORD);
        let words = if self.x.words().is_some_and(long) { WORDS } else { 0.0 };
        ONE.max(rows * least + 70.0) + words
    }

    /// Letters of the labels in a plot.
    pub(super) fn letters(&self) -> Letters {
        if self.several() { SMALL.in_ink(BLACK) } else { LABEL }
    }

    /// Most room for labels right of a plot, px.
    pub(super) fn most_room(&self) -> f64 {
        [240.0, 164.0, SMALL_ROOM][self.columns() - 1]
    }

    /// Draws axes and names, and lets `content` fill each plot. Right of each plot `room` px stay free,
    /// and right of all of them `key` px.
    pub(super) fn draw(
        &self,
        paper: &Canvas<'_>,
        (top, bottom): (f64, f64),
        (room, key): (f64, f64),
        content: impl Fn(usize, &Panel) -> Done,
    ) -> Done {
        let (columns, rows) = (self.columns(), self.rows());
        let numbers = self.numbers(paper, bottom - top)?;
        let left = MARGIN + 22.0 + numbers + 8.0;
        let wide = (RIGHT_END - key - left - GAP * (columns - 1) as f64) / columns as f64;
        let foot = Foot::of(paper, self.x, wide - room)?;
        let named = self.names.iter().any(|name| !name.is_empty());
        let over = if named { OVER } else { 16.0 };
        let all = bottom - foot.tall - NAME;
        let tall = (all - top) / rows as f64;
        for (n, name) in self.names.iter().enumerate() {
            let from = left + (n % columns) as f64 * (wide + GAP);
            let above = top + (n / columns) as f64 * tall;
            let (x, y) = (self.x.range, self.y.range);
            let panel = Panel::new((from, from + wide - room), (above + over, above + tall), x, y);
            paper.text_within((from, above + over - 16.0), wide - 4.0, name, HEADING)?;
            self.grid(paper, &panel, n % columns == 0)?;
            content(n, &panel)?;
            foot.line(paper, &panel)?;
            if n + columns >= self.names.len() {
                foot.labels(paper, &panel)?;
            }
        }
        let middle = left + 0.5 * (RIGHT_END - key - room - left);
        let name = paper.shortened(&self.x.name, RIGHT_END - left, LABEL)?;
        let half = 0.5 * paper.width_of(&name, LABEL)?;
        paper.text((middle.max(left + half), bottom - 9.0), At::Middle, &name, LABEL)?;
        let name = paper.shortened(&self.y.name, all - top, LABEL)?;
        paper.upward((MARGIN + 6.0, 0.5 * (top + over + all)), &name, LABEL)
    }

    fn about(&self, tall: f64) -> f64 {
        (tall / self.rows() as f64 / if self.several() { 40.0 } else { 52.0 }).max(2.0)
    }

    /// Width of the widest number up the side, px.
    fn numbers(&self, paper: &Canvas<'_>, tall: f64) -> Done<f64> {
        paper.widest(self.y.marks(self.about(tall)).iter().map(|mark| &mark.text), LABEL)
    }

    fn grid(&self, paper: &Canvas<'_>, panel: &Panel, numbered: bool) -> Done {
        for mark in self.y.marks(self.about((panel.bottom - panel.top) * self.rows() as f64)) {
            let y = panel.py(mark.place);
            let zero = mark.place.abs() < 1e-9 * (panel.y.high - panel.y.low);
            paper.line(&[(panel.left, y), (panel.right, y)], if zero { ZERO } else { GRID })?;
            if numbered {
                paper.text((panel.left - 7.0, y), At::Right, &mark.text, LABEL)?;
            }
        }
        if numbered && (panel.y.low > 0.0 || panel.y.high < 0.0) {
            broken(paper, panel)?;
        }
        Ok(())
    }
}

/// Two strokes across the side, at the end toward zero: the numbers do not begin there.
fn broken(paper: &Canvas<'_>, panel: &Panel) -> Done {
    let end = if panel.y.low > 0.0 { panel.bottom - 8.0 } else { panel.top + 8.0 };
    for shift in [-3.0, 3.0] {
        let y = end + shift;
        paper.line(&[(panel.left - 5.0, y + 3.0), (panel.left + 5.0, y - 3.0)], OUTLINE)?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::super::ends::room;
    use super::*;
    use crate::canvas::{Heading, draw};

    /// Six plots in three columns: a name and a value of fourteen letters stand whole beside each.
    #[test]
    fn a_value_beside_a_small_plot_is_not_cut() {
        let heading =
            Heading { name: "n", job: "", what: "w", subtitle: String::new(), description: String::new() };
        let drawn = draw(&heading, (900.0, 400.0), |paper| {
            let wanted = room(paper, ["camber: −0.26", "shortens: 1.23"], SMALL.in_ink(BLACK), f64::MAX)?;
            assert!(wanted <= SMALL_ROOM, "{wanted} px");
            Ok(())
        });
        assert!(drawn.is_ok());
    }
}
