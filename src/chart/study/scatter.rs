//! One dot a case: a result against an input or another result.

use super::axis::{Axis, distinct};
use super::cells::{MOST_LINES, MOST_WORDS};
use super::check::at_most;
use super::ends::room;
use super::groups::{Groups, named};
use super::limits::{Limits, beyond};
use super::marks::{cross, hollow, mark};
use super::names::{one_quantity, sorted_by};
use super::sheet::{SheetText, sheet};
use super::small_plots::{MOST_PLOTS, Plots};
use super::view::StudyView;
use super::worded::{
    at, axis_name, beyond_in_words, cases, column, crossed_out, head, reach, sentences, told_apart,
};
use crate::axes::{Panel, Range};
use crate::canvas::{At, Canvas, MARGIN, RIGHT_END};
use crate::number::{number, ticks};
use crate::ramp::class_ink;
use crate::theme::{BLACK, GHOST, HEADING, Ink, LABEL, LIMIT, SMALL, VALUE, WHITE, ZERO, series};
use crate::{ChartError, Done, Picture};
use weldbow_engine::study::{ChartSpec, Column};

/// Most dots drawn.
const MOST_DOTS: usize = 3000;
/// More numbers than this are sorted into stretches, between about
/// [`CLASSES`] round numbers (both a choice).
const MOST_NUMBERS: usize = 6;
const CLASSES: f64 = 4.0;
/// Off by this much either way is marked where two sources of one quantity are compared (a choice).
const OFF: f64 = 0.2;
/// Width of the whole plot with its numbers that makes it a square, px.
const SQUARE: f64 = 420.0;
/// Widest key, px.
const KEY: f64 = 190.0;

/// What sets dots apart: the classes of `by`.
struct Classes {
    labels: Vec<String>,
    /// Class of each row.
    of: Vec<Option<usize>>,
    /// Whether they are stretches of a number, shaded from pale to dark.
    shaded: bool,
}

