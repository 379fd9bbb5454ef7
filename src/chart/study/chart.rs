//! One picture of a study: the wish checked, then drawn by its kind.

use super::check::{ChartSpecFault, check};
use super::view::StudyView;
use super::{histogram, lines, map, scatter, shares, tornado};
use crate::{ChartError, Picture};
use weldbow_engine::study::{ChartKind, ChartSpec, Table, Values};

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
