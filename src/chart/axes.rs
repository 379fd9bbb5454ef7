//! A plot with two axes: round ticks, horizontal grid lines only, names where the eye ends.

use super::Done;
use super::canvas::{At, Canvas, Point};
use super::measure::Unit;
use super::number::{number, ticks};
use super::theme::{GRID, LABEL, SMALL, ZERO};

/// Left end of a plot, px: beside it is room for its numbers and its name.
pub(super) const LEFT: f64 = 92.0;
/// Smallest span of an axis of offsets, mm: less is straight for every purpose.
pub(super) const LEAST_SPAN_MM: f64 = 0.5;
/// A limit this many times larger than everything else would flatten the curves; it is named, not drawn (a choice).
pub(super) const FAR_LIMIT: f64 = 4.0;

/// A stretch of numbers along one axis, engine units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Range {
    pub low: f64,
    pub high: f64,
}

impl Range {
    /// From zero.
    pub(super) const fn to(high: f64) -> Self {
        Self { low: 0.0, high }
    }

    /// Holds zero and all the values, with a little air; never empty.
    pub(super) fn around(values: impl IntoIterator<Item = f64>, least: f64) -> Self {
        let (low, high) = values.into_iter().fold((0.0_f64, 0.0_f64), |(l, h), v| (l.min(v), h.max(v)));
        let short = (least - (high - low)).max(0.0);
        let (low, high) = (low - 0.5 * short, high + 0.5 * short);
        let air = 0.12 * (high - low);
        Self {
            low: if low < 0.0 { low - air } else { low },
            high: if high > 0.0 { high + air } else { high },
        }
    }
}

/// Where a plot lies on the paper and what its axes span.
#[derive(Debug, Clone, Copy)]
pub(super) struct Panel {
    pub left: f64,
    pub right: f64,
    pub top: f64,
    pub bottom: f64,
    pub x: Range,
    pub y: Range,
}

impl Panel {
    /// Between those places on the sheet, for those values.
    pub(super) const fn new(
        (left, right): (f64, f64),
        (top, bottom): (f64, f64),
        x: Range,
        y: Range,
    ) -> Self {
        Self { left, right, top, bottom, x, y }
    }

    /// Place of x, px.
    pub(super) fn px(&self, x: f64) -> f64 {
        self.left + (x - self.x.low) / (self.x.high - self.x.low) * (self.right - self.left)
    }

    /// Place of y, px down the picture.
    pub(super) fn py(&self, y: f64) -> f64 {
        self.bottom - (y - self.y.low) / (self.y.high - self.y.low) * (self.bottom - self.top)
    }

    /// Place of a point.
    pub(super) fn at(&self, x: f64, y: f64) -> Point {
        (self.px(x), self.py(y))
    }

    /// Place of a line of points.
    pub(super) fn path(&self, points: impl IntoIterator<Item = (f64, f64)>) -> Vec<Point> {
        points.into_iter().map(|(x, y)| self.at(x, y)).collect()
    }

    /// Its middle.
    pub(super) fn middle(&self) -> Point {
        (0.5 * (self.left + self.right), 0.5 * (self.top + self.bottom))
    }

    /// Horizontal grid lines and their numbers, the zero line, and the axis' name over its numbers.
    pub(super) fn y_axis(&self, paper: &Canvas<'_>, unit: Unit, name: &str) -> Done {
        let (low, high) = (self.y.low / unit.mm, self.y.high / unit.mm);
        let (marks, decimals) = ticks(low, high, (self.bottom - self.top) / 48.0);
        for mark in marks {
            let y = self.py(mark * unit.mm);
            let zero = mark.abs() < 1e-9 * (high - low);
            paper.line(&[(self.left, y), (self.right, y)], if zero { ZERO } else { GRID })?;
            paper.text((self.left - 7.0, y), At::Right, &number(mark, decimals), LABEL)?;
        }
        paper.upward((self.left - 52.0, self.middle().1), &format!("{name}, {}", unit.name), LABEL)
    }

    /// Upright grid lines with their numbers so far below the plot, px, and the zero line; `per` is the size of the unit.
    pub(super) fn x_grid(&self, paper: &Canvas<'_>, per: f64, about: f64, below: f64) -> Done {
        let (marks, decimals) = ticks(self.x.low / per, self.x.high / per, about);
        marks.into_iter().try_for_each(|mark| {
            let x = self.px(mark * per);
            paper.line(&[(x, self.top), (x, self.bottom)], if mark.abs() < 1e-9 { ZERO } else { GRID })?;
            paper.text((x, self.bottom + below), At::Middle, &number(mark, decimals), LABEL)
        })
    }

    /// Ticks and numbers under the plot, and the axis' name in the line below them.
    pub(super) fn x_axis(&self, paper: &Canvas<'_>, unit: Unit, name: &str) -> Done {
        let (marks, decimals) =
            ticks(self.x.low / unit.mm, self.x.high / unit.mm, (self.right - self.left) / 75.0);
        for mark in marks {
            let x = self.px(mark * unit.mm);
            paper.line(&[(x, self.bottom), (x, self.bottom + 5.0)], ZERO)?;
            paper.text((x, self.bottom + 15.0), At::Middle, &number(mark, decimals), LABEL)?;
        }
        paper.line(&[(self.left, self.bottom), (self.right, self.bottom)], ZERO)?;
        paper.text(
            (self.middle().0, self.bottom + 32.0),
            At::Middle,
            &format!("{name}, {}", unit.name),
            SMALL,
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_range_of_nothing_still_has_width_and_holds_zero() {
        let r = Range::around([0.0, 0.0], 2.0);
        assert!(r.low < 0.0 && r.high > 0.0, "{r:?}");
        let r = Range::around([3.0, 9.0], 2.0);
        assert!(r.low.abs() < 1e-12 && r.high > 9.0, "{r:?}");
    }
}
