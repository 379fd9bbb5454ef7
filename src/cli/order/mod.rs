//! `weldbow order`: how many pieces of an order will need straightening, how many hours that is, what to fix first.
//!
//! `gather` reads lists, jobs and folders; `show` says what was found, `families` the same by family and what to pull forward, `words`
//! prevention in a sentence and rounded figures; `rows` writes the CSV file.

mod families;
mod gather;
mod rows;
mod show;
mod words;

use super::complain::complain_on_stderr;
use super::ended::{BAD_INPUT, DONE, Ended, Outcome};
use super::files;
use crate::chart;
use crate::cli::memory::too_much;
use crate::cli::presented::Presented;
use crate::cli::terminal::progress;
use crate::order::{Draws, WorkOrder, run};
use crate::shop::{Shop, read_path};
use crate::straighten::piece::Fabrication;
use files::Target;
use gather::{Gathered, gather};
use std::collections::BTreeSet;
use std::io::{Error, Write};
use std::path::PathBuf;

/// Arguments of `weldbow order`.
#[derive(Debug, clap::Args)]
pub(super) struct OrderCommand {
    /// Lists of marks (CSV: mark, job, quantity and week or due date, family), job files, folders of job files
    #[arg(required = true, value_name = "LIST")]
    inputs: Vec<PathBuf>,
    /// The shop file; without it a usual shop
    #[arg(long, value_name = "FILE")]
    shop: Option<PathBuf>,
    /// Spread the pieces evenly over so many weeks, in the order of the list
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=104))]
    weeks: Option<u32>,
    /// Hours a week that the press is there, to compare with
    #[arg(long, value_name = "HOURS", value_parser = hours)]
    capacity: Option<f64>,
    /// Hours a week that torches are there, to compare with
    #[arg(long, value_name = "HOURS", value_parser = hours)]
    heat_capacity: Option<f64>,
    /// Show every mark, not only families and weeks
    #[arg(long)]
    marks: bool,
    /// Webs are cut to the ordinates of `weldbow predict`
    #[arg(long)]
    web_cut: bool,
    /// Flanges are preset as `weldbow predict` says
    #[arg(long)]
    preset: bool,
    /// Draws of the model bias, which all pieces of the order share
    #[arg(long, default_value_t = 40, value_parser = clap::value_parser!(u32).range(2..=10_000))]
    draws: u32,
    /// Pieces of each mark in each of them
    #[arg(long, default_value_t = 10, value_parser = clap::value_parser!(u32).range(2..=1000))]
    pieces: u32,
    /// The same seed draws the same pieces
    #[arg(long, default_value_t = 1)]
    seed: u64,
    #[command(flatten)]
    pub(super) presented: Presented,
    /// Write one row a mark into this file
    #[arg(long, value_name = "FILE")]
    csv: Option<PathBuf>,
}

/// What a drawn piece takes in memory while its job is worked out, and from then on, bytes (own measurement: 30 000 pieces of one job take
/// 76 MB, of four jobs on one core 80 MB, on two cores 160 MB).
const PIECE_BYTES: [f64; 2] = [2700.0, 60.0];

fn hours(text: &str) -> Result<f64, String> {
    let bare = text.trim().trim_end_matches('h').trim();
    let found = bare.parse::<f64>().ok().filter(|h| (0.0..=10_000.0).contains(h));
    found.ok_or_else(|| "hours a week, 0 to 10000, as 38.5".to_owned())
}

impl OrderCommand {
    /// Works out the order; a bad job is complained about and does not stop the others.
    ///
    /// # Errors
    /// If the output, a chart or the CSV file cannot be written.
    pub(super) fn run(&self, out: &mut dyn Write) -> Outcome {
        let shop = self.shop.as_deref().map_or_else(|| Ok(Shop::usual()), read_path)?;
        let mut gathered = gather(&self.inputs);
        for line in &mut gathered.lines {
            shop.lend(&mut line.file);
        }
        gathered.complaints.iter().try_for_each(complain_on_stderr)?;
        let status = if gathered.complaints.is_empty() { DONE } else { BAD_INPUT };
        let Some(first) = gathered.lines.first() else { return Ok(BAD_INPUT) };
        let system = self.presented.units.unwrap_or(first.file.units);
        self.presented.ready()?;
        let table = |path| Target::like(path, files::Kind::Csv, &rows::header(), self.presented.over.force);
        let table = self.csv.as_deref().map(table).transpose()?;
        let order = WorkOrder {
            lines: &gathered.lines,
            weeks: self.weeks,
            draws: Draws { bias: self.draws as usize, pieces: self.pieces as usize, seed: self.seed },
            making: Fabrication { web_cut: self.web_cut, flanges_preset: self.preset },
            shop: &shop,
            capacity_h: self.capacity,
            heat_capacity_h: self.heat_capacity,
            system,
            verdicts: true,
        };
        if let Some(said) = self.too_large(&gathered) {
            return Err(Ended::by_usage(None, said));
        }
        let bar = progress(gathered.lines.len() as u64, "marks");
        let done = |lines: usize| bar.inc(lines as u64);
        let found = run(&order, done).map_err(Error::other)?;
        bar.finish_and_clear();
        let weeks_own = gathered.lines.iter().any(|line| line.week.is_some());
        let spread = self.weeks.map(|weeks| (weeks, weeks_own));
        self.presented.tell(&found, |said| show::report(&found, system, spread, self.marks, said), out)?;
        out.flush()?;
        if let Some(table) = table {
            table.write(&rows::csv(&found))?;
            self.presented.beside(&format!("one row a mark in {}", table.said()), out)?;
        }
        self.presented.draw(|| chart::order_pictures(&found).map_err(Error::other), out)?;
        Ok(status)
    }

    /// What to say of pieces that are too many to be held in memory, before any is drawn.
    fn too_large(&self, gathered: &Gathered) -> Option<String> {
        let jobs: BTreeSet<&str> = gathered.lines.iter().map(|line| line.path.as_str()).collect();
        let at_once = jobs.len().min(rayon::current_num_threads());
        let piece = PIECE_BYTES[0] * at_once as f64 + PIECE_BYTES[1] * jobs.len() as f64;
        let bytes = piece * f64::from(self.draws) * f64::from(self.pieces);
        let asked = format!("--draws {} --pieces {}: for {} jobs they", self.draws, self.pieces, jobs.len());
        too_much(asked, bytes).map(|said| format!("{said}; give fewer"))
    }
}
