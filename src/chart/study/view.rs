//! One picture of a study.

use super::check::ChartSpecFault;
use super::fits::fits;
use super::{histogram, lines, map, scatter, shares, tornado};
use crate::{ChartError, Picture};
use weldbow_engine::prediction::Job;
use weldbow_engine::scatter::{Share, Swing};
use weldbow_engine::study::{ChartKind, ChartSpec, Table};

/// What a study brought back, and what is said with every picture of it.
#[derive(Debug, Clone, Copy)]
pub struct StudyView<'a> {
    /// Title of the study.
    pub title: &'a str,
    /// What the study teaches; its first clause stands under the title, the count of cases then goes to the foot.
    pub lesson: &'a str,
    /// One line under every chart: what was computed, from which job.
    pub source: &'a str,
    /// One row a case.
    pub table: &'a Table,
    /// Cases in a row that share a draw of the model bias; 1 if every case is drawn for itself.
    pub pieces: usize,
    /// Inputs moved alone, for a tornado chart; of the one result that the chart names as `y`.
    pub swings: &'a [Swing],
    /// Parts of the variance, for a chart of shares; of the one result that the chart names as `y`.
    pub shares: &'a [Share],
    /// The job whose member is drawn where the wish says so.
    pub member: Option<&'a Job>,
}

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

/// A fault if a column takes more values than can be told apart.
pub(super) fn at_most(
    most: usize,
    found: usize,
    key: &'static str,
    name: Option<&String>,
    instead: &'static str,
) -> Result<(), ChartSpecFault> {
    if found <= most {
        return Ok(());
    }
    Err(ChartSpecFault::TooMany { key, name: name.cloned().unwrap_or_default(), found, most, instead })
}
