//! `weldbow calibrate`: from a shop's record of measured pieces to what it says of the shop, and a file that every other command
//! takes.

mod gather;
mod kept;
mod page;
mod show;
mod slips;
mod told;
mod words;

pub(crate) use page::part_of;

use super::ended::{DONE, Ended, Outcome};
use super::files::Kind;
use crate::chart;
use crate::cli::presented::Presented;
use crate::cli::terminal::working;
use crate::input::text;
use crate::record::{Effort, Learned, learn};
use crate::shop::{Shop, read_path as read_shop};
use gather::{Gathered, gather};
use std::io::{Error, Write};
use std::path::{Path, PathBuf};

/// Draws come out the same with it.
const USUAL_SEED: u64 = 1;
/// Why nothing of a calculation is used.
const UNSETTLED: &str =
    "the calculation did not settle, so that nothing is written: look at the readings called odd";

/// Arguments of `weldbow calibrate`.
#[derive(Debug, clap::Args)]
pub(super) struct Calibrate {
    /// The record: a CSV or spreadsheet with one row a piece, or a folder of them
    #[arg(value_name = "RECORD")]
    record: PathBuf,
    /// Shop file, for how well the shop measures
    #[arg(long, value_name = "SHOP")]
    shop: Option<PathBuf>,
    /// Write what was learned into this file; a job or a shop names it as `learned`
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    #[command(flatten)]
    pub(super) presented: Presented,
    /// The same seed gives the same draws
    #[arg(long, default_value_t = USUAL_SEED)]
    seed: u64,
}

impl Calibrate {
    /// Reads a record and says what it teaches.
    ///
    /// # Errors
    /// If the output, a chart or the file cannot be written.
    pub(super) fn run(&self, out: &mut dyn Write) -> Outcome {
        self.presented.ready()?;
        let target = self.presented.target(self.out.as_ref(), Kind::Toml)?;
        let (gathered, found) = found(&self.record, self.shop.as_deref(), self.seed)?;
        let system = self.presented.units.or_else(|| gathered.record.members.first().map(|m| m.job.units));
        let system = system.unwrap_or_default();
        self.presented.tell(&found, |said| show::report(&gathered, &found, system, said), out)?;
        out.flush()?;
        if !found.agreement.holds() {
            return Err(Ended::by_file(&self.record, UNSETTLED));
        }
        if let (Some(path), Some(target)) = (&self.out, target) {
            let kept = toml::to_string(&kept::kept(&gathered, &found)).map_err(Error::other)?;
            target.write(kept.as_bytes())?;
            let named = path.file_name().map_or_else(String::new, |n| n.to_string_lossy().into_owned());
            let then = format!("write `learned = \"{named}\"` into a job or shop file beside it");
            let line = format!("what was learned is in {}; {then}", text::path(path));
            self.presented.beside(&line, out)?;
        }
        self.presented.draw(|| chart::record_pictures(&found, system).map_err(Error::other), out)?;
        Ok(DONE)
    }
}

/// A record and what it teaches.
///
/// # Errors
/// Mistakes in its files; readings from which nothing can be learned.
fn found(record: &Path, shop: Option<&Path>, seed: u64) -> Outcome<(Gathered, Learned)> {
    let shop = shop.map_or_else(|| Ok(Shop::usual()), read_shop)?;
    let gathered = gather(record, shop.measuring)?;
    let bar = working("learning from the pieces");
    let learned = learn(&gathered.record, Effort { seed, ..Effort::USUAL });
    bar.finish_and_clear();
    learned.map(|learned| (gathered, learned)).map_err(|error| Ended::by_file(record, error))
}
