//! What several commands do alike with their results: JSON of one or of many, charts into a folder, the stem of a file.

use super::files;
use crate::chart::{Picture, png};
use serde::Serialize;
use std::io::{Error, Result, Write};
use std::path::Path;

/// Results as JSON: the one if one was asked for, else a list.
///
/// # Errors
/// Only those of `out`.
pub fn json<T: Serialize>(asked: usize, all: &[T], out: &mut dyn Write) -> Result<()> {
    match all {
        [one] if asked == 1 => json_of(one, out),
        [] if asked == 1 => Ok(()),
        many => json_of(&many, out),
    }
}

/// One value as JSON.
///
/// # Errors
/// Only those of `out`.
pub fn json_of<T: Serialize>(value: &T, out: &mut dyn Write) -> Result<()> {
    serde_json::to_writer_pretty(&mut *out, value)?;
    writeln!(out)
}

/// Writes pictures into a folder, as SVG and PNG, each under the stem and its own name; how many.
///
/// # Errors
/// If one cannot be written.
pub fn pictures(folder: &Path, stem: Option<&str>, pictures: &[Picture]) -> Result<usize> {
    files::folder(folder)?;
    for picture in pictures {
        let name = stem.map_or_else(|| picture.name.clone(), |stem| format!("{stem}-{}", picture.name));
        let path = |ending: &str| folder.join(format!("{name}.{ending}"));
        files::write_whole(&path("svg"), picture.svg.as_bytes())?;
        files::write_whole(&path("png"), &png(&picture.svg).map_err(Error::other)?)?;
    }
    Ok(pictures.len())
}

/// Says that charts were drawn.
///
/// # Errors
/// Only those of `out`.
pub fn say_drawn(drawn: usize, folder: &Path, out: &mut dyn Write) -> Result<()> {
    writeln!(out, "\n{drawn} charts (SVG and PNG) in {}", folder.display())
}

/// Name of a file without its ending.
pub fn stem(file: &Path) -> String {
    file.file_stem().unwrap_or(file.as_os_str()).to_string_lossy().into_owned()
}
