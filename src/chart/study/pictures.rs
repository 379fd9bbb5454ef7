//! Every picture a study specs for.

use super::fits::fits;
use super::view::StudyView;
use super::{histogram, lines, map, scatter, shares, tornado};
use crate::{Done, Picture};
use weldbow_engine::job;
use weldbow_engine::prediction::Job;
use weldbow_engine::study::{ChartKind, ChartSpec, Study, Table, Values};

/// Places along the member as they are measured: in metres or feet.
fn along(mut table: Table) -> Table {
    for column in table.columns.iter_mut().filter(|column| column.name.ends_with(".at_mm")) {
        let (unit, size) = match column.unit.as_str() {
            "mm" => ("m", 1000.0),
            "in" => ("ft", 12.0),
            _ => continue,
        };
        if let Values::Numbers(numbers) = &mut column.values {
            numbers.iter_mut().for_each(|number| *number /= size);
            column.unit = unit.to_owned();
        }
    }
    table
}

/// Draws every chart of a study from its table (engine units): `name`, or `name-1`, `name-2` … if there are several.
///
/// # Errors
/// [`ChartError::Wish`](crate::ChartError::Wish) if what a chart asks does not fit the table, with the key at fault; the other errors mean a broken build.
pub fn study_pictures(study: &Study, table: &Table, name: &str) -> Done<Vec<Picture>> {
    let member = job::check(study.base()).ok().map(|job| Job { units: study.system(), ..job });
    let shares = study.shares(table);
    let shown = along(study.shown(table));
    let source = study.source();
    let warned: Vec<usize> = (0..table.rows()).filter(|row| study.marks(*row as u64)).collect();
    let draw = |(i, spec): (usize, &ChartSpec)| {
        let y = spec.y.first().map_or("", String::as_str);
        let swings = if spec.kind == ChartKind::Tornado { study.swings(y) } else { Vec::new() };
        let view = StudyView {
            title: &study.title,
            lesson: study.lesson.as_deref().unwrap_or_default(),
            source: &source,
            table: &shown,
            pieces: study.pieces(),
            swings: &swings,
            shares: shares.iter().find(|s| s.name == y).map_or(&[][..], |s| &s.shares),
            warned: &warned,
            member: member.as_ref(),
        };
        let name = if study.charts.len() > 1 { format!("{name}-{}", i + 1) } else { name.to_owned() };
        study_chart(&view, spec, &name)
    };
    study.charts.iter().enumerate().map(draw).collect()
}

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
