//! Results against what varies: one line a value of `by`, marks at what was computed, straight lines between.

use super::axis::Axis;
use super::cells::{Case, MANY, Spot, runs, spots};
use super::ends::{End, label, room};
use super::groups::{Groups, named};
use super::limits::{Limits, beyond};
use super::marks::{cross, mark};
use super::sheet::{Said, sheet};
use super::small_plots::{MOST_PLOTS, Plots};
use super::view::{StudyView, at_most};
use super::worded::{at, axis_name, behind, beyond_in_words, cases, column, head, reach, sentences};
use crate::axes::Panel;
use crate::canvas::{At, Canvas, Point, clean};
use crate::number::number;
use crate::theme::{BAND_ALPHA, LIMIT, SMALL, Stroke, VALUE, WHITE, series};
use crate::{ChartError, Picture};
use weldbow_engine::study::{ChartSpec, Column};

/// Most lines in one plot: the theme tells no more apart.
pub(super) const MOST_LINES: usize = 12;
/// Most words along the bottom (a choice: with more, labels are left out).
pub(super) const MOST_WORDS: usize = 40;
/// Marks of a line stand no closer than this, px.
const MARKS_APART: f64 = 9.0;

/// Half the cap of the band of a lone point, px.
const CAP: f64 = 4.0;

/// One line: which of all lines of the chart it is, and its points.
struct Line {
    label: String,
    rank: usize,
    spots: Vec<Spot>,
}

/// One plot.
struct Plot {
    name: String,
    lines: Vec<Line>,
    limits: Option<Limits>,
}

/// What all lines have in common.
struct Chart<'t> {
    x: Axis,
    ys: Vec<&'t Column>,
    plots: Vec<Plot>,
    rows: Vec<usize>,
    band: Option<&'t Column>,
    limit: Option<&'t Column>,
}

pub(super) fn lines(view: &StudyView<'_>, wish: &ChartSpec, name: &str) -> Result<Picture, ChartError> {
    let table = view.table;
    let ys: Vec<&Column> = wish.y.iter().filter_map(|name| table.column(name)).collect();
    let Some(along) = column(table, wish.x.as_ref()) else { return Err(ChartError::NotANumber) };
    let Some(first) = ys.first() else { return Err(ChartError::NotANumber) };
    let chart = gather(view, wish, along, ys.clone())?;
    let values = chart.values();
    let limits = chart.plots.iter().filter_map(|plot| plot.limits.as_ref()).flat_map(Limits::span);
    let name_up = |power| match ys.as_slice() {
        [only] => axis_name(only, power),
        several => format!("{}{}", together(several, ", "), behind(&first.unit, power)),
    };
    let up = Axis::up(name_up, values.iter().copied().chain(limits));
    let heads = together(&ys, " and ");
    let by = sorted_by(column(table, wish.by.as_ref()), column(table, wish.panels.as_ref()));
    let said = Said {
        what: format!("{heads} against {}{by}", head(along)),
        subtitle: sentences(&chart.finding()),
        description: format!(
            "{} of {heads} against {}{by}, {} of {} in each.",
            if chart.plots.len() == 1 {
                "One plot".to_owned()
            } else {
                format!("{} plots", chart.plots.len())
            },
            head(along),
            chart.plots.iter().map(|plot| plot.lines.len()).max().unwrap_or(0),
            "lines",
        ),
    };
    let names: Vec<String> = chart.plots.iter().map(|plot| plot.name.clone()).collect();
    let labels = chart.plots.iter().map(|p| p.lines.len() + 2).max().unwrap_or(0);
    let plots = Plots { names: &names, x: &chart.x, y: &up, labels };
    sheet(view, wish, name, said, plots.tall(), |paper, heights| {
        let texts: Vec<String> = chart.plots.iter().flat_map(Plot::texts).collect();
        let room = room(paper, texts.iter().map(String::as_str), plots.letters(), plots.most_room())?;
        plots.draw(paper, heights, (room, 0.0), |n, panel| {
            fill(paper, panel, &chart.plots[n], chart.x.words().is_none())?;
            if names.len() == 1 {
                write_values(paper, panel, &chart.plots[n], chart.x.words().is_none())?;
            }
            ends(paper, panel, &chart.plots[n], room, &plots)
        })
    })
}

