//! Results against what varies: one line a value of `by`, marks at what was computed, straight lines between.

use super::axis::Axis;
use super::cells::{Case, Line, MANY, MOST_LINES, MOST_WORDS, Spot, runs, spots};
use super::check::at_most;
use super::columns::{columns, whisker};
use super::ends::{End, Sign, label, room};
use super::fits::FEWER_LINES;
use super::groups::{Groups, named};
use super::limits::{Limits, band_beyond, beyond};
use super::look::Look;
use super::marks::{cross, hollow, mark};
use super::names::{line_name, one_of_many, sorted_by, threshold, together};
use super::places::places;
use super::sheet::{SheetText, sheet};
use super::small_plots::{MOST_PLOTS, Plots};
use super::values::{BEFORE, largest, name_and_value, rounded, valued, write_first};
use super::view::StudyView;
use super::worded::{
    at, axis_name, behind, beyond_in_words, cases, column, crossed_out, head, reach, sentences,
};
use crate::axes::{Panel, Range};
use crate::canvas::{At, Canvas, clean};
use crate::theme::{BAND_ALPHA, Ink, LIMIT, SMALL, Stroke, WHITE};
use crate::{ChartError, Done, Picture};
use weldbow_engine::study::{ChartSpec, Column};

/// Fewest values of a number that are shaded (a choice: three colours are told apart more easily than three shades).
const FEWEST_SHADED: usize = 4;
/// Marks of a line stand no closer than this, px.
const MARKS_APART: f64 = 9.0;

/// Letters that fit beside one of several small plots (a choice, seen on the sheets).
const SMALL_LABEL: usize = 14;
/// From so many bars over a word on their values may stand upright, and part of the axis that this takes (a choice).
const CROWDED: usize = 3;
const HEADROOM: f64 = 0.1;
/// Between two lines of the key of bars, px.
const KEY_APART: f64 = 18.0;

/// One plot.
struct Plot {
    name: String,
    lines: Vec<Line>,
    limits: Option<Limits>,
}

/// What all lines have in common.
struct Chart<'t> {
    look: Look,
    x: Axis,
    ys: Vec<&'t Column>,
    plots: Vec<Plot>,
    rows: Vec<usize>,
    band: Option<&'t Column>,
    limit: Option<&'t Column>,
}

pub(super) fn lines(view: &StudyView<'_>, spec: &ChartSpec, name: &str) -> Done<Picture> {
    if let Some(picture) = places(view, spec, name)? {
        return Ok(picture);
    }
    let table = view.table;
    let ys: Vec<&Column> = spec.y.iter().filter_map(|name| table.column(name)).collect();
    let Some(along) = column(table, spec.x.as_ref()) else { return Err(ChartError::NotANumber) };
    let Some(first) = ys.first() else { return Err(ChartError::NotANumber) };
    let chart = gather(view, spec, along, ys.clone())?;
    let mut values = chart.values();
    // a bar stands on zero, a threshold has to be seen
    values.extend(chart.words().then_some(0.0));
    values.extend(chart.headroom().into_iter().flatten());
    values.extend(chart.threshold().map(|t| t.0));
    let limits = chart.plots.iter().filter_map(|plot| plot.limits.as_ref()).flat_map(Limits::span);
    let name_up = |power| match ys.as_slice() {
        [only] => axis_name(only, power),
        several => format!("{}{}", together(several, ", "), behind(&first.unit, power)),
    };
    let up = Axis::up(name_up, values.iter().copied().chain(limits));
    let heads = together(&ys, " and ");
    let warning = view.sign_of_warning(if chart.words() { "!" } else { "Hollow marks" });
    let by = sorted_by(column(table, spec.by.as_ref()), column(table, spec.panels.as_ref()));
    let plots = chart.plots.len();
    let plots = if plots == 1 { "One plot".to_owned() } else { format!("{plots} plots") };
    let said = SheetText {
        what: format!("{heads} against {}{by}", head(along)),
        subtitle: sentences(&[chart.finding(), vec![warning]].concat()),
        description: format!(
            "{plots} of {heads} against {}{by}, {} of lines in each.",
            head(along),
            chart.plots.iter().map(|plot| plot.lines.len()).max().unwrap_or(0),
        ),
    };
    let names: Vec<String> = chart.plots.iter().map(|plot| plot.name.clone()).collect();
    let labels = chart.plots.iter().map(|p| p.lines.len() + 2).max().unwrap_or(0);
    let plots = Plots { names: &names, x: &chart.x, y: &up, labels };
    sheet(view, spec, name, said, plots.tall(), |paper, heights| {
        let threshold = chart.threshold().map(|t| t.1.to_owned());
        let texts: Vec<String> = chart.plots.iter().flat_map(Plot::texts).chain(threshold).collect();
        let most = plots.most_room() * if chart.look == Look::OneOfMany { 1.4 } else { 1.0 };
        let room = room(paper, texts.iter().map(String::as_str), plots.letters(), most)?;
        plots.draw(paper, heights, (room, 0.0), |n, panel| {
            fill(paper, panel, &chart.plots[n], &chart)?;
            if chart.valued() {
                write_first(paper, panel, &chart.plots[n].lines)?;
            }
            ends(paper, panel, &chart.plots[n], (&chart, room), &plots)
        })
    })
}

