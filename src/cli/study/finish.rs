//! What is said and drawn once rows are kept.

use super::label::{Label, Names, Proof};
use super::work::too_large;
use super::{read_back, show};
use crate::chart::study_pictures;
use crate::cli::ended::DONE;
use crate::cli::files;
use crate::cli::show::{Report, drawn as drawn_in};
use crate::study::{Study, Table};
use std::io::{Error, Result, Write};
use std::path::{Path, PathBuf};

/// Says what kept rows say, draws the charts, and proves them beside the rows.
pub(crate) fn finish(
    study: &Study,
    name: &str,
    files: &Names,
    force: bool,
    out: &mut dyn Write,
) -> Result<u8> {
    let warned = show::warned(study);
    if study.is_sampled() || !study.charts.is_empty() || study.count() <= show::MOST_ROWS {
        if let Some(said) = too_large(study, study.count()) {
            writeln!(out, "No charts and no summary, which need all rows at once: {said}.")?;
            return Ok(DONE);
        }
        let table = read_back::table(study, &files.csv())?;
        Report::put(out, |said| show::table(study, &table, said))?;
        let study = &study.clone().with_warned(warned.clone());
        let drawn = charts(study, &table, name, &files.folder, force)?;
        if !drawn.is_empty() {
            writeln!(out, "{}", drawn_in(drawn.len() / 2, &files.folder))?;
        }
        if let Some(label) = Label::read(&files.label())? {
            let charts = drawn.iter().map(|path| Proof::beside(path)).collect::<Result<_>>()?;
            Label { charts, ..label }.keep(files)?;
        }
    }
    Report::put(out, |said| show::warnings(study, warned.as_ref(), said))?;
    Ok(DONE)
}

/// Draws every chart of a study into a folder, as SVG and PNG, and returns the files.
///
/// # Errors
/// If a chart cannot be drawn or written.
pub(crate) fn charts(
    study: &Study,
    table: &Table,
    name: &str,
    folder: &Path,
    force: bool,
) -> Result<Vec<PathBuf>> {
    let drawn = study_pictures(study, table, name).map_err(Error::other)?;
    files::charts_written(folder, force, drawn)
}