/// Names of several columns in one; the lines themselves name each of many.
fn together(columns: &[&Column], between: &str) -> String {
    const MOST: usize = 3;
    if let Some((fronts, tail)) = one_tail(columns) {
        return format!("{tail}{between}{}", fronts.join(" and "));
    }
    match columns {
        [first, rest @ ..] if rest.len() >= MOST => format!("{} and others", head(first)),
        few => few.iter().map(|c| head(c)).collect::<Vec<_>>().join(between),
    }
}

/// Of "section: force" and "formula: force": what sets them apart, and what they share.
fn one_tail(columns: &[&Column]) -> Option<(Vec<String>, String)> {
    let heads: Vec<String> = columns.iter().map(|c| head(c)).collect();
    let parts: Option<Vec<(&str, &str)>> = heads.iter().map(|h| h.split_once(": ")).collect();
    let parts = parts.filter(|parts| parts.len() > 1)?;
    let tail = parts[0].1;
    parts
        .iter()
        .all(|p| p.1 == tail)
        .then(|| (parts.iter().map(|p| p.0.to_owned()).collect(), tail.to_owned()))
}

/// ", by order", ", by order and leg": what sets lines and plots apart.
pub(super) fn sorted_by(by: Option<&Column>, panels: Option<&Column>) -> String {
    let heads: Vec<String> = by.into_iter().chain(panels).map(head).collect();
    if heads.is_empty() { String::new() } else { format!(", by {}", heads.join(" and ")) }
}

fn gather<'t>(
    view: &StudyView<'t>,
    wish: &ChartSpec,
    along: &Column,
    ys: Vec<&'t Column>,
) -> Result<Chart<'t>, ChartError> {
    let table = view.table;
    let rows: Vec<usize> = (0..table.rows()).collect();
    let x = Axis::along(along, &rows);
    let words = x.words().map_or(0, <[String]>::len);
    at_most(MOST_WORDS, words, "x", wish.x.as_ref(), "take fewer, or make them `panels`")?;
    let by = Groups::of(column(table, wish.by.as_ref()), &rows);
    at_most(
        MOST_LINES / ys.len().max(1),
        by.labels.len(),
        "by",
        wish.by.as_ref(),
        "take fewer values, `panels`, or a map with this column as `by`",
    )?;
    let panels = column(table, wish.panels.as_ref());
    let groups = Groups::of(panels, &rows);
    at_most(MOST_PLOTS, groups.labels.len(), "panels", wish.panels.as_ref(), "take fewer values")?;
    let (band, limit) = (column(table, wish.band.as_ref()), column(table, wish.limit.as_ref()));
    let case = |y: &Column, row: usize| Case {
        x: x.place(along, row),
        y: at(y, row),
        half: band.map_or(0.0, |band| at(band, row)),
    };
    let all: Vec<f64> = ys.iter().flat_map(|y| rows.iter().map(|row| at(y, *row))).collect();
    let mut plots = Vec::new();
    for (name, here) in groups.labels.iter().zip(&groups.rows) {
        let mut lines = Vec::new();
        for (y, column) in ys.iter().enumerate() {
            for (n, (label, of_it)) in by.labels.iter().zip(&by.rows).enumerate() {
                let inside = of_it.iter().filter(|row| here.binary_search(row).is_ok());
                let cases: Vec<Case> = inside.map(|row| case(column, *row)).collect();
                let spots = spots(&cases);
                if !spots.is_empty() {
                    let label = line_name(&ys, column, label);
                    lines.push(Line { label, rank: y * by.labels.len() + n, spots });
                }
            }
        }
        let name = panels.map_or(String::new(), |column| named(column, name));
        let limits = Limits::of(limit, here, |row| x.place(along, row), &all);
        plots.push(Plot { name, lines, limits });
    }
    if plots.is_empty() {
        plots.push(Plot { name: String::new(), lines: Vec::new(), limits: None });
    }
    Ok(Chart { x, ys, plots, rows, band, limit })
}

