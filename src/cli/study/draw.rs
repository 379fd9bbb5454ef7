//! Draws a study's charts.

use crate::chart::{png, study_pictures};
use crate::cli::files;
use crate::study::{Study, Table};
use std::io::{Error, Result};
use std::path::Path;

/// Draws every chart of a study into a folder, as SVG and PNG, and returns how many.
///
/// # Errors
/// If a chart cannot be drawn or written.
pub fn charts(study: &Study, table: &Table, name: &str, folder: &Path) -> Result<usize> {
    let drawn = study_pictures(study, table, name).map_err(Error::other)?;
    for picture in &drawn {
        let path = |ending: &str| folder.join(format!("{}.{ending}", picture.name));
        files::write_whole(&path("svg"), picture.svg.as_bytes())?;
        files::write_whole(&path("png"), &png(&picture.svg).map_err(Error::other)?)?;
    }
    Ok(drawn.len())
}
