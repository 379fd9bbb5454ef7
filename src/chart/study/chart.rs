//! One picture of a study: the wish checked, then drawn by its kind.

use super::fits::fits;
use super::view::StudyView;
use super::{histogram, lines, map, scatter, shares, tornado};
use crate::{ChartError, Picture};
use weldbow_engine::study::{ChartKind, ChartSpec};

/// Draws the wish from the table; `name` is the stem of the file.
///
/// # Errors
/// [`ChartError::Wish`] if the wish does not fit the table, with the key at fault; the other errors mean a
/// broken build.
pub fn study_chart(view: &StudyView<'_>, wish: &ChartSpec, name: &str) -> Result<Picture, ChartError> {
    fits(wish, &view.table.columns, |_| None)?;
    match wish.kind {
        ChartKind::Lines => lines::lines(view, wish, name),
        ChartKind::Map => map::map(view, wish, name),
        ChartKind::Histogram => histogram::histogram(view, wish, name),
        ChartKind::Scatter => scatter::scatter(view, wish, name),
        ChartKind::Tornado => tornado::tornado(view, wish, name),
        ChartKind::Shares => shares::shares(view, wish, name),
    }
}
