//! A result as shades over two inputs, with labelled contours and the line where it reaches its limit.

use super::axis::{Axis, distinct};
use super::check::{ChartSpecFault, at_most};
use super::contour::Grid;
use super::groups::nearest;
use super::limits::{Limits, beyond};
use super::map_labels::{Taken, name_contour};
use super::marks::{cross, mark};
use super::sheet::{SheetText, sheet};
use super::small_plots::Plots;
use super::view::StudyView;
use super::worded::{
    at, axis_name, bare, beyond_in_words, column, crossed_out, head, reach, sentences, value,
};
use crate::axes::{Panel, Range};
use crate::canvas::{At, Canvas, Point, corners};
use crate::ramp::Ramp;
use crate::theme::{BLACK, FULL, LABEL, SHORT, Stroke, THIN, VALUE, WHITE, ZERO};
use crate::{ChartError, Done, Picture};
use std::collections::BTreeSet;
use weldbow_engine::study::{ChartSpec, Column};

/// Most values along either side (a choice: more cells cannot be seen).
const MOST: usize = 80;
/// About so many shaded cells along and up a map of numbers.
const FINE: (usize, usize) = (96, 64);
/// Shades told apart, so that neighbours of one shade are drawn as one.
const SHADES: f64 = 40.0;
/// Right of the map for the bar of shades, px.
const BAR: f64 = 132.0;
const BAR_WIDE: f64 = 16.0;
/// Each cell reaches this share into the next one, so that no hairline shows between them.
const OVERLAP: f64 = 0.15;
/// Values are written into blocks at least so large, px.
const BLOCK: (f64, f64) = (42.0, 17.0);

/// The field and how it is drawn.
struct Map<'t> {
    value: &'t Column,
    x: Axis,
    y: Axis,
    grid: Grid,
    /// Limits on the same grid, if there are any.
    limits: Option<Grid>,
    ramp: Ramp,
    bar: Axis,
    /// Whether both sides are numbers with at least two values: then it is shaded between the cases.
    even: bool,
    /// Places of cases that gave no value.
    failed: Vec<Point>,
}

pub(super) fn map(view: &StudyView<'_>, spec: &ChartSpec, name: &str) -> Done<Picture> {
    let table = view.table;
    let found =
        (column(table, spec.x.as_ref()), column(table, spec.by.as_ref()), column(table, spec.y.first()));
    let (Some(along), Some(up), Some(shown)) = found else { return Err(ChartError::NotANumber) };
    let limit = column(table, spec.limit.as_ref());
    let rows: Vec<usize> = (0..table.rows()).collect();
    let map = Map::of(spec, &rows, (along, up, shown), limit)?;
    let values: Vec<f64> = rows.iter().map(|row| at(shown, *row)).collect();
    let failed = values.iter().filter(|v| !v.is_finite()).count();
    let mut said = vec![reach(&values, &shown.unit)];
    let limits = Limits::of(limit, &rows, |row| row as f64, &values);
    if let (Some(column), Some(limits)) = (limit, &limits) {
        let text = limits.text();
        let text = text.strip_suffix(", off the plot").unwrap_or(&text);
        said.push(beyond_in_words(&beyond(&rows, shown, column), text));
    }
    said.push(crossed_out(failed));
    let said = SheetText {
        what: format!("{} over {} and {}", head(shown), head(along), head(up)),
        subtitle: sentences(&said),
        description: format!(
            "Shades of {} over {} along the bottom and {} up the side; darker is larger in size.",
            head(shown),
            head(along),
            head(up)
        ),
    };
    let names = [String::new()];
    let plots = Plots { names: &names, x: &map.x, y: &map.y, labels: 0 };
    let limit_text = limits.map(|limits| match limits.size() {
        Some(size) => format!("limit ±{}", value(size, &shown.unit)),
        None => "limit".to_owned(),
    });
    sheet(view, spec, name, said, plots.tall(), |paper, heights| {
        plots.draw(paper, heights, (0.0, BAR), |_, panel| {
            if map.even {
                map.shades(paper, panel)?;
                map.lines(paper, panel, limit_text.as_deref())?;
            } else {
                map.blocks(paper, panel)?;
            }
            map.failures(paper, panel)?;
            map.bar(paper, panel)
        })
    })
}

