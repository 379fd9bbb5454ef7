//! What stands under a plot: numbers, or words wrapped or turned so that none covers another.

use super::axis::{Axis, Mark};
use crate::Done;
use crate::axes::Panel;
use crate::canvas::{At, Canvas};
use crate::theme::{LABEL, ZERO};

/// Lines a word label may be wrapped to before it is turned.
const MOST_LINES: usize = 3;
const LINE: f64 = 14.0;
/// Longest turned label, px.
const LONGEST: f64 = 160.0;
/// Between two labels in a line, px.
const APART: f64 = 8.0;

/// Labels of an axis under a plot of a certain width.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Foot {
    /// Place along the axis and the lines there.
    labels: Vec<(f64, Vec<String>)>,
    /// Places that have a tick.
    ticks: Vec<f64>,
    turned: bool,
    /// Height from the axis, px.
    pub(crate) tall: f64,
}

impl Foot {
    /// For a plot `width` px wide.
    pub(super) fn of(paper: &Canvas<'_>, axis: &Axis, width: f64) -> Done<Self> {
        match axis.words() {
            Some(words) => Self::of_words(paper, words, width),
            None => Self::of_numbers(paper, axis, width),
        }
    }

    fn of_numbers(paper: &Canvas<'_>, axis: &Axis, width: f64) -> Done<Self> {
        let mut about = width / 70.0;
        let px = |place: f64| (place - axis.range.low) / (axis.range.high - axis.range.low) * width;
        loop {
            let marks = axis.marks(about);
            if about < 1.0 || clear(paper, &marks, px)? {
                let ticks = marks.iter().map(|m| m.place).collect();
                let labels = marks.into_iter().map(|m| (m.place, vec![m.text])).collect();
                return Ok(Self { labels, ticks, turned: false, tall: 8.0 + LINE });
            }
            about *= 0.7;
        }
    }

    fn of_words(paper: &Canvas<'_>, words: &[String], width: f64) -> Done<Self> {
        let ticks: Vec<f64> = (0..words.len()).map(|rank| rank as f64).collect();
        let cell = width / words.len().max(1) as f64;
        let wrapped: Vec<_> =
            words.iter().map(|text| wrap(paper, text, cell - APART)).collect::<Done<_>>()?;
        if let Some(lines) = wrapped.into_iter().collect::<Option<Vec<_>>>() {
            let tall = lines.iter().map(Vec::len).max().unwrap_or(1) as f64;
            let labels = ticks.iter().copied().zip(lines).collect();
            return Ok(Self { labels, ticks, turned: false, tall: 8.0 + LINE * tall });
        }
        // turned labels need a line each; where even that is too much, some are left out
        let every = (LINE / cell).ceil().max(1.0) as usize;
        let mut labels = Vec::new();
        let mut tall = 0.0_f64;
        for (place, text) in ticks.iter().zip(words).step_by(every) {
            let text = paper.shortened(text, LONGEST, LABEL)?;
            tall = tall.max(paper.width_of(&text, LABEL)?);
            labels.push((*place, vec![text]));
        }
        Ok(Self { labels, ticks, turned: true, tall: 14.0 + tall })
    }

    /// The axis line with ticks.
    pub(super) fn line(&self, paper: &Canvas<'_>, panel: &Panel) -> Done {
        paper.line(&[(panel.left, panel.bottom), (panel.right, panel.bottom)], ZERO)?;
        for place in &self.ticks {
            let x = panel.px(*place);
            paper.line(&[(x, panel.bottom), (x, panel.bottom + 5.0)], ZERO)?;
        }
        Ok(())
    }

    /// The labels.
    pub(super) fn labels(&self, paper: &Canvas<'_>, panel: &Panel) -> Done {
        for (place, lines) in &self.labels {
            let x = panel.px(*place);
            for (n, text) in lines.iter().enumerate() {
                if self.turned {
                    let half = 0.5 * paper.width_of(text, LABEL)?;
                    paper.upward((x, panel.bottom + 9.0 + half), text, LABEL)?;
                } else {
                    paper.text((x, panel.bottom + 15.0 + LINE * n as f64), At::Middle, text, LABEL)?;
                }
            }
        }
        Ok(())
    }
}

/// Whether labels side by side leave room between them.
fn clear(paper: &Canvas<'_>, marks: &[Mark], px: impl Fn(f64) -> f64) -> Done<bool> {
    let mut edge = f64::NEG_INFINITY;
    for mark in marks {
        let half = 0.5 * paper.width_of(&mark.text, LABEL)?;
        if px(mark.place) - half < edge + APART {
            return Ok(false);
        }
        edge = px(mark.place) + half;
    }
    Ok(true)
}

/// A text in lines no wider than `room`; none if that takes too many lines or a word is too wide.
pub(super) fn wrap(paper: &Canvas<'_>, text: &str, room: f64) -> Done<Option<Vec<String>>> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split(' ') {
        if paper.width_of(word, LABEL)? > room {
            return Ok(None);
        }
        let longer = lines.last().map(|line| format!("{line} {word}"));
        match (longer, lines.last_mut()) {
            (Some(longer), Some(line)) if paper.width_of(&longer, LABEL)? <= room => *line = longer,
            _ => lines.push(word.to_owned()),
        }
        if lines.len() > MOST_LINES {
            return Ok(None);
        }
    }
    Ok(Some(lines))
}
