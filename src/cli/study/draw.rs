//! Draws a study's charts.

use crate::chart::{self, StudyView, study_chart};
use crate::cli::files;
use crate::job;
use crate::study::{ChartKind, Study, Table};
use std::io::{Error, Result};
use std::path::Path;

/// Draws every chart of a study into a folder, as SVG and PNG, and returns how many.
///
/// # Errors
/// If a chart cannot be drawn or written.
pub fn charts(study: &Study, table: &Table, name: &str, folder: &Path) -> Result<usize> {
    let drawn = pictures(study, table, name)?;
    for picture in &drawn {
        let path = |ending: &str| folder.join(format!("{}.{ending}", picture.name));
        files::write_whole(&path("svg"), picture.svg.as_bytes())?;
        files::write_whole(&path("png"), &chart::png(&picture.svg).map_err(Error::other)?)?;
    }
    Ok(drawn.len())
}

/// Every chart of a study: `name.svg`, or `name-1.svg`, `name-2.svg` … if there are several.
fn pictures(study: &Study, table: &Table, name: &str) -> Result<Vec<chart::Picture>> {
    let member = job::build(study.base()).ok();
    let shares = study.shares(table);
    let draw = |(i, wish): (usize, &crate::study::ChartWish)| {
        let y = wish.y.first().map_or("", String::as_str);
        let swings = if wish.kind == ChartKind::Tornado { study.swings(y) } else { Vec::new() };
        let shares = shares.iter().find(|s| s.name == y).map_or(&[][..], |s| &s.shares);
        let view = StudyView {
            title: &study.title,
            source: &study.source(),
            table,
            pieces: study.pieces(),
            swings: &swings,
            shares,
            member: member.as_ref(),
        };
        let name = if study.charts.len() > 1 { format!("{name}-{}", i + 1) } else { name.to_owned() };
        study_chart(&view, wish, &name).map_err(Error::other)
    };
    study.charts.iter().enumerate().map(draw).collect()
}