/// A line goes by its value of `by`, and by its column where there are several.
fn line_name(ys: &[&Column], column: &Column, label: &str) -> String {
    if ys.len() < 2 {
        return label.to_owned();
    }
    let twins = ys.iter().filter(|other| head(other) == head(column)).count() > 1;
    let front = one_tail(ys).and_then(|_| Some(head(column).split_once(": ")?.0.to_owned()));
    let of_it = match front {
        Some(front) => front,
        None if twins => clean(&column.words),
        None => head(column),
    };
    if label.is_empty() { of_it } else { format!("{of_it}, {label}") }
}

impl Plot {
    fn texts(&self) -> Vec<String> {
        self.lines
            .iter()
            .map(|line| line.label.clone())
            .chain(self.limits.as_ref().map(Limits::text))
            .collect()
    }
}

impl Chart<'_> {
    fn spots(&self) -> impl Iterator<Item = &Spot> {
        self.plots.iter().flat_map(|plot| &plot.lines).flat_map(|line| &line.spots)
    }

    fn values(&self) -> Vec<f64> {
        self.spots().flat_map(|spot| [spot.low, spot.high]).filter(|v| v.is_finite()).collect()
    }

    /// What the line under the title says.
    fn finding(&self) -> Vec<String> {
        let good = |row: &usize| self.ys.iter().all(|y| at(y, *row).is_finite());
        let failed = self.rows.iter().filter(|row| !good(row)).count();
        let mut said = Vec::new();
        if let [y] = self.ys.as_slice() {
            let values: Vec<f64> = self.rows.iter().map(|row| at(y, *row)).collect();
            said.push(reach(&values, &y.unit));
            if let Some(limit) = self.limit {
                said.push(beyond_in_words(&beyond(&self.rows, y, limit), "limit"));
            }
        } else {
            said.push(cases(self.rows.len() - failed));
        }
        let most = self.spots().map(|spot| spot.cases).max().unwrap_or(0);
        let band = self.band.map(|band| clean(&band.words));
        match (most > 1, band) {
            (false, Some(band)) => said.push(format!("Band: ± {band}")),
            (true, None) if most >= MANY => {
                said.push(format!("Line: mean of up to {} at a point, band: 5 to 95 %", cases(most)));
            }
            (true, None) => said.push(format!("Line: mean of up to {} at a point, band: all", cases(most))),
            (true, Some(band)) => {
                said.push(format!("Line: mean of up to {}, band: all ± {band}", cases(most)))
            }
            (false, None) => {}
        }
        if failed > 0 {
            said.push(format!("{} failed (×)", cases(failed)));
        }
        said
    }
}

/// Bands first, then limits, lines and marks, so that nothing that matters is covered.
fn fill(paper: &Canvas<'_>, panel: &Panel, plot: &Plot, joined: bool) -> Result<(), ChartError> {
    for line in &plot.lines {
        let stroke = series(line.rank);
        for run in runs(&line.spots) {
            if run.iter().all(|s| s.high - s.low <= 0.0) {
                continue;
            }
            if let [only] = run {
                let x = panel.px(only.x);
                let bar = [(x, panel.py(only.low)), (x, panel.py(only.high))];
                let thin = Stroke { width: 1.0, dash: &[], ..stroke };
                paper.line(&bar, thin)?;
                for end in bar {
                    paper.line(&[(end.0 - CAP, end.1), (end.0 + CAP, end.1)], thin)?;
                }
                continue;
            }
            let above = run.iter().map(|s| (s.x, s.high));
            let below = run.iter().rev().map(|s| (s.x, s.low));
            paper.fill(&panel.path(above.chain(below)), stroke.ink, BAND_ALPHA)?;
        }
    }
    for limit in plot.limits.iter().flat_map(|limits| limits.lines(panel.x)) {
        paper.line(&panel.path(limit), LIMIT)?;
    }
    // between words there is nothing, so points over them are not joined
    for line in plot.lines.iter().filter(|_| joined) {
        for run in runs(&line.spots) {
            paper.line(&panel.path(run.iter().map(|s| (s.x, s.y))), series(line.rank))?;
        }
    }
    for line in &plot.lines {
        marks(paper, panel, line)?;
    }
    if plot.lines.iter().flat_map(|line| &line.spots).all(|spot| spot.cases == 0) {
        let middle = (0.5 * (panel.left + panel.right), 0.5 * (panel.top + panel.bottom));
        paper.plated(middle, At::Middle, "no case gave a value", SMALL, WHITE)?;
    }
    Ok(())
}

