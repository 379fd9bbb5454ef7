//! How often a result takes which value, and how often it is beyond its limit.

use super::axis::{Axis, Mark};
use super::bins::{Bins, part_in_words};
use super::cells::quantile;
use super::foot::Foot;
use super::limits::{Limits, beyond};
use super::marks::hatch;
use super::sheet::{SheetText, sheet};
use super::view::StudyView;
use super::worded::{at, cases, column, counted, head, rough, sentences, value};
use crate::axes::{FAR_LIMIT, Panel, Range};
use crate::canvas::{At, Canvas, MARGIN, RIGHT_END, corners};
use crate::number::number;
use crate::spread::spread;
use crate::theme::{
    BLACK, BLUE, FULL, GREY, GRID, LABEL, LIMIT, Letters, SHORT, SMALL, Stroke, VALUE, VERMILION, WHITE, ZERO,
};
use crate::{ChartError, Done, Picture};
use weldbow_engine::study::{ChartSpec, Column};

/// Parts of the pieces that lie below what is marked.
const PARTS: [f64; 3] = [0.05, 0.5, 0.95];
const TALL: f64 = 470.0;
/// Two rows of labels over the bars, px under the title.
const LIMIT_ROW: f64 = 12.0;
const MEAN_ROW: f64 = 34.0;
const BARS_FROM: f64 = 48.0;
/// The shade of bars, so that black marks on them read.
const BAR_ALPHA: f64 = 0.45;

/// What is drawn.
struct Counted<'t> {
    column: &'t Column,
    bins: Bins,
    /// Below the first lie 5 % of the pieces, below the last 95 %, half of them below the middle one.
    quantiles: [f64; 3],
    cases: usize,
    /// Limit lines, with the words on the part beyond each.
    limits: Vec<(Line, String)>,
    x: Axis,
    y: Axis,
}

pub(super) fn histogram(view: &StudyView<'_>, spec: &ChartSpec, name: &str) -> Done<Picture> {
    let Some(shown) = column(view.table, spec.x.as_ref()) else { return Err(ChartError::NotANumber) };
    let limit = column(view.table, spec.limit.as_ref());
    let rows: Vec<usize> = (0..view.table.rows()).collect();
    let all: Vec<f64> = rows.iter().map(|row| at(shown, *row)).collect();
    let mut rising: Vec<f64> = all.iter().copied().filter(|v| v.is_finite()).collect();
    rising.sort_by(f64::total_cmp);
    let failed = all.len() - rising.len();
    let quantiles = PARTS.map(|part| quantile(&rising, part));
    let limits = Limits::of(limit, &rows, |_| 0.0, &all);
    let lines = limit.map_or_else(Vec::new, |limit| sided(&rows, shown, limit));
    let mut said = vec![if rising.is_empty() {
        "No case gave a value".to_owned()
    } else {
        let [low, _, high] = quantiles.map(rough);
        format!("{}: nine in ten from {low} to {}", cases(rising.len()), value_or(&high, &shown.unit))
    }];
    if let (Some(limit), false) = (limit, rising.is_empty()) {
        let hits = beyond(&rows, shown, limit);
        let which = match (limits.as_ref(), lines.as_slice()) {
            (Some(_), [below, above]) if (below.at + above.at).abs() > 1e-9 * above.at.abs() => {
                format!("limit {} to +{}", value(below.at, &shown.unit), value(above.at, &shown.unit))
            }
            (Some(limits), _) => limits.text(),
            (None, _) => "limit".to_owned(),
        };
        said.push(format!("Beyond the {which}: {}", part_in_words(&hits, view.pieces)));
    }
    if failed > 0 {
        said.push(format!("{} failed and not counted", cases(failed)));
    }
    let chart = Counted::of(shown, (&all, rising), quantiles, (&lines, view.pieces));
    let said = SheetText {
        what: format!("how {} spreads", head(shown)),
        subtitle: sentences(&said),
        description: format!(
            "Histogram of {}: {} of {} (Freedman and Diaconis 1981, rounded), the middle and the middle nine tenths \
             marked, the part beyond a limit hatched.",
            head(shown),
            counted(chart.bins.counts.len(), "bar"),
            value(chart.bins.width, &shown.unit)
        ),
    };
    sheet(view, spec, name, said, TALL, |paper, heights| chart.draw(paper, heights))
}