pub(super) fn scatter(view: &StudyView<'_>, spec: &ChartSpec, name: &str) -> Done<Picture> {
    let table = view.table;
    let found = (column(table, spec.x.as_ref()), column(table, spec.y.first()));
    let (Some(along), Some(shown)) = found else { return Err(ChartError::NotANumber) };
    let rows: Vec<usize> = (0..table.rows()).collect();
    let x = Axis::along(along, &rows);
    let words = x.words().map_or(0, <[String]>::len);
    at_most(MOST_WORDS, words, "x", spec.x.as_ref(), "take fewer, or make them `panels`")?;
    let by = column(table, spec.by.as_ref());
    let classes = Classes::of(by, &rows);
    at_most(MOST_LINES, classes.labels.len(), "by", spec.by.as_ref(), "take fewer, or make them `panels`")?;
    let panels = column(table, spec.panels.as_ref());
    let groups = Groups::of(panels, &rows);
    at_most(MOST_PLOTS, groups.labels.len(), "panels", spec.panels.as_ref(), "take fewer values")?;

    let values: Vec<f64> = rows.iter().map(|row| at(shown, *row)).collect();
    let limit = column(table, spec.limit.as_ref());
    let limits = Limits::of(limit, &rows, |row| x.place(along, row), &values);
    let held = limits.as_ref().map_or_else(Vec::new, Limits::span);
    let equal = one_quantity(table, spec.x.as_ref(), spec.y.first());
    let both = rows.iter().filter(|_| equal).map(|row| at(along, *row));
    let up = Axis::up(|power| axis_name(shown, power), values.iter().copied().chain(held).chain(both));
    let x = if equal { x.over(up.range) } else { x };
    let drawn = thinned(rows.len());
    let good = |row: &usize| values[*row].is_finite() && x.place(along, *row).is_finite();
    let failed = rows.iter().filter(|row| !good(row)).count();
    let shown_values: Vec<f64> = rows.iter().filter(|row| good(row)).map(|row| values[*row]).collect();
    let mut said = vec![reach(&shown_values, &shown.unit)];
    if let Some(limit) = limit {
        said.push(beyond_in_words(&beyond(&rows, shown, limit), "limit"));
    }
    if drawn.len() < rows.len() {
        said.push(format!("Only {} are drawn, evenly picked", cases(drawn.len())));
    }
    said.push(crossed_out(failed));
    said.push(view.sign_of_warning("Hollow marks"));
    let by_what = sorted_by(by, panels);
    let said = SheetText {
        what: format!("{} against {}{by_what}", head(shown), head(along)),
        subtitle: sentences(&said),
        description: format!("One dot a case: {} against {}{by_what}.", head(shown), head(along)),
    };
    let names: Vec<String> = match panels {
        Some(column) if !groups.labels.is_empty() => groups.labels.iter().map(|l| named(column, l)).collect(),
        _ => vec![String::new()],
    };
    let plots = Plots { names: &names, x: &x, y: &up, labels: 0 };
    let radius = match drawn.len() / names.len() {
        0..150 => 3.8,
        150..700 => 3.0,
        _ => 2.2,
    };
    sheet(view, spec, name, said, plots.tall(), |paper, heights| {
        let key = Key { by, classes: &classes, limit: limits.as_ref() };
        let wide = key.wide(paper)?;
        // two axes of one quantity make a square
        let wide = if equal { wide.max(RIGHT_END - MARGIN - SQUARE) } else { wide };
        plots.draw(paper, heights, (6.0, wide), |n, panel| {
            let here = groups.rows.get(n).map_or(&[][..], Vec::as_slice);
            if equal {
                equals(paper, panel)?;
            }
            for line in limits.iter().flat_map(|limits| limits.lines(panel.x)) {
                paper.line(&panel.path(line), LIMIT)?;
            }
            for row in drawn.iter().filter(|row| here.binary_search(row).is_ok()) {
                let place = x.place(along, *row);
                if good(row) {
                    let (n, ink) = classes.look(*row);
                    let put = if view.warns(*row) { hollow } else { mark };
                    put(paper, panel.at(place, values[*row]), n, radius, ink)?;
                } else if place.is_finite() {
                    cross(paper, (panel.px(place), panel.bottom), 4.0)?;
                }
            }
            if n == 0 { key.draw(paper, panel, wide) } else { Ok(()) }
        })
    })
}

/// Where both axes say the same, and a fifth more and less.
fn equals(paper: &Canvas<'_>, panel: &Panel) -> Done {
    let Range { low, high } = panel.x;
    for (factor, stroke) in [(1.0, ZERO), (1.0 - OFF, GHOST), (1.0 + OFF, GHOST)] {
        // each line ends where it meets the edge of the square
        let end = high.min(high / factor);
        let start = low.max(low / factor);
        paper.line(&panel.path([(start, factor * start), (end, factor * end)]), stroke)?;
        let percent = number(100.0 * (factor - 1.0), 0);
        let text = if factor > 1.0 { format!("+{percent} %") } else { format!("{percent} %") };
        let text = if stroke == ZERO { "equal".to_owned() } else { text };
        let at = panel.at(end, factor * end);
        let shift = if factor > 1.0 { (-6.0, 12.0) } else { (-6.0, 14.0) };
        paper.plated((at.0 + shift.0, at.1 + shift.1), At::Right, &text, SMALL, WHITE)?;
    }
    Ok(())
}

/// Rows drawn: all, or as many as can be, picked by the golden section so that no pattern of the table
/// is met in step.
fn thinned(rows: usize) -> Vec<usize> {
    const GOLDEN: f64 = 0.618_033_988_749_894_9;
    let part = MOST_DOTS as f64 / rows.max(1) as f64;
    (0..rows).filter(|row| part >= 1.0 || (*row as f64 * GOLDEN).fract() < part).take(MOST_DOTS).collect()
}