fn gather<'t>(
    view: &StudyView<'t>,
    spec: &ChartSpec,
    along: &Column,
    ys: Vec<&'t Column>,
) -> Done<Chart<'t>> {
    let table = view.table;
    let rows: Vec<usize> = (0..table.rows()).collect();
    let x = Axis::along(along, &rows);
    let words = x.words().map_or(0, <[String]>::len);
    at_most(MOST_WORDS, words, "x", spec.x.as_ref(), "take fewer, or make them `panels`")?;
    let by = Groups::of(column(table, spec.by.as_ref()), &rows);
    at_most(MOST_LINES / ys.len().max(1), by.labels.len(), "by", spec.by.as_ref(), FEWER_LINES)?;
    let panels = column(table, spec.panels.as_ref());
    let groups = Groups::of(panels, &rows);
    at_most(MOST_PLOTS, groups.labels.len(), "panels", spec.panels.as_ref(), "take fewer values")?;
    let (band, limit) = (column(table, spec.band.as_ref()), column(table, spec.limit.as_ref()));
    let case = |y: &Column, row: usize| Case {
        x: x.place(along, row),
        y: at(y, row),
        half: band.map_or(0.0, |band| at(band, row)),
        warned: view.warns(row),
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
    let shaded = column(table, spec.by.as_ref()).is_some_and(|c| c.numbers().is_some());
    let look = match (one_of_many(&ys), by.labels.len()) {
        (true, _) => Look::OneOfMany,
        (false, of) if shaded && ys.len() == 1 && of >= FEWEST_SHADED => Look::Shaded(of),
        _ => Look::Series,
    };
    let mut chart = Chart { look, x, ys, plots, rows, band, limit };
    chart.name_with_values();
    Ok(chart)
}

impl Plot {
    fn texts(&self) -> Vec<String> {
        let labels = self.lines.iter().map(|line| line.label.clone());
        labels.chain(self.limits.as_ref().map(Limits::text)).collect()
    }
}

impl Chart<'_> {
    /// Whether words stand along the bottom: between them there is nothing, so bars stand over them.
    fn words(&self) -> bool {
        self.x.words().is_some()
    }

    fn threshold(&self) -> Option<(f64, &'static str)> {
        if let [only] = self.ys.as_slice() { threshold(only) } else { None }
    }

    /// Whether values stand in numbers at both ends: one plot, and few lines between numbers.
    fn valued(&self) -> bool {
        match self.plots.as_slice() {
            [only] => !self.words() && valued(only.lines.len()),
            _ => false,
        }
    }

    /// Lines say at their end what they come to.
    fn name_with_values(&mut self) {
        if self.look != Look::OneOfMany {
            let whole = self.valued();
            if whole {
                let range = self.x.range;
                let low = range.low - BEFORE * (range.high - range.low);
                self.x.range = Range { low, ..range };
            }
            if self.words() {
                return;
            }
            for plot in self.plots.iter_mut().filter(|plot| valued(plot.lines.len())) {
                let largest = largest(&plot.lines);
                for line in &mut plot.lines {
                    let said = name_and_value(&line.label, line, largest);
                    if whole || said.chars().count() <= SMALL_LABEL {
                        line.label = said;
                    }
                }
            }
            return;
        }
        for line in self.plots.iter_mut().flat_map(|plot| &mut plot.lines) {
            let last =
                line.spots.iter().rev().find(|spot| spot.cases > 0).and_then(|spot| rounded(spot.y, spot.y));
            let name = if line.rank == 0 { "this prediction" } else { &line.label };
            line.label = format!("{} {name}", last.unwrap_or_default());
        }
    }

    fn spots(&self) -> impl Iterator<Item = &Spot> {
        self.plots.iter().flat_map(|plot| &plot.lines).flat_map(|line| &line.spots)
    }

    fn values(&self) -> Vec<f64> {
        self.spots().flat_map(|spot| [spot.low, spot.high]).filter(|v| v.is_finite()).collect()
    }

    /// Ends that the axis of crowded bars reaches beyond them: their values stand upright there.
    fn headroom(&self) -> Option<[f64; 2]> {
        let crowded = self.words() && self.plots.iter().any(|plot| plot.lines.len() >= CROWDED);
        let ends = self.spots().map(|spot| spot.y).filter(|y| y.is_finite());
        let (low, high) = ends.fold((0.0_f64, 0.0_f64), |(low, high), y| (low.min(y), high.max(y)));
        let beyond =
            |end: f64| if end.abs() > 0.0 { end + HEADROOM * (high - low) * end.signum() } else { 0.0 };
        crowded.then(|| [low, high].map(beyond))
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
                said.push(self.band.map_or_else(String::new, |band| band_beyond(&self.rows, y, band, limit)));
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
        said.push(crossed_out(failed));
        said
    }
}