/// One edge of what is allowed.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Line {
    at: f64,
    /// Whether it is the lower edge.
    below: bool,
}

/// Edges on the sides where values are, each the tightest there: a window may be wider on one side than on the other.
fn sided(rows: &[usize], shown: &Column, limit: &Column) -> Vec<Line> {
    let values =
        || rows.iter().map(|row| (at(shown, *row), at(limit, *row).abs())).filter(|v| v.0.is_finite());
    let largest = values().fold(0.0_f64, |most, v| most.max(v.0.abs()));
    let tightest = |below: bool| {
        let there = values().filter(|v| if below { v.0 < 0.0 } else { v.0 >= 0.0 });
        there.map(|v| v.1).filter(|size| size.is_finite()).reduce(f64::min)
    };
    let edge = |below: bool| {
        let size = tightest(below).filter(|size| largest <= 0.0 || *size <= FAR_LIMIT * largest)?;
        Some(Line { at: if below { 0.0 - size } else { size }, below })
    };
    [true, false].into_iter().filter_map(edge).collect()
}

fn value_or(text: &str, unit: &str) -> String {
    if unit.is_empty() { text.to_owned() } else { format!("{text} {unit}") }
}

impl<'t> Counted<'t> {
    fn of(
        column: &'t Column,
        (all, rising): (&[f64], Vec<f64>),
        quantiles: [f64; 3],
        (lines, pieces): (&[Line], usize),
    ) -> Self {
        let bins = Bins::of(&rising);
        let words = |line: &Line| {
            let sound = all.iter().filter(|v| v.is_finite());
            let hits: Vec<bool> =
                sound.map(|v| if line.below { *v < line.at } else { *v > line.at }).collect();
            let sign = if line.at > 0.0 { "+" } else { "" };
            let size = format!("{sign}{}", value(line.at, &column.unit));
            let which = if line.below { "below" } else { "above" };
            format!("{which} {size}: {}", part_in_words(&hits, pieces))
        };
        let limits: Vec<(Line, String)> = lines.iter().map(|line| (*line, words(line))).collect();
        let last = bins.counts.len().saturating_sub(1);
        let mut reach = vec![bins.edges(0).0, bins.edges(last).1];
        reach.extend(limits.iter().map(|l| l.0.at));
        reach.extend(quantiles);
        let reach: Vec<f64> = reach.into_iter().filter(|v| v.is_finite()).collect();
        let (low, high) = (reach.iter().copied().reduce(f64::min), reach.iter().copied().reduce(f64::max));
        let name = |power| super::worded::axis_name(column, power);
        let mut x = Axis::exactly(name, low.unwrap_or(0.0), high.unwrap_or(1.0));
        let air = 0.04 * (x.range.high - x.range.low);
        x.range = Range { low: x.range.low - air, high: x.range.high + air };
        let most = bins.counts.iter().copied().max().unwrap_or(0) as f64;
        let y = Axis::up(|_| "cases in a bar".to_owned(), [0.0, most]);
        Self { column, bins, quantiles, cases: rising.len(), limits, x, y }
    }

    fn draw(&self, paper: &Canvas<'_>, (top, bottom): (f64, f64)) -> Done {
        let whole = |m: &Mark| (m.place - m.place.round()).abs() < 1e-6;
        let counted = |m: Mark| Mark { text: number(m.place, 0), ..m };
        let marks: Vec<Mark> = self.y.marks(7.0).into_iter().filter(whole).map(counted).collect();
        let widest = paper.widest(marks.iter().map(|mark| &mark.text), LABEL)?;
        let left = MARGIN + 30.0 + widest;
        let foot = Foot::of(paper, &self.x, RIGHT_END - left)?;
        let (x, y) = (self.x.range, self.y.range);
        let panel = Panel::new((left, RIGHT_END), (top + BARS_FROM, bottom - foot.tall - 22.0), x, y);
        for mark in marks {
            let y = panel.py(mark.place);
            paper.line(&[(left, y), (RIGHT_END, y)], GRID)?;
            paper.text((left - 7.0, y), At::Right, &mark.text, LABEL)?;
        }
        self.bars(paper, &panel)?;
        foot.line(paper, &panel)?;
        foot.labels(paper, &panel)?;
        self.limits(paper, &panel, top)?;
        self.middle(paper, &panel, top)?;
        let width = value(self.bins.width, &self.column.unit);
        let name = paper.shortened(&self.x.name, RIGHT_END - left, LABEL)?;
        paper.text((0.5 * (left + RIGHT_END), bottom - 9.0), At::Middle, &name, LABEL)?;
        let name = if self.cases > 0 { format!("cases in a bar of {width}") } else { "cases".to_owned() };
        paper.upward((MARGIN + 6.0, panel.middle().1), &name, LABEL)
    }

