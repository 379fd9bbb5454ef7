//! `weldbow calibrate`: from a shop's record of measured pieces to what it says of the shop, and a file that every other command
//! takes.

mod gather;
mod kept;
mod show;
mod words;

use super::files::{self, Kind, Target};
use super::{BAD_INPUT, DONE, Units, complain_on_stderr, output};
use crate::chart;
use crate::cli::complain::fault;
use crate::cli::one_of::{UNITS, one_of};
use crate::cli::terminal::working;
use crate::input::text;
use crate::record::{Effort, learn};
use crate::shop::Shop;
use gather::gather;
use std::io::{Error, Result, Write};
use std::path::PathBuf;

/// Arguments of `weldbow calibrate`.
#[derive(Debug, clap::Args)]
pub struct Calibrate {
    /// The record: a CSV or spreadsheet with one row a piece, or a folder of them
    #[arg(value_name = "RECORD")]
    record: PathBuf,
    /// Shop file, for how well the shop measures
    #[arg(long, value_name = "SHOP")]
    shop: Option<PathBuf>,
    /// Write what was learned into this file; a job or a shop names it as `learned`
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Print JSON (engine units)
    #[arg(long)]
    pub(super) json: bool,
    /// Draw charts into this folder, as SVG and PNG
    #[arg(long, value_name = "DIR")]
    charts: Option<PathBuf>,
    /// The same seed gives the same draws
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// Show sizes in these units instead of those of the first job
    #[arg(long, value_parser = one_of(UNITS))]
    units: Option<Units>,
    #[command(flatten)]
    over: files::Force,
}

impl Calibrate {
    /// Reads a record and says what it teaches.
    ///
    /// # Errors
    /// If the output, a chart or the file cannot be written.
    pub fn run(&self, out: &mut dyn Write) -> Result<u8> {
        self.charts.as_deref().map(files::folder).transpose()?;
        let target = |path: &PathBuf| Target::new(path, Kind::Toml, self.over.force);
        let target = self.out.as_ref().map(target).transpose()?;
        let shop = match self.shop.as_deref().map(crate::shop::read_path) {
            None => Shop::usual(),
            Some(Ok(shop)) => shop,
            Some(Err(complaint)) => return complain_on_stderr(&complaint).map(|()| BAD_INPUT),
        };
        let gathered = match gather(&self.record, shop.measuring) {
            Ok(gathered) => gathered,
            Err(complaints) => {
                for complaint in &complaints {
                    complain_on_stderr(complaint)?;
                }
                return Ok(BAD_INPUT);
            }
        };
        let effort = Effort { seed: self.seed, ..Effort::USUAL };
        let bar = working("learning from the pieces");
        let found = learn(&gathered.record, effort);
        bar.finish_and_clear();
        let found = match found {
            Ok(found) => found,
            Err(error) => return fault(Some(&self.record), &error.to_string()).map(|()| BAD_INPUT),
        };
        let system = self.units.or_else(|| gathered.record.members.first().map(|m| m.job.units));
        let system = system.unwrap_or_default();
        if self.json {
            output::json_of(&found, out)?;
        } else {
            show::report(&gathered, &found, system, out)?;
        }
        out.flush()?;
        if !found.agreement.holds() {
            let said =
                "the calculation did not settle, so that nothing is written: look at the readings called odd";
            return fault(Some(&self.record), said).map(|()| BAD_INPUT);
        }
        if let (Some(path), Some(target)) = (&self.out, target) {
            let kept = toml::to_string(&kept::kept(&gathered, &found)).map_err(Error::other)?;
            target.write(kept.as_bytes())?;
            let named = path.file_name().map_or_else(String::new, |n| n.to_string_lossy().into_owned());
            self.say(
                out,
                &format!(
                    "what was learned is in {}; write `learned = \"{named}\"` into a job or shop file beside it",
                    text::path(path)
                ),
            )?;
        }
        if let Some(folder) = &self.charts {
            let pictures = chart::record_pictures(&found, system).map_err(Error::other)?;
            let drawn = files::charts(folder, self.over.force, pictures)?;
            self.say(out, &format!("{drawn} charts (SVG and PNG) in {}", text::path(folder)))?;
        }
        Ok(DONE)
    }

    /// What was written, unless programs read the output.
    fn say(&self, out: &mut dyn Write, line: &str) -> Result<()> {
        if self.json { Ok(()) } else { writeln!(out, "\n{line}") }
    }
}
