//! `weldbow study`: run studies, finish stopped ones, join parts, draw charts.
//!
//! `output` keeps rows on disk safe against a kill, a full disk and another study's rows; `label` names its files and is what lies
//! beside rows, `proven` checks every row against it. `part` says which of them a run computes, `work` computes them; `columnar`
//! writes them as Parquet; `read_back` makes a table of them; `reading` reads a study with its jobs; a question on the command line as well; `finish` says and draws what came of it; `show` says
//! what they say and what their jobs warn of; `merge` joins parts; `verify` checks a folder of results; `lists` says what can be collected and varied.
//!
//! `output` is the only place that knows how rows survive on disk, `label` what proves them (a hash by chunk, the build, the
//! inputs), and `proven` reads every row against it, for `--resume`, `merge` and `verify` alike; `part` says which cases a run
//! computes, `columnar` writes finished rows as Parquet from the proven table.

mod columnar;
mod finish;
mod label;
mod lists;
mod merge;
mod output;
mod part;
mod proven;
mod read_back;
mod reading;
mod show;
mod verify;
mod work;

use crate::cli::one_of::{UNITS, one_of};
use crate::cli::show::Report;
pub(crate) use finish::charts;
pub(super) use reading::read;
pub(super) use show::findings;
pub(crate) use show::in_words;
pub(crate) use work::{in_memory, too_large};

use super::complain::fault;
use super::ended::{BAD_INPUT, DONE, Ended, Outcome, STOPPED};
use super::files::Force;
use crate::study::{Study, shard};
use crate::units::System;
use finish::finish;
use label::Proof;
use reading::stem;
use std::collections::BTreeSet;
use std::io::{ErrorKind, Write};
use std::ops::Range;
use std::path::{Path, PathBuf};

/// Arguments of `weldbow study`.
#[derive(Debug, clap::Args)]
#[command(args_conflicts_with_subcommands = true, subcommand_negates_reqs = true)]
pub(super) struct StudyCommand {
    /// Study files; with --vary one job
    #[arg(required_unless_present_any = ["results", "places"], value_name = "STUDY")]
    studies: Vec<PathBuf>,
    /// One question of a job, without a study file: what varies, as "pass.leg = 4 mm .. 8 mm"; several cross
    #[arg(long, value_name = "PLACE = VALUES")]
    vary: Vec<String>,
    /// What to show of it: shortening, camber, sweep, cup, tilt, toes, ripple, or names of --results
    #[arg(long, value_name = "RESULTS", requires = "vary")]
    show: Vec<String>,
    /// Keep rows (CSV) and charts (SVG and PNG) in this folder
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
    /// Keep rows as JSON lines too
    #[arg(long, requires = "out")]
    json_lines: bool,
    /// Keep rows as Parquet too, once all are there
    #[arg(long, requires = "out")]
    parquet: bool,
    /// Go on where a stopped run ended
    #[arg(long, requires = "out")]
    resume: bool,
    /// Let rows that an earlier study of this name kept in the folder give way
    #[arg(long, requires = "out", conflicts_with = "resume")]
    replace: bool,
    /// Compute only part I of N, as 2/8; `array/8` takes I from the task of an array job; `weldbow study merge` joins the parts
    #[arg(long, value_name = "I/N", value_parser = part::part, requires = "out")]
    shard: Option<(u64, u64)>,
    /// Show results in these units instead of the job's own
    #[arg(long, value_parser = one_of(UNITS))]
    units: Option<System>,
    /// List every result that can be collected, with its unit and what it is
    #[arg(long)]
    results: bool,
    /// List every place of a job that can be varied, with a value it takes and what it is
    #[arg(long)]
    places: bool,
    #[command(flatten)]
    over: Force,
    #[command(subcommand)]
    then: Option<Then>,
}

#[derive(Debug, clap::Subcommand)]
enum Then {
    /// Join the parts of a study that were computed with --shard
    Merge(merge::Merge),
    /// Check kept results: every row, every chart, and what they were computed from
    Verify(verify::Verify),
}

