//! `weldbow predict`: read jobs, predict, show.

use super::ended::{BAD_INPUT, DONE, Ended, OUT_OF_TOLERANCE, Outcome, good_of};
use super::show::Report;
use super::{files, show};
use crate::chart;
use crate::cli::presented::{Presented, json};
use crate::cli::terminal::progress;
use crate::job::read_path;
use crate::prediction::{Job, Prediction, Shown, outside, predict, predict_strip};
use crate::scatter::say_chances;
use crate::shop::measured::{Front, read_notes};
use crate::straighten::lying::LyingReading;
use crate::tolerance::{Judgement, Verdict};
use crate::units::System;
use indicatif::ProgressBar;
use rayon::prelude::*;
use serde::Serialize;
use std::io::{Error, Result, Write};
use std::path::{Path, PathBuf};

/// Arguments of `weldbow predict`.
#[derive(Debug, clap::Args)]
pub(super) struct Predict {
    /// Job files; several give one table
    #[arg(required = true, value_name = "JOB")]
    jobs: Vec<PathBuf>,
    #[command(flatten)]
    pub(super) presented: Presented,
    /// Model behind shortening, camber, sweep and web: formulas, or the section solved strip by strip at stations along the
    /// member. Cup and tilt come from the formulas either way
    #[arg(long, value_enum, default_value_t = Level::Formula)]
    level: Level,
    /// Show pass by pass, the rule behind each limit, and what other methods say
    #[arg(long)]
    methods: bool,
    /// Show the constants that the prediction rests on, with their sources
    #[arg(long)]
    constants: bool,
    /// End with status 3 if anything predicted is beyond its limit; with a chance, as 0.05, if any limit is passed by more
    /// pieces than that
    #[arg(long, value_name = "CHANCE", num_args = 0..=1, require_equals = true, value_parser = share)]
    strict: Option<Option<f64>>,
    /// Also say what a tape reads while the piece lies, as "up: near", "lay on: 0.5 m and 8.5 m" (its ends without it) or
    /// "warmer: inner by 5 K"; may be repeated
    #[arg(long = "note", alias = "piece", value_name = "KEY: VALUE")]
    notes: Vec<String>,
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
    /// Heat and plasticity of whole sections, nothing fitted; about a second, up to a minute for short members of thick plates
    Strip,
}

/// One job that could be read, and what it does.
struct Done<'a> {
    file: &'a Path,
    job: Job,
    prediction: Prediction,
    reading: Option<LyingReading>,
}

/// A prediction with what a tape reads, if that was asked for, and the file it belongs to, where several go into one array.
#[derive(Serialize)]
struct Named<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    file: Option<String>,
    #[serde(flatten)]
    prediction: Shown<'a>,
    #[serde(skip_serializing_if = "Option::is_none")]
    reading: Option<&'a LyingReading>,
}

impl Done<'_> {
    fn named(&self, file: Option<String>) -> Named<'_> {
        Named { file, prediction: Shown(&self.prediction), reading: self.reading.as_ref() }
    }
}

impl Predict {
    /// Predicts every job; a bad one is complained about and does not stop the others.
    ///
    /// # Errors
    /// If the output or a chart cannot be written.
    pub(super) fn run(&self, out: &mut dyn Write) -> Outcome {
        let mut front = Front::default();
        read_notes("--note", &self.notes, &mut front)?;
        self.presented.ready()?;
        let bar =
            (self.level == Level::Strip).then(|| progress(self.jobs.len() as u64, "jobs at the strip level"));
        let read: Vec<_> = self
            .jobs
            .par_iter()
            .map(|file| {
                let job = read_path(file)?;
                let predicted = match self.level {
                    Level::Formula => Ok(predict(&job)),
                    Level::Strip => predict_strip(&job),
                };
                let mut prediction = predicted.map_err(|failure| Ended::by_file(file, failure))?;
                say_chances(&job, &mut prediction);
                bar.iter().for_each(|bar| bar.inc(1));
                let reading = show::lying::of(&job, &prediction, &front);
                let reading = reading.transpose().map_err(|fault| Ended::by_file(file, fault))?;
                Ok::<_, Ended>(Done { file, prediction, job, reading })
            })
            .collect();
        bar.iter().for_each(ProgressBar::finish_and_clear);
        let (done, bad) = good_of(read)?;
        if self.presented.json {
            self.print_json(&done, out)?;
        } else {
            self.print_tables(&done, out)?;
        }
        self.presented.draw(|| self.drawn(&done), out)?;
        let over = |v: &Verdict| {
            let often = |most: f64| v.likely.is_some_and(|likely| likely.chance > most);
            v.verdict == Judgement::Out || self.strict.flatten().is_some_and(often)
        };
        let out_of = |d: &Done| d.prediction.verdicts.iter().any(over) || !outside(&d.prediction).is_empty();
        let over = done.iter().any(out_of);
        Ok(match (bad, self.strict.is_some() && over) {
            (true, _) => BAD_INPUT,
            (false, true) => OUT_OF_TOLERANCE,
            (false, false) => DONE,
        })
    }

    fn system(&self, job: &Job) -> System {
        self.presented.units.unwrap_or(job.units)
    }

    fn print_json(&self, done: &[Done], out: &mut dyn Write) -> Result<()> {
        let file = |d: &Done| (self.jobs.len() > 1).then(|| d.file.display().to_string());
        json(self.jobs.len(), &done.iter().map(|d| d.named(file(d))).collect::<Vec<_>>(), out)
    }

    fn print_tables(&self, done: &[Done], out: &mut dyn Write) -> Result<()> {
        match done {
            [] => Ok(()),
            [one] if self.jobs.len() == 1 => {
                let system = self.system(&one.job);
                let more = show::More { methods: self.methods, constants: self.constants };
                Report::put(out, |said| {
                    show::report(&one.job, &one.prediction, system, more, said);
                    one.reading.iter().for_each(|reading| show::lying::show(reading, system, said));
                })
            }
            many => {
                let rows: Vec<_> = many.iter().map(|d| (d.file, &d.job, &d.prediction)).collect();
                let system = self.presented.units.unwrap_or(many[0].job.units);
                Report::put(out, |said| show::summary(&rows, self.jobs.len(), system, said))
            }
        }
    }

    /// Every picture of every job.
    fn drawn(&self, done: &[Done]) -> Result<Vec<chart::Picture>> {
        let stems = files::stems(done.iter().map(|one| one.file));
        let inside = |(one, _): &(&Done, &String)| outside(&one.prediction).is_empty();
        let drawn = done.par_iter().zip(&stems).filter(inside).map(|(one, stem)| {
            let pictures =
                chart::pictures(&one.job, &one.prediction, self.system(&one.job)).map_err(Error::other)?;
            Ok(files::pictures_of(stem, pictures))
        });
        Ok(drawn.collect::<Result<Vec<_>>>()?.concat())
    }
}
