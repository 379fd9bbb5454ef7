//! What many commands share: JSON in place of tables, charts beside them, units.

use super::files::{self, Force, Kind, Target};
use super::one_of::{UNITS, one_of};
use super::show::{self, Report};
use crate::chart::Picture;
use crate::units::System;
use serde::Serialize;
use std::io::{Result, Write};
use std::path::PathBuf;

/// How results are presented.
#[derive(Debug, clap::Args)]
pub(super) struct Presented {
    /// Print JSON (engine units: mm, N, MPa, rad, J/mm; work in hours)
    #[arg(long)]
    pub(super) json: bool,
    /// Draw charts into this folder, as SVG and PNG
    #[arg(long, value_name = "DIR")]
    pub(super) charts: Option<PathBuf>,
    /// Show results in these units instead of those of the job, or of the first of several
    #[arg(long, value_parser = one_of(UNITS))]
    pub(super) units: Option<System>,
    #[command(flatten)]
    pub(super) over: Force,
}

impl Presented {
    /// Makes the folder for charts, before anything is worked out for them.
    ///
    /// # Errors
    /// If it cannot be made.
    pub(super) fn ready(&self) -> Result<()> {
        self.charts.as_deref().map_or(Ok(()), files::folder)
    }

    /// What was found: as JSON for programs, in words and tables for people.
    ///
    /// # Errors
    /// Only those of `out`.
    pub(super) fn tell<T: Serialize>(
        &self,
        found: &T,
        said: impl FnOnce(&mut Report),
        out: &mut dyn Write,
    ) -> Result<()> {
        if self.json { json_of(found, out) } else { Report::put(out, said) }
    }

    /// Draws what is asked for, and says so where people read.
    ///
    /// # Errors
    /// If a picture cannot be drawn or written.
    pub(super) fn draw(
        &self,
        pictures: impl FnOnce() -> Result<Vec<Picture>>,
        out: &mut dyn Write,
    ) -> Result<()> {
        let Some(folder) = &self.charts else { return Ok(()) };
        match files::charts(folder, self.over.force, pictures()?)? {
            0 => Ok(()),
            drawn => self.beside(&show::drawn(drawn, folder), out),
        }
    }

    /// What was done besides, under a blank line, unless programs read the output.
    ///
    /// # Errors
    /// Only those of `out`.
    pub(super) fn beside(&self, line: &str, out: &mut dyn Write) -> Result<()> {
        if self.json { Ok(()) } else { writeln!(out, "\n{line}") }
    }

    /// Where a file goes that was asked for.
    ///
    /// # Errors
    /// If it cannot be written there.
    pub(super) fn target(&self, path: Option<&PathBuf>, kind: Kind) -> Result<Option<Target>> {
        path.map(|path| Target::new(path, kind, self.over.force)).transpose()
    }
}

/// Results as JSON: the one if one was asked for, else a list.
///
/// # Errors
/// Only those of `out`.
pub(crate) fn json<T: Serialize>(asked: usize, all: &[T], out: &mut dyn Write) -> Result<()> {
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
pub(crate) fn json_of<T: Serialize + ?Sized>(value: &T, out: &mut dyn Write) -> Result<()> {
    serde_json::to_writer_pretty(&mut *out, value)?;
    writeln!(out)
}
