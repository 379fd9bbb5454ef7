//! Labels at the ends of lines, in a margin kept free for them.

use crate::Done;
use crate::canvas::{Canvas, Point};
use crate::spread::spread;
use crate::theme::{DOTTED, FULL, Letters, Stroke};

use super::columns::bar;
use super::marks::mark;

/// From the plot to the mark of a label, and to its first letter, px.
const MARK: f64 = 20.0;
const TEXT: f64 = 29.0;
/// A line that ends this far from the margin is led to its label by dots, px.
const SHORT_OF_EDGE: f64 = 30.0;

/// The end of one line.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct End {
    /// Where the line ends.
    pub from: Point,
    /// What the line is.
    pub text: String,
    /// How it is drawn.
    pub stroke: Stroke,
    /// How it is shown beside its name.
    pub sign: Sign,
}

/// A piece of what a label is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sign {
    /// The line itself.
    Line,
    /// The mark of its points, by rank.
    Mark(usize),
    /// A bar, by rank.
    Bar(usize),
}

/// Margin that the labels need, no more than `most` px.
pub(super) fn room<'t>(
    paper: &Canvas<'_>,
    texts: impl IntoIterator<Item = &'t str>,
    letters: Letters,
    most: f64,
) -> Done<f64> {
    let widest = paper.widest(texts, letters)?;
    Ok(if widest > 0.0 { (widest + TEXT + 4.0).min(most) } else { 8.0 })
}

/// Draws the labels right of `right`, between those heights.
pub(super) fn label(
    paper: &Canvas<'_>,
    ends: &[End],
    (right, room): (f64, f64),
    (top, bottom): (f64, f64),
    letters: Letters,
) -> Done {
    let wanted: Vec<f64> = ends.iter().map(|end| end.from.1).collect();
    let placed = spread(&wanted, 1.3 * letters.size, top, bottom);
    for (end, y) in ends.iter().zip(placed) {
        let far = right - end.from.0 > SHORT_OF_EDGE;
        if let Sign::Bar(n) = end.sign {
            bar(paper, n, ((right + MARK - 5.0, y - 5.0), (right + MARK + 5.0, y + 5.0)))?;
            paper.text_within((right + TEXT, y), room - TEXT, &end.text, letters)?;
            continue;
        }
        let lead = Stroke { width: 0.8, dash: if far { DOTTED } else { FULL }, ..end.stroke };
        paper.line(&[end.from, (right + 2.0, end.from.1)], lead)?;
        let mark_from = right + MARK - if end.sign == Sign::Line { 13.0 } else { 7.0 };
        paper.line(&[(right + 2.0, end.from.1), (mark_from, y)], Stroke { dash: FULL, ..lead })?;
        match end.sign {
            Sign::Mark(n) => mark(paper, (right + MARK, y), n, 3.6, end.stroke.ink)?,
            _ => paper.line(&[(mark_from, y), (right + MARK + 5.0, y)], end.stroke)?,
        }
        paper.text_within((right + TEXT, y), room - TEXT, &end.text, letters)?;
    }
    Ok(())
}