impl<'t> Map<'t> {
    fn of(
        spec: &ChartSpec,
        rows: &[usize],
        (along, up, value): (&Column, &Column, &'t Column),
        limit: Option<&Column>,
    ) -> Done<Self> {
        let (mut x, mut y) = (Axis::along(along, rows), Axis::along(up, rows));
        let place = |row: usize| (x.place(along, row), y.place(up, row));
        let xs = distinct(rows.iter().map(|row| place(*row).0));
        let ys = distinct(rows.iter().map(|row| place(*row).1));
        let instead = "a map wants a grid of few values; a scatter chart shows many";
        at_most(MOST, xs.len(), "x", spec.x.as_ref(), instead)?;
        at_most(MOST, ys.len(), "by", spec.by.as_ref(), instead)?;
        let gathered = |column: &Column, join: fn(f64, f64, f64) -> f64| {
            let mut z = vec![vec![(f64::NAN, 0.0); xs.len()]; ys.len()];
            for row in rows {
                let (px, py) = place(*row);
                let number = at(column, *row);
                if let (Some(c), Some(r), true) = (nearest(&xs, px), nearest(&ys, py), number.is_finite()) {
                    let (so_far, count) = z[r][c];
                    z[r][c] = (if count > 0.0 { join(so_far, count, number) } else { number }, count + 1.0);
                }
            }
            let z = z.into_iter().map(|row| row.into_iter().map(|cell| cell.0).collect()).collect();
            Grid { x: xs.clone(), y: ys.clone(), z }
        };
        // cases at one place: their mean, and the tightest limit
        let grid = gathered(value, |mean, count, number| mean + (number - mean) / (count + 1.0));
        let limits = limit.map(|limit| gathered(limit, |least, _, number| least.abs().min(number.abs())));
        let even = x.words().is_none() && y.words().is_none() && xs.len() > 1 && ys.len() > 1;
        let cells = xs.len() * ys.len();
        let tried =
            rows.iter().filter_map(|row| nearest(&xs, place(*row).0).zip(nearest(&ys, place(*row).1)));
        let tried: BTreeSet<(usize, usize)> = tried.collect();
        if tried.len() < cells.div_ceil(2) {
            let instead =
                "most pairs of `x` and `by` have no case; vary both over a grid, or take a scatter chart";
            return Ok(ChartSpecFault::nothing("map", instead)?);
        }
        let (mut grid, mut limits) = (grid, limits);
        if even {
            (x.range, y.range) = (ends(&xs, x.range), ends(&ys, y.range));
        } else {
            (x, y) = (x.ranked(along, &xs), y.ranked(up, &ys));
            for grid in std::iter::once(&mut grid).chain(&mut limits) {
                grid.x = (0..xs.len()).map(|rank| rank as f64).collect();
                grid.y = (0..ys.len()).map(|rank| rank as f64).collect();
            }
        }
        let failed = tried.into_iter().filter(|(c, r)| !grid.z[*r][*c].is_finite());
        let failed = failed.map(|(c, r)| (grid.x[c], grid.y[r])).collect();
        let good = || grid.z.iter().flatten().copied().filter(|z| z.is_finite());
        let (low, high) = (good().reduce(f64::min).unwrap_or(0.0), good().reduce(f64::max).unwrap_or(0.0));
        let bar = Axis::exactly(|power| axis_name(value, power), low, high);
        Ok(Self { value, x, y, grid, limits, ramp: Ramp::of(low, high), bar, even, failed })
    }

    /// Shades between the computed cases.
    fn shades(&self, paper: &Canvas<'_>, panel: &Panel) -> Done {
        let fine = self.fine(&self.grid);
        for (row, heights) in fine.y.windows(2).enumerate() {
            let shade = |column: usize| {
                let z = [fine.z[row][column], fine.z[row][column + 1], fine.z[row + 1][column]];
                let middle = 0.25 * (z.iter().sum::<f64>() + fine.z[row + 1][column + 1]);
                middle.is_finite().then(|| (self.ramp.depth(middle) * SHADES).round() as i32)
            };
            let mut from = 0;
            let cells = fine.x.len() - 1;
            for column in 0..cells {
                let here = shade(column);
                if column + 1 < cells && shade(column + 1) == here {
                    continue;
                }
                if let Some(shade) = here {
                    let beyond = |places: &[f64], n: usize| {
                        let next = places.get(n + 1).copied().unwrap_or(places[n]);
                        places[n] + OVERLAP * (next - places[n])
                    };
                    let a = panel.at(fine.x[from], heights[0]);
                    let b = panel.at(beyond(&fine.x, column + 1), beyond(&fine.y, row + 1));
                    let ink = self.ramp.ink_of(f64::from(shade) / SHADES);
                    paper.fill(&corners(a, b), ink, 1.0)?;
                }
                from = column + 1;
            }
        }
        // where each case was computed, if that leaves the shades to be seen
        if self.grid.x.len() * self.grid.y.len() <= 400 {
            for (y, row) in self.grid.y.iter().zip(&self.grid.z) {
                for (x, z) in self.grid.x.iter().zip(row).filter(|cell| cell.1.is_finite()) {
                    let ink = if self.ramp.depth(*z).abs() > 0.5 { WHITE } else { BLACK };
                    paper.fill(&dot(panel.at(*x, *y)), ink, 0.55)?;
                }
            }
        }
        Ok(())
    }

    fn fine(&self, grid: &Grid) -> Grid {
        let times = |cells: usize, places: usize| cells.div_ceil(places.max(2) - 1);
        grid.refined((times(FINE.0, grid.x.len()), times(FINE.1, grid.y.len())))
    }

    fn lines(&self, paper: &Canvas<'_>, panel: &Panel, limit: Option<&str>) -> Done {
        let fine = self.fine(&self.grid);
        let mut taken: Taken = Vec::new();
        let contours = |field: &Grid, level: f64| -> Vec<Vec<Point>> {
            field.contours(level).into_iter().map(|line| panel.path(line)).collect()
        };
        // the limit gets its place first, but is drawn over the rest
        let mut bold = Vec::new();
        if let Some(limits) = &self.limits {
            let limits = self.fine(limits);
            for side in [-1.0, 1.0] {
                let mut rest = fine.clone();
                for (z, l) in rest.z.iter_mut().flatten().zip(limits.z.iter().flatten()) {
                    *z -= side * l.abs();
                }
                bold.extend(contours(&rest, 0.0));
            }
        }
        bold.sort_by_key(|line| std::cmp::Reverse(line.len()));
        let mut plain = Vec::new();
        for mark in self.bar.marks(7.0) {
            let deep = self.ramp.depth(mark.place);
            let zero = mark.place.abs() < 1e-9 * (self.bar.range.high - self.bar.range.low);
            let dash = if mark.place < 0.0 && !zero { SHORT } else { FULL };
            let ink = if deep.abs() > 0.5 { WHITE } else { BLACK };
            let stroke = Stroke { ink, width: if zero { 1.6 } else { 0.9 }, dash };
            for line in contours(&fine, mark.place) {
                paper.line(&line, stroke)?;
                plain.push((line, mark.text.clone()));
            }
        }
        for line in &bold {
            paper.line(line, Stroke { ink: WHITE, width: 5.2, dash: FULL })?;
            paper.line(line, Stroke { ink: BLACK, width: 2.8, dash: FULL })?;
        }
        if let (Some(text), Some(line)) = (limit, bold.first()) {
            name_contour(paper, panel, line, text, VALUE, &mut taken)?;
        }
        plain.sort_by_key(|(line, _)| std::cmp::Reverse(line.len()));
        let mut plain = plain.iter();
        plain.try_for_each(|(line, text)| name_contour(paper, panel, line, text, LABEL, &mut taken))
    }

    /// One block a case, with its value where it fits.
    fn blocks(&self, paper: &Canvas<'_>, panel: &Panel) -> Done {
        let (xs, ys) = (edges(&self.grid.x, self.x.range), edges(&self.grid.y, self.y.range));
        for (row, heights) in ys.windows(2).enumerate() {
            for (column, sides) in xs.windows(2).enumerate() {
                let z = self.grid.z.get(row).and_then(|row| row.get(column)).copied().unwrap_or(f64::NAN);
                if !z.is_finite() {
                    continue;
                }
                let (a, b) = (panel.at(sides[0], heights[0]), panel.at(sides[1], heights[1]));
                paper.shape(&corners(a, b), self.ramp.ink(z), 1.0, Stroke::new(WHITE, 1.5, FULL))?;
                let over = self.limits.as_ref().is_some_and(|l| z.abs() > l.z[row][column].abs());
                let text = bare(z);
                let large = (b.0 - a.0).abs() > BLOCK.0.max(paper.width_of(&text, VALUE)? + 8.0);
                if large && (b.1 - a.1).abs() > BLOCK.1 {
                    let ink = if self.ramp.depth(z).abs() > 0.5 { WHITE } else { BLACK };
                    let middle = (0.5 * (a.0 + b.0), 0.5 * (a.1 + b.1));
                    paper.text(middle, At::Middle, &text, if over { VALUE } else { LABEL }.in_ink(ink))?;
                }
                if over {
                    let inner = corners((a.0 + 3.0, a.1 - 3.0), (b.0 - 3.0, b.1 + 3.0));
                    paper.outline(&inner, Stroke { ink: WHITE, width: 4.0, dash: FULL })?;
                    paper.outline(&inner, Stroke { ink: BLACK, width: 2.2, dash: FULL })?;
                }
            }
        }
        Ok(())
    }

    fn failures(&self, paper: &Canvas<'_>, panel: &Panel) -> Done {
        self.failed.iter().try_for_each(|(x, y)| cross(paper, panel.at(*x, *y), 4.0))
    }

    /// The bar of shades with its numbers.
    fn bar(&self, paper: &Canvas<'_>, panel: &Panel) -> Done {
        let left = panel.right + 30.0;
        let bar = Panel { left, right: left + BAR_WIDE, y: self.bar.range, ..*panel };
        let (low, high) = (bar.y.low, bar.y.high);
        let steps = 48;
        let at = |n: usize| low + (high - low) * n as f64 / steps as f64;
        for n in 0..steps {
            let top = bar.py(at((n + 1).min(steps))) - if n + 1 < steps { 0.6 } else { 0.0 };
            let ink = self.ramp.ink(0.5 * (at(n) + at(n + 1)));
            paper.fill(&corners((left, bar.py(at(n))), (bar.right, top)), ink, 1.0)?;
        }
        paper.outline(&corners((left, bar.top), (bar.right, bar.bottom)), THIN)?;
        let mut widest = 0.0_f64;
        for m in self.bar.marks(7.0) {
            let y = bar.py(m.place);
            paper.line(&[(bar.right, y), (bar.right + 5.0, y)], ZERO)?;
            paper.text((bar.right + 9.0, y), At::Left, &m.text, LABEL)?;
            widest = widest.max(paper.width_of(&m.text, LABEL)?);
        }
        let one = self.limits.iter().flat_map(|limits| limits.z.iter().flatten().map(|l| l.abs()));
        let (least, most) = one.fold((f64::INFINITY, 0.0_f64), |(l, m), v| (l.min(v), m.max(v)));
        for limit in [-least, least] {
            if (most - least).abs() <= 1e-9 * most && limit > low && limit < high {
                let y = bar.py(limit);
                let across = [(left - 5.0, y), (bar.right, y)];
                paper.line(&across, Stroke::new(WHITE, 5.0, FULL))?;
                paper.line(&across, Stroke::new(BLACK, 2.8, FULL))?;
                mark(paper, (left - 8.0, y), 3, 2.6, BLACK)?;
            }
        }
        let name = paper.shortened(&axis_name(self.value, self.bar.power()), bar.bottom - bar.top, LABEL)?;
        paper.upward((bar.right + widest + 24.0, 0.5 * (bar.top + bar.bottom)), &name, LABEL)
    }
}

fn dot((x, y): Point) -> [Point; 4] {
    [(x - 1.6, y), (x, y - 1.6), (x + 1.6, y), (x, y + 1.6)]
}

/// From the first to the last place.
fn ends(places: &[f64], otherwise: Range) -> Range {
    match (places.first(), places.last()) {
        (Some(first), Some(last)) if last > first => Range { low: *first, high: *last },
        _ => otherwise,
    }
}

/// Borders of blocks: half way between their places.
fn edges(places: &[f64], range: Range) -> Vec<f64> {
    let between = places.windows(2).map(|pair| 0.5 * (pair[0] + pair[1]));
    std::iter::once(range.low).chain(between).chain([range.high]).collect()
}
