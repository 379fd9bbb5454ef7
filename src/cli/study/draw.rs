//! Draws a study's charts.

use crate::chart::study_pictures;
use crate::cli::files;
use crate::study::{Study, Table};
use std::io::{Error, Result};
use std::path::{Path, PathBuf};

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
