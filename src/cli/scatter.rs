//! `weldbow scatter`: how likely a member is out, and what that rests on.

use super::ended::{DONE, Ended, Outcome};
use super::show::{Columns, Report, SIGNS, drawn, outside_problem, row_table};
use super::study::{charts, findings, in_memory, in_words, too_large};
use crate::cli::presented::{Presented, json};
use crate::input::text::path as path_text;
use crate::job::check;
use crate::job::file::JobFile;
use crate::prediction::predict;
use crate::reading::{Diagnostics, InputFile, read_file};
use crate::scatter::{Class, Distribution, Draws, INPUTS, Input};
use crate::study::{Scattered, Study, Table};
use serde::Serialize;
use std::io::{Result, Write};
use std::path::{Path, PathBuf};

/// Inputs shown of what moves a result.
const MOST_SWINGS: usize = 5;

/// Arguments of `weldbow scatter`.
#[derive(Debug, clap::Args)]
pub(super) struct Scatter {
    /// Job files
    #[arg(required_unless_present = "inputs", value_name = "JOB")]
    jobs: Vec<PathBuf>,
    /// Possible model errors, one of which all pieces of a kind share
    #[arg(long, default_value_t = 500, value_parser = clap::value_parser!(u64).range(2..=100_000))]
    draws: u64,
    /// Pieces for each of them
    #[arg(long, default_value_t = 50, value_parser = clap::value_parser!(u64).range(2..=100_000))]
    pieces: u64,
    /// The same seed gives the same draws
    #[arg(long, default_value_t = 1)]
    seed: u64,
    #[command(flatten)]
    pub(super) presented: Presented,
    /// List what is taken to be unsure, how much, and why
    #[arg(long)]
    inputs: bool,
}

/// What drawn pieces of one job say.
#[derive(Serialize)]
struct Found {
    file: String,
    #[serde(flatten)]
    found: Scattered,
}

impl Scatter {
    /// Simulates pieces of every job; a bad one is complained about and does not stop the others.
    ///
    /// # Errors
    /// If the output or a chart cannot be written.
    pub(super) fn run(&self, out: &mut dyn Write) -> Outcome {
        if self.inputs {
            Report::put(out, inputs)?;
            return Ok(DONE);
        }
        self.presented.ready()?;
        let mut status = DONE;
        let mut all = Vec::new();
        let stems = super::files::stems(self.jobs.iter().map(PathBuf::as_path));
        for (file, stem) in self.jobs.iter().zip(&stems) {
            match self.study(file) {
                Ok(study) => {
                    if let Some(said) = too_large(&study, study.count()) {
                        let asked = format!("--draws {} --pieces {}", self.draws, self.pieces);
                        return Err(Ended::by_usage(Some(file), format!("{asked}: {said}; give fewer")));
                    }
                    let (table, _) = in_memory(&study, 0..study.count());
                    if self.presented.json {
                        all.push(Found { file: file.display().to_string(), found: study.scattered(&table) });
                    } else {
                        Report::put(out, |said| self.show(&study, &table, said))?;
                    }
                    self.draw(stem, &study, &table, out)?;
                }
                Err(complaint) => status = Ended::from(complaint).say()?,
            }
        }
        if self.presented.json {
            json(self.jobs.len(), &all, out)?;
        }
        Ok(status)
    }

    /// The study that draws pieces of a job.
    fn study(&self, path: &Path) -> std::result::Result<Study, Diagnostics> {
        let paper: InputFile<JobFile> = read_file(path)?;
        if let Some(problem) = check(&paper.shape).ok().and_then(|job| outside_problem(&job)) {
            return Err(paper.complaint(vec![problem]));
        }
        let draws = Draws { bias: self.draws as usize, pieces: self.pieces as usize, seed: self.seed };
        let study = Study::of_pieces(&paper.shape, &path_text(path), draws);
        let study = study.map_err(|problems| paper.complaint(problems))?;
        Ok(match self.presented.units {
            Some(units) => study.in_units(units),
            None => study,
        })
    }

    fn show(&self, study: &Study, table: &Table, out: &mut Report) {
        out.heading(&study.title, "");
        out.line(format!(
            "{} possible model errors × {} pieces; {}",
            self.draws,
            self.pieces,
            study.source()
        ));
        let job = check(study.base()).ok();
        let recorded = job.as_ref().and_then(|job| Some((job.recorded_note()?, job.units)));
        if let Some((said, units)) = recorded {
            out.line(said.in_units(self.presented.units.unwrap_or(units)));
        }
        findings(study, table, out);
        if study.base().camber.is_some() {
            out.line(
                "  camber: as if the web were cut straight; cut to the ordinates of `predict` it aims at the middle of what the limits allow."
            );
        }
        if let Some(job) = job {
            let (prediction, system) = (predict(&job), self.presented.units.unwrap_or(job.units));
            for (name, of) in
                [("Camber", &prediction.camber.max_2s_of), ("Sweep", &prediction.sweep.max_2s_of)]
            {
                out.say(format!("{name} {}.", of.sentence().in_units(system)));
            }
        }
        let remark = "each input by itself from low to high (±1σ), all others at their middle";
        out.heading("What moves it", remark);
        let mut shown = row_table(&["result", "input", "low", "high"], 2..4);
        for result in study.movers() {
            let (name, size) = in_words(study, result);
            // hundredths of a millimetre, thousandths of an inch
            let decimals = if size > 10.0 { 3 } else { 2 };
            for swing in study.swings(result).iter().take(MOST_SWINGS) {
                let [low, high] = swing.results.map(|x| format!("{x:.decimals$}").replace('-', "−"));
                shown.add_row([name.clone(), swing.input.clone(), low, high]);
            }
        }
        shown.put(out);
        out.line(format!("  {}", SIGNS));
        out.line(
            "  `weldbow scatter --inputs` says how unsure each input is taken to be; none of it is measured on members.\n  \
             A [scatter] table in the job puts your shop's own values in place."
        )
    }

    fn draw(&self, stem: &str, study: &Study, table: &Table, out: &mut dyn Write) -> Result<()> {
        let Some(folder) = &self.presented.charts else { return Ok(()) };
        let made =
            charts(study, table, &format!("{stem}-scatter"), folder, self.presented.over.force)?.len() / 2;
        if self.presented.json { Ok(()) } else { writeln!(out, "{}", drawn(made, folder)) }
    }
}

fn inputs(out: &mut Report) {
    let deviation = |input: &&Input| match input.spread.distribution() {
        _ if input.of_plates() => "in mm".to_owned(),
        Distribution::Lognormal { cov: deviation, .. } | Distribution::Normal { sd: deviation, .. } => {
            format!("{:.0} %", 100.0 * deviation)
        }
        Distribution::Uniform { .. } | Distribution::Triangular { .. } => {
            format!("{:.0} %", 100.0 * input.spread.sd())
        }
    };
    Columns::of(INPUTS.iter().filter(|input| !input.recorded()))
        .left("input", |input| input.name)
        .left("kind", |input| match input.class {
            Class::Bias => "bias",
            Class::Scatter => "scatter",
        })
        .right("σ", deviation)
        .left("what it multiplies", |input| input.what)
        .left("where it comes from", |input| input.source)
        .put(out);
    out.line(
        "  bias: the same for every piece of a kind. scatter: from piece to piece, or pass to pass.\n  \
         In a job or a study, [scatter] with `force = 0.10` puts your own σ in place; 0 leaves an input out.\n  \
         What plates bring follows from how the job says they come (`edges`, `bow_scatter`), what assembly brings stands in its\n  \
         [assembly]. `weldbow calibrate` learns all of it from measured pieces."
    )
}
