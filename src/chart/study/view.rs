//! One picture of a study.

use super::check::{ChartSpecFault, check};
use super::{histogram, lines, map, scatter, shares, tornado};
use crate::{ChartError, Picture};
use weldbow_engine::prediction::Job;
use weldbow_engine::scatter::{Share, Swing};
use weldbow_engine::study::{ChartKind, ChartSpec, Table, Values};

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
    /// Rows whose case carries a warning, rising; their marks are hollow, values at their bars have an exclamation mark.
    pub warned: &'a [usize],
    /// The job whose member is drawn where the wish says so.
    pub member: Option<&'a Job>,
}

impl StudyView<'_> {
    /// Whether a row's case carries a warning.
    pub(super) fn warns(&self, row: usize) -> bool {
        self.warned.binary_search(&row).is_ok()
    }

    /// What says so under the chart, by its sign; empty if none does.
    pub(super) fn sign_of_warning(&self, sign: &str) -> String {
        if self.warned.is_empty() { String::new() } else { format!("{sign}: a case with a warning") }
    }
}

/// Draws the wish from the table; `name` is the stem of the file.
///
/// # Errors
/// [`ChartError::Wish`] if the wish does not fit the table, with the key at fault; the other errors mean a
/// broken build.
pub fn study_chart(view: &StudyView<'_>, wish: &ChartSpec, name: &str) -> Result<Picture, ChartError> {
    let columns: Vec<(&str, bool)> = view
        .table
        .columns
        .iter()
        .map(|column| (column.name.as_str(), matches!(column.values, Values::Numbers(_))))
        .collect();
    check(wish, &columns)?;
    one_unit(view.table, wish)?;
    match wish.kind {
        ChartKind::Lines => lines::lines(view, wish, name),
        ChartKind::Map => map::map(view, wish, name),
        ChartKind::Histogram => histogram::histogram(view, wish, name),
        ChartKind::Scatter => scatter::scatter(view, wish, name),
        ChartKind::Tornado => tornado::tornado(view, wish, name),
        ChartKind::Shares => shares::shares(view, wish, name),
    }
}

/// A fault if columns that share an axis have different units. A pure number may stand beside any unit.
fn one_unit(table: &Table, wish: &ChartSpec) -> Result<(), ChartSpecFault> {
    let shown = if wish.kind == ChartKind::Histogram { wish.x.as_slice() } else { wish.y.as_slice() };
    let Some(first) = shown.first().and_then(|name| table.column(name)) else { return Ok(()) };
    let beside = [("y", shown), ("band", wish.band.as_slice()), ("limit", wish.limit.as_slice())];
    for (key, names) in beside {
        for other in names.iter().filter_map(|name| table.column(name)) {
            if other.unit != first.unit && !other.unit.is_empty() && !first.unit.is_empty() {
                return Err(ChartSpecFault::Units {
                    key,
                    first: first.name.clone(),
                    first_unit: first.unit.clone(),
                    second: other.name.clone(),
                    second_unit: other.unit.clone(),
                });
            }
        }
    }
    Ok(())
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