/// Bands first, then limits, lines and marks, so that nothing that matters is covered.
fn fill(paper: &Canvas<'_>, panel: &Panel, plot: &Plot, chart: &Chart<'_>) -> Done {
    let look = chart.look;
    if chart.words() {
        columns(paper, panel, &plot.lines)?;
    } else {
        for line in &plot.lines {
            band(paper, panel, line, look.stroke(line.rank))?;
        }
    }
    for limit in plot.limits.iter().flat_map(|limits| limits.lines(panel.x)) {
        paper.line(&panel.path(limit), LIMIT)?;
    }
    if let Some((value, _)) = chart.threshold() {
        paper.line(&panel.path([(panel.x.low, value), (panel.x.high, value)]), LIMIT)?;
    }
    if !chart.words() {
        // what is meant most is drawn last
        for line in plot.lines.iter().rev() {
            for run in runs(&line.spots) {
                paper.line(&panel.path(run.iter().map(|s| (s.x, s.y))), look.stroke(line.rank))?;
            }
        }
        for line in plot.lines.iter().rev() {
            marks(paper, panel, line, look.stroke(line.rank).ink)?;
        }
    }
    if plot.lines.iter().flat_map(|line| &line.spots).all(|spot| spot.cases == 0) {
        paper.plated(panel.middle(), At::Middle, "no case gave a value", SMALL, WHITE)?;
    }
    Ok(())
}

fn band(paper: &Canvas<'_>, panel: &Panel, line: &Line, stroke: Stroke) -> Done {
    for run in runs(&line.spots).into_iter().filter(|run| run.iter().any(|s| s.high - s.low > 0.0)) {
        if let [only] = run {
            let x = panel.px(only.x);
            whisker(paper, x, (panel.py(only.low), panel.py(only.high)), stroke.ink)?;
            continue;
        }
        let above = run.iter().map(|s| (s.x, s.high));
        let below = run.iter().rev().map(|s| (s.x, s.low));
        paper.fill(&panel.path(above.chain(below)), stroke.ink, BAND_ALPHA)?;
    }
    Ok(())
}

fn marks(paper: &Canvas<'_>, panel: &Panel, line: &Line, ink: Ink) -> Done {
    let apart = (panel.right - panel.left) / line.spots.len().max(1) as f64;
    let every = (MARKS_APART / apart).ceil().max(1.0) as usize;
    let radius = if apart < 20.0 || panel.right - panel.left < 260.0 { 3.0 } else { 4.0 };
    for (n, spot) in line.spots.iter().enumerate() {
        let place = panel.at(spot.x, if spot.cases > 0 { spot.y } else { panel.y.low });
        if spot.cases == 0 {
            cross(paper, place, 4.0)?;
        } else if spot.warned {
            hollow(paper, place, line.rank, radius, ink)?;
        } else if n % every == 0 {
            mark(paper, place, line.rank, radius, ink)?;
        }
    }
    Ok(())
}

fn ends(
    paper: &Canvas<'_>,
    panel: &Panel,
    plot: &Plot,
    (chart, room): (&Chart<'_>, f64),
    plots: &Plots<'_>,
) -> Done {
    let mut ends: Vec<End> = Vec::new();
    for (n, line) in plot.lines.iter().enumerate().filter(|(_, line)| !line.label.is_empty()) {
        if let Some(last) = line.spots.iter().rev().find(|spot| spot.cases > 0) {
            let stroke = chart.look.stroke(line.rank);
            let text = line.label.clone();
            ends.push(if chart.words() {
                // bars have no end: their key stands beside the plot, from the top
                let from = (panel.right, panel.top + KEY_APART * (n as f64 + 0.5));
                End { from, text, stroke, sign: Sign::Bar(line.rank) }
            } else {
                End { from: panel.at(last.x, last.y), text, stroke, sign: Sign::Mark(line.rank) }
            });
        }
    }
    if let Some(limits) = &plot.limits {
        let line = limits.lines(panel.x).pop();
        let from = line.and_then(|line| line.last().copied()).map(|p| panel.at(p.0, p.1));
        let from = from.unwrap_or((panel.right, panel.top));
        ends.push(End { from, text: limits.text(), stroke: LIMIT, sign: Sign::Line });
    }
    if let Some((value, words)) = chart.threshold() {
        let from = panel.at(panel.x.high, value);
        ends.push(End { from, text: words.to_owned(), stroke: LIMIT, sign: Sign::Line });
    }
    label(paper, &ends, (panel.right, room), (panel.top, panel.bottom - 4.0), plots.letters())
}