    fn bars(&self, paper: &Canvas<'_>, panel: &Panel) -> Done {
        for (bar, count) in self.bins.counts.iter().enumerate().filter(|bar| *bar.1 > 0) {
            let (from, to) = self.bins.edges(bar);
            let height = panel.py(*count as f64);
            let (a, b) = ((panel.px(from), height), (panel.px(to), panel.bottom));
            paper.fill(&corners(a, b), BLUE, BAR_ALPHA)?;
            for (line, _) in &self.limits {
                let (from, to) = if line.below { (from, to.min(line.at)) } else { (from.max(line.at), to) };
                if to > from {
                    let (a, b) = ((panel.px(from), height), (panel.px(to), panel.bottom));
                    paper.fill(&corners(a, b), WHITE, 1.0)?;
                    paper.fill(&corners(a, b), VERMILION, 0.35)?;
                    hatch(paper, (a, b), 6.0, Stroke { ink: VERMILION, width: 1.3, dash: FULL })?;
                }
            }
            paper.outline(&corners(a, b), Stroke { ink: BLACK, width: 0.8, dash: FULL })?;
        }
        if self.cases == 0 {
            paper.text(panel.middle(), At::Middle, "no case gave a value", SMALL)?;
        }
        Ok(())
    }

    /// Limit lines with the part beyond each, in the upper row.
    fn limits(&self, paper: &Canvas<'_>, panel: &Panel, top: f64) -> Done {
        for (line, _) in &self.limits {
            let x = panel.px(line.at);
            paper.line(&[(x, top + LIMIT_ROW + 9.0), (x, panel.bottom)], LIMIT)?;
        }
        let at: Vec<(f64, &str)> = self.limits.iter().map(|l| (panel.px(l.0.at), l.1.as_str())).collect();
        row(paper, panel, &at, top + LIMIT_ROW, VALUE.in_ink(VERMILION))
    }

    /// The middle, and what nine pieces in ten lie between, in the lower row.
    fn middle(&self, paper: &Canvas<'_>, panel: &Panel, top: f64) -> Done {
        if self.cases == 0 {
            return Ok(());
        }
        let [low, half, high] = self.quantiles;
        let mut texts = vec![(half, format!("half below {}", value_or(&rough(half), &self.column.unit)))];
        if high > low {
            texts.push((low, format!("5 % below {}", rough(low))));
            texts.push((high, format!("5 % above {}", rough(high))));
        }
        for (n, (place, _)) in texts.iter().enumerate() {
            let stroke = if n == 0 { Stroke::new(BLACK, 2.0, FULL) } else { Stroke::new(GREY, 1.4, SHORT) };
            let x = panel.px(*place);
            paper.line(&[(x, top + MEAN_ROW + 9.0), (x, panel.bottom)], stroke)?;
        }
        let at: Vec<(f64, &str)> = texts.iter().map(|t| (panel.px(t.0), t.1.as_str())).collect();
        row(paper, panel, &at, top + MEAN_ROW, LABEL)?;
        paper.line(&[(panel.left, panel.bottom), (panel.right, panel.bottom)], ZERO)
    }
}

/// Texts over their places in one row, pushed apart.
fn row(paper: &Canvas<'_>, panel: &Panel, texts: &[(f64, &str)], y: f64, letters: Letters) -> Done {
    let widest = paper.widest(texts.iter().map(|t| t.1), letters)? + 14.0;
    let wanted: Vec<f64> = texts.iter().map(|t| t.0).collect();
    let half = 0.5 * widest;
    let placed = spread(&wanted, widest, MARGIN + half, panel.right + 10.0 - half);
    let mut texts = texts.iter().zip(placed);
    texts.try_for_each(|((_, text), x)| paper.plated((x, y), At::Middle, text, letters, WHITE))
}