/// Most lines whose values are written at the marks (a choice: more run into each other).
const MOST_VALUED: usize = 3;
/// Most words that get their values.
const MOST_WORDS_VALUED: usize = 8;

/// Values in numbers: at both ends of a line, at every word.
fn write_values(paper: &Canvas<'_>, panel: &Panel, plot: &Plot, joined: bool) -> Result<(), ChartError> {
    if plot.lines.len() > MOST_VALUED {
        return Ok(());
    }
    let mut taken: Vec<Point> = Vec::new();
    for line in &plot.lines {
        let good: Vec<&Spot> = line.spots.iter().filter(|spot| spot.cases > 0).collect();
        let chosen: Vec<&Spot> = match (joined, good.as_slice()) {
            (true, [first, .., last]) => vec![first, last],
            (false, all) if all.len() <= MOST_WORDS_VALUED => all.to_vec(),
            _ => Vec::new(),
        };
        for spot in chosen {
            let at = panel.at(spot.x, spot.y);
            let (from, shift) = match (joined, at.0 > 0.5 * (panel.left + panel.right)) {
                (true, true) => (At::Right, -6.0),
                (true, false) => (At::Left, 7.0),
                (false, _) => (At::Left, 9.0),
            };
            let above = at.1 - panel.top > 24.0;
            let place = (at.0 + shift, at.1 + if above { -10.0 } else { 13.0 });
            let near = |other: &Point| (other.0 - place.0).abs() < 46.0 && (other.1 - place.1).abs() < 13.0;
            if !taken.iter().any(near) {
                let Some(value) = rounded(spot.y) else { continue };
                paper.plated(place, from, &value, VALUE, WHITE)?;
                taken.push(place);
            }
        }
    }
    Ok(())
}

/// A value to be read off a picture: two digits are enough, three from one hundred on. None if the axis has a power of ten: a value
/// beside a line would be longer than the picture.
fn rounded(value: f64) -> Option<String> {
    const READABLE: std::ops::Range<f64> = 1e-4..1e6;
    let size = value.abs();
    if size > 0.0 && !READABLE.contains(&size) {
        return None;
    }
    let decimals =
        if size >= 10.0 || size <= 0.0 { 0 } else { (1.0 - size.log10().floor()).min(6.0) as usize };
    Some(number(value, decimals))
}

fn marks(paper: &Canvas<'_>, panel: &Panel, line: &Line) -> Result<(), ChartError> {
    let apart = (panel.right - panel.left) / line.spots.len().max(1) as f64;
    let every = (MARKS_APART / apart).ceil().max(1.0) as usize;
    let radius = if apart < 20.0 || panel.right - panel.left < 260.0 { 3.0 } else { 4.0 };
    for (n, spot) in line.spots.iter().enumerate() {
        let place = panel.at(spot.x, if spot.cases > 0 { spot.y } else { panel.y.low });
        if spot.cases == 0 {
            cross(paper, place, 4.0)?;
        } else if n % every == 0 {
            mark(paper, place, line.rank, radius, series(line.rank).ink)?;
        }
    }
    Ok(())
}

fn ends(
    paper: &Canvas<'_>,
    panel: &Panel,
    plot: &Plot,
    room: f64,
    plots: &Plots<'_>,
) -> Result<(), ChartError> {
    let mut ends: Vec<End> = Vec::new();
    for line in plot.lines.iter().filter(|line| !line.label.is_empty()) {
        if let Some(last) = line.spots.iter().rev().find(|spot| spot.cases > 0) {
            ends.push(End {
                from: panel.at(last.x, last.y),
                text: line.label.clone(),
                stroke: series(line.rank),
                mark: Some(line.rank),
            });
        }
    }
    if let Some(limits) = &plot.limits {
        let line = limits.lines(panel.x).pop();
        let from = line.and_then(|line| line.last().copied()).map(|p| panel.at(p.0, p.1));
        let from = from.unwrap_or((panel.right, panel.top));
        ends.push(End { from, text: limits.text(), stroke: LIMIT, mark: None });
    }
    label(paper, &ends, (panel.right, room), (panel.top, panel.bottom - 4.0), plots.letters())
}
