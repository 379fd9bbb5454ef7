//! One line of a chart, and how many there may be.

use super::cells::Spot;

/// Most lines in one plot: the theme tells no more apart.
pub(super) const MOST_LINES: usize = 12;
/// Most words along the bottom (a choice: with more, labels are left out).
pub(super) const MOST_WORDS: usize = 40;

/// One line: which of all lines of the chart it is, and its points.
pub(super) struct Line {
    pub label: String,
    pub(crate) rank: usize,
    pub spots: Vec<Spot>,
}
