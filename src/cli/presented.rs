//! What many commands share: JSON in place of tables, charts beside them, units.

use super::files::{self, Force};
use super::one_of::{UNITS, one_of};
use super::{output, show};
use crate::chart::Picture;
use crate::units::System;
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
            drawn => output::beside(self.json, &show::drawn(drawn, folder), out),
        }
    }
}