impl StudyCommand {
    /// Runs every study; a bad one is complained about and does not stop the others.
    ///
    /// # Errors
    /// If rows or charts cannot be written.
    pub(super) fn run(&self, out: &mut dyn Write) -> Outcome {
        match &self.then {
            Some(Then::Merge(merge)) => return merge.run(out),
            Some(Then::Verify(verify)) => return Ok(verify.run(out)?),
            None => {}
        }
        if self.results {
            Report::put(out, lists::results)?;
            return Ok(DONE);
        }
        if self.places {
            Report::put(out, lists::places)?;
            return Ok(DONE);
        }
        if !self.vary.is_empty() {
            return self.question(out);
        }
        let mut status = DONE;
        let mut stems = BTreeSet::new();
        for file in &self.studies {
            if self.out.is_some() && !stems.insert(stem(file)) {
                let said = "another study of this command has the same name, and so the same files: give it another folder";
                fault(Some(file), said)?;
                status = status.max(BAD_INPUT);
                continue;
            }
            let done = read(file).map_err(Ended::from).and_then(|read| self.one(file, read, out));
            match done.or_else(Ended::say) {
                Ok(STOPPED) => return Ok(STOPPED),
                Ok(done) => status = status.max(done),
                Err(error) if error.kind() == ErrorKind::BrokenPipe => return Err(error.into()),
                Err(error) => {
                    out.flush()?;
                    fault(None, &error.to_string())?;
                    status = status.max(BAD_INPUT);
                }
            }
        }
        Ok(status)
    }

    /// One question of one job.
    fn question(&self, out: &mut dyn Write) -> Outcome {
        let [job] = self.studies.as_slice() else {
            let said = "--vary asks of one job: weldbow study JOB --vary \u{2026}; several results go into one word: --show sweep,camber";
            return Err(Ended::by_usage(None, said));
        };
        let question = reading::Question { job, vary: &self.vary, show: &self.show };
        self.one(job, question.study()?, out)
    }

    fn one(&self, file: &Path, (study, inputs): (Study, Vec<Proof>), out: &mut dyn Write) -> Outcome {
        let study = &match self.units {
            Some(units) => study.in_units(units),
            None => study,
        };
        if let Some((i, n)) = self.shard.filter(|(_, n)| *n > study.count()) {
            let said = format!("--shard {i}/{n}: a study of {} cases has no so many parts", study.count());
            return Err(Ended::by_usage(Some(file), said));
        }
        Report::put(out, |said| show::opening(study, said))?;
        out.flush()?;
        let cases = self.cases(study);
        let name = stem(file);
        let Some(folder) = &self.out else {
            if let Some(said) = too_large(study, cases.end - cases.start) {
                let said = format!("{said}; `--out DIR` keeps rows on disk");
                return Err(Ended::by_file(file, said));
            }
            let (table, done) = in_memory(study, cases);
            Report::put(out, |said| {
                show::table(study, &table, said);
                show::failures(&done, "", said);
                show::warnings(study, show::warned(study).as_ref(), said);
            })?;
            return Ok(DONE);
        };
        let files = label::Names::new(folder, &name, self.shard);
        if self.replace {
            output::replace(&files)?;
        }
        let wanted =
            output::Wanted { json_lines: self.json_lines, resume: self.resume, force: self.over.force };
        let kept = output::open(study, label::Names::new(folder, &name, self.shard), &cases, inputs, wanted)?;
        let done = work::on_disk(study, cases, kept)?;
        Report::put(out, |said| show::rows_kept(&done, &files, said))?;
        if done.stopped {
            return Ok(STOPPED);
        }
        if self.parquet {
            columnar::keep(study, &files, self.over.force, out)?;
        }
        if self.shard.is_some() {
            writeln!(
                out,
                "  `weldbow study merge {} --out {}` joins all parts",
                crate::input::text::path(file),
                crate::input::text::path(folder)
            )?;
            return Ok(DONE);
        }
        Ok(finish(study, &name, &files, self.over.force, out)?)
    }

    fn cases(&self, study: &Study) -> Range<u64> {
        self.shard.map_or(0..study.count(), |(i, n)| shard(study.count(), i, n))
    }
}
