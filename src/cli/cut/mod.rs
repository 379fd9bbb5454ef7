//! `weldbow cut`: plates of members for the cutting table, as drawing, lists and workbook.
//!
//! `gather` reads jobs and lists, `show` says what is cut, `write` leaves the files behind.

mod gather;
mod show;
mod write;

pub(super) use gather::{Listed, jobs_of, list};

use super::complain::{complain_on_stderr, fault};
use super::ended::{BAD_INPUT, DONE, Ended, Outcome};
use super::files;
use crate::cli::one_of::{UNITS, one_of};
use crate::cli::show::Report;
use crate::cut::Stations;
use crate::units::{Kind, System, read};
use gather::gather;
use std::io::Write;
use std::path::PathBuf;
use write::Written;

/// Arguments of `weldbow cut`.
#[derive(Debug, clap::Args)]
pub(super) struct Cut {
    /// Job files, or lists of members (.csv or .xlsx): mark, job, quantity and what differs from the job, as `length [mm]` or
    /// `depth.end`
    #[arg(required = true, value_name = "JOB")]
    inputs: Vec<PathBuf>,
    #[command(flatten)]
    written: Written,
    /// Where the web's edges are given: `needed`, a number of equal parts, or a distance as "500 mm"; ends, splices and kinks
    /// always
    #[arg(long, default_value = "needed", value_name = "WHERE", value_parser = stations)]
    stations: Stations,
    /// Show and write lengths in these units instead of those of the first job
    #[arg(long, value_parser = one_of(UNITS))]
    units: Option<System>,
    #[command(flatten)]
    over: files::Force,
}

/// Shortest distance between stations that a tape can take, mm, and most parts.
const SHORTEST_MM: f64 = 10.0;
const MOST_PARTS: u32 = 1000;

fn stations(words: &str) -> Result<Stations, String> {
    if words == "needed" {
        return Ok(Stations::Needed);
    }
    let parts = words.parse::<u32>().ok().filter(|parts| (1..=MOST_PARTS).contains(parts));
    let step = read(Kind::Length, words).ok().filter(|mm| (SHORTEST_MM..=1e6).contains(mm));
    match (parts, step) {
        (Some(parts), _) => Ok(Stations::Parts(parts)),
        (None, Some(mm)) => Ok(Stations::Every(mm)),
        (None, None) => Err(format!(
            "`{words}` is neither `needed`, a number of parts from 1 to {MOST_PARTS}, nor a distance of at least 10 mm as \"500 mm\""
        )),
    }
}

impl Cut {
    /// Works out the plates of every member; a bad one is complained about, and then nothing is written.
    ///
    /// # Errors
    /// If the output or a file cannot be written.
    pub(super) fn run(&self, out: &mut dyn Write) -> Outcome {
        let gathered = gather(&self.inputs, self.stations, self.units);
        gathered.complaints.iter().try_for_each(complain_on_stderr)?;
        for (mark, said) in &gathered.outside {
            fault(None, &format!("{mark}: {said}"))?;
        }
        if gathered.is_wrong() {
            return Ok(BAD_INPUT);
        }
        if let Some(said) = self.written.refused(gathered.marks.len()) {
            return Err(Ended::by_usage(self.written.dxf.as_deref(), said));
        }
        let system = gathered.system.unwrap_or(System::Si);
        let places = self.written.places(&gathered.marks, system, self.over)?;
        Report::put(out, |said| show::report(&gathered.marks, system, said))?;
        out.flush()?;
        let written = places.write(&gathered.marks, system)?;
        written.iter().try_for_each(|line| writeln!(out, "{line}"))?;
        if places.is_empty() {
            writeln!(out, "\nNothing written: --dxf, --csv, --ordinates and --workbook write files")?;
        }
        Ok(DONE)
    }
}
