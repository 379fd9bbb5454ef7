//! One picture of a study: the spec checked, then drawn by its kind.

use super::fits::fits;
use super::view::StudyView;
use super::{histogram, lines, map, scatter, shares, tornado};
use crate::{Done, Picture};
use weldbow_engine::study::{ChartKind, ChartSpec};

/// Draws the spec from the table; `name` is the stem of the file.
///
/// # Errors
/// [`ChartError::Wish`](crate::ChartError::Wish) if the spec does not fit the table, with the key at fault; the other errors mean a
/// broken build.
pub(crate) fn study_chart(view: &StudyView<'_>, spec: &ChartSpec, name: &str) -> Done<Picture> {
    fits(spec, &view.table.columns, |_| None)?;
    match spec.kind {
        ChartKind::Lines => lines::lines(view, spec, name),
        ChartKind::Map => map::map(view, spec, name),
        ChartKind::Histogram => histogram::histogram(view, spec, name),
        ChartKind::Scatter => scatter::scatter(view, spec, name),
        ChartKind::Tornado => tornado::tornado(view, spec, name),
        ChartKind::Shares => shares::shares(view, spec, name),
    }
}