impl Classes {
    fn of(by: Option<&Column>, rows: &[usize]) -> Self {
        let Some(column) = by else {
            return Self { labels: Vec::new(), of: rows.iter().map(|_| Some(0)).collect(), shaded: false };
        };
        let numbers = distinct(rows.iter().map(|row| at(column, *row)));
        if column.numbers().is_some() && numbers.len() > MOST_NUMBERS {
            return Self::stretches(column, rows, &numbers);
        }
        let groups = Groups::of(Some(column), rows);
        let class = |row: &usize| groups.rows.iter().position(|of_it| of_it.binary_search(row).is_ok());
        Self { of: rows.iter().map(class).collect(), labels: groups.labels, shaded: false }
    }

    /// Stretches between round numbers.
    fn stretches(column: &Column, rows: &[usize], rising: &[f64]) -> Self {
        let (low, high) = (rising[0], rising[rising.len() - 1]);
        let (mut edges, _) = ticks(low, high, CLASSES);
        edges.retain(|edge| *edge > low && *edge < high);
        edges.truncate(MOST_NUMBERS);
        let class = |row: &usize| {
            let number = at(column, *row);
            number.is_finite().then(|| edges.partition_point(|edge| *edge <= number))
        };
        let words = told_apart(&edges, "");
        let unit = if column.unit.is_empty() { String::new() } else { format!(" {}", column.unit) };
        let label = |n: usize| match (n.checked_sub(1).and_then(|n| words.get(n)), words.get(n)) {
            (None, Some(to)) => format!("below {to}{unit}"),
            (Some(from), Some(to)) => format!("{from} to {to}{unit}"),
            (Some(from), None) => format!("from {from}{unit}"),
            (None, None) => "all".to_owned(),
        };
        let labels = (0..=edges.len()).map(label).collect();
        Self { labels, of: rows.iter().map(class).collect(), shaded: true }
    }

    /// Mark and ink of a row; without a value of `by` it is a black plus.
    fn look(&self, row: usize) -> (usize, Ink) {
        self.of.get(row).copied().flatten().map_or((5, BLACK), |class| self.look_of(class))
    }

    fn look_of(&self, class: usize) -> (usize, Ink) {
        if self.shaded { (class, class_ink(class, self.labels.len())) } else { (class, series(class).ink) }
    }
}

/// What the marks mean, right of the plots.
struct Key<'k> {
    by: Option<&'k Column>,
    classes: &'k Classes,
    limit: Option<&'k Limits>,
}

impl Key<'_> {
    fn wide(&self, paper: &Canvas<'_>) -> Done<f64> {
        let limit = self.limit.map(Limits::text);
        let texts = self.classes.labels.iter().map(String::as_str).chain(limit.as_deref());
        let wide = room(paper, texts, LABEL, KEY)?;
        let title = self.by.map_or(String::new(), head);
        Ok(if wide > 20.0 { wide.max((paper.width_of(&title, HEADING)? + 12.0).min(KEY)) } else { 0.0 })
    }

    fn draw(&self, paper: &Canvas<'_>, panel: &Panel, wide: f64) -> Done {
        if wide <= 0.0 {
            return Ok(());
        }
        let left = panel.right + 16.0;
        let mut y = panel.top + 6.0;
        if let Some(by) = self.by {
            paper.text_within((left, y), wide - 10.0, &head(by), VALUE)?;
            y += 20.0;
        }
        for (class, label) in self.classes.labels.iter().enumerate() {
            let (n, ink) = self.classes.look_of(class);
            mark(paper, (left + 6.0, y), n, 4.2, ink)?;
            paper.text_within((left + 18.0, y), wide - 30.0, label, LABEL)?;
            y += 18.0;
        }
        if let Some(limit) = self.limit {
            paper.line(&[(left, y), (left + 14.0, y)], LIMIT)?;
            paper.text_within((left + 18.0, y), wide - 30.0, &limit.text(), LABEL)?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thinning_keeps_few_enough_and_meets_no_pattern_in_step() {
        assert_eq!(thinned(2999).len(), 2999);
        let kept = thinned(12_000);
        assert!((2900..=3000).contains(&kept.len()), "{}", kept.len());
        let of_four = |rest: usize| kept.iter().filter(|row| *row % 4 == rest).count();
        assert!((0..4).all(|rest| (650..850).contains(&of_four(rest))));
    }
}
