//! `weldbow predict`: read jobs, predict, show.

use super::{BAD_INPUT, DONE, OUT_OF_TOLERANCE, Units, complain_on_stderr, files, output, show};
use crate::chart;
use crate::cli::one_of::{UNITS, one_of};
use crate::form::Complaint;
use crate::job::read_with_scatter;
use crate::prediction::{Job, Prediction, StripFailure, predict, predict_strip};
use crate::scatter::say_chances;
use crate::tolerance::{Judgement, Verdict};
use crate::units::System;
use rayon::prelude::*;
use serde::Serialize;
use std::collections::BTreeMap;
use std::ffi::OsString;
use std::io::{Error, Result, Write};
use std::path::{Path, PathBuf};

/// Arguments of `weldbow predict`.
#[derive(Debug, clap::Args)]
pub struct Predict {
    /// Job files; several give one table
    #[arg(required = true, value_name = "JOB")]
    jobs: Vec<PathBuf>,
    /// Print JSON (engine units: mm, N, MPa, rad, J/mm)
    #[arg(long)]
    json: bool,
    /// Draw charts into this folder, as SVG and PNG
    #[arg(long, value_name = "DIR")]
    charts: Option<PathBuf>,
    /// Show results in these units instead of the job's own
    #[arg(long, value_parser = one_of(UNITS))]
    units: Option<Units>,
    /// Model behind shortening, camber, sweep and web: formulas, or the section solved strip by strip at stations along the
    /// member. Cup and tilt come from the formulas either way
    #[arg(long, value_enum, default_value_t = Level::Formula)]
    level: Level,
    /// End with status 3 if anything predicted is beyond its limit; with a chance, as 0.05, if any limit is passed by more
    /// pieces than that
    #[arg(long, value_name = "CHANCE", num_args = 0..=1, require_equals = true, value_parser = share)]
    strict: Option<Option<f64>>,
}

fn share(text: &str) -> std::result::Result<f64, String> {
    let sound = |share: &f64| (0.0..=1.0).contains(share);
    text.parse().ok().filter(sound).ok_or_else(|| format!("`{text}` is no chance; right would be 0.05"))
}

/// Level of model.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum Level {
    /// Formulas fitted to section calculations; microseconds
    Formula,
    /// Heat and plasticity of whole sections, nothing fitted; about a second
    Strip,
}

impl Level {
    fn predict(self, job: &Job) -> std::result::Result<Prediction, StripFailure> {
        match self {
            Self::Formula => Ok(predict(job)),
            Self::Strip => predict_strip(job),
        }
    }
}

/// Why a job gives no prediction.
enum Refused {
    File(Complaint),
    Strip(PathBuf, StripFailure),
}

/// One job that could be read, and what it does.
struct Done<'a> {
    file: &'a Path,
    job: Job,
    prediction: Prediction,
}

/// A prediction with the file it belongs to, where several go into one array.
#[derive(Serialize)]
struct Named<'a> {
    file: String,
    #[serde(flatten)]
    prediction: &'a Prediction,
}

impl Predict {
    /// Predicts every job; a bad one is complained about and does not stop the others.
    ///
    /// # Errors
    /// If the output or a chart cannot be written.
    pub fn run(&self, out: &mut dyn Write) -> Result<u8> {
        let read: Vec<_> = self
            .jobs
            .par_iter()
            .map(|file| {
                let (job, own) = read_with_scatter(file).map_err(Refused::File)?;
                let mut prediction =
                    self.level.predict(&job).map_err(|failure| Refused::Strip(file.clone(), failure))?;
                say_chances(&job, own, &mut prediction);
                Ok(Done { file, prediction, job })
            })
            .collect();
        let (mut done, mut bad) = (Vec::new(), false);
        for outcome in read {
            match outcome {
                Ok(one) => done.push(one),
                Err(Refused::File(complaint)) => {
                    bad = true;
                    complain_on_stderr(&complaint)?;
                }
                Err(Refused::Strip(file, failure)) => {
                    bad = true;
                    writeln!(std::io::stderr(), "weldbow: {}: {failure}", file.display())?;
                }
            }
        }
        if self.json {
            self.print_json(&done, out)?;
        } else {
            self.print_tables(&done, out)?;
        }
        if let Some(folder) = &self.charts {
            let drawn = self.draw(&done, folder)?;
            if !self.json && drawn > 0 {
                output::say_drawn(drawn, folder, out)?;
            }
        }
        let over = |v: &Verdict| {
            let often = |most: f64| v.likely.is_some_and(|likely| likely.chance > most);
            v.verdict == Judgement::Out || self.strict.flatten().is_some_and(often)
        };
        let over = done.iter().flat_map(|d| &d.prediction.verdicts).any(over);
        Ok(match (bad, self.strict.is_some() && over) {
            (true, _) => BAD_INPUT,
            (false, true) => OUT_OF_TOLERANCE,
            (false, false) => DONE,
        })
    }

    fn system(&self, job: &Job) -> System {
        self.units.unwrap_or(job.units)
    }

    fn print_json(&self, done: &[Done], out: &mut dyn Write) -> Result<()> {
        if let ([one], 1) = (done, self.jobs.len()) {
            return output::json_of(&one.prediction, out);
        }
        let all: Vec<_> = done
            .iter()
            .map(|d| Named { file: d.file.display().to_string(), prediction: &d.prediction })
            .collect();
        output::json(self.jobs.len(), &all, out)
    }

    fn print_tables(&self, done: &[Done], out: &mut dyn Write) -> Result<()> {
        match done {
            [] => Ok(()),
            [one] if self.jobs.len() == 1 => {
                let system = self.system(&one.job);
                show::report(&one.job, &one.prediction, system, out)
            }
            many => {
                let rows: Vec<_> = many.iter().map(|d| (d.file, &d.job, &d.prediction)).collect();
                let system = self.units.unwrap_or(many[0].job.units);
                show::summary(&rows, self.jobs.len(), system, out)
            }
        }
    }

    /// Draws every picture of every job and returns how many.
    fn draw(&self, done: &[Done], folder: &Path) -> Result<usize> {
        files::folder(folder)?;
        let stems = stems(done);
        let drawn: Vec<Result<usize>> = done
            .par_iter()
            .zip(&stems)
            .map(|(one, stem)| {
                let pictures = chart::pictures(&one.job, &one.prediction, self.system(&one.job))
                    .map_err(Error::other)?;
                output::pictures(folder, Some(stem), &pictures)
            })
            .collect();
        drawn.into_iter().sum()
    }
}

/// File names to draw under: the job's own, with a number where two jobs share it.
fn stems(done: &[Done]) -> Vec<String> {
    let mut seen: BTreeMap<OsString, usize> = BTreeMap::new();
    done.iter()
        .map(|one| {
            let stem = one.file.file_stem().unwrap_or(one.file.as_os_str()).to_owned();
            let count = seen.entry(stem.clone()).or_default();
            *count += 1;
            let name = stem.to_string_lossy();
            if *count == 1 { name.into_owned() } else { format!("{name}-{count}") }
        })
        .collect()
}
