//! `weldbow study`: run studies, finish stopped ones, join parts, draw charts.
//!
//! `output` keeps rows on disk safe against a kill, a full disk and another study's rows; `names` are those of its files, `label` is what
//! lies beside rows, `proven` checks every row against it. `part` says which of them a run computes, `work` computes them; `columnar`
//! writes them as Parquet; `read_back` makes a table of them; `show` says what they say, `warned` what their jobs warn of; `draw` draws;
//! `merge` joins parts; `verify` checks a folder of results. `question` makes a study of one line, `replace` lets kept rows give way,
//! `lists` says what can be collected and varied.

mod columnar;
mod draw;
mod label;
mod lists;
mod merge;
mod names;
mod output;
mod part;
mod proven;
mod question;
mod read_back;
mod replace;
mod show;
mod verify;
mod warned;
mod work;

use crate::cli::one_of::{UNITS, one_of};
pub use draw::charts;
pub use show::{findings, in_words};
pub use work::{in_memory, too_large};

use super::complain::fault;
use super::files::{Force, named};
use super::{BAD_INPUT, BAD_USAGE, DONE, STOPPED, Units, complain_on_stderr};
use crate::chart::check_wish;
use crate::input::{Form, Problem};
use crate::job::file::JobFile;
use crate::reading::{Diagnostics, InputFile, read_file};
use crate::study::file::StudyFile;
use crate::study::{Study, Values, shard};
use label::{Label, Proof};
use std::cell::RefCell;
use std::collections::BTreeSet;
use std::io::{ErrorKind, Result, Write};
use std::ops::Range;
use std::path::{Path, PathBuf};

/// Arguments of `weldbow study`.
#[derive(Debug, clap::Args)]
#[command(args_conflicts_with_subcommands = true, subcommand_negates_reqs = true)]
pub struct StudyCommand {
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
    units: Option<Units>,
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
    pub fn run(&self, out: &mut dyn Write) -> Result<u8> {
        match &self.then {
            Some(Then::Merge(merge)) => return merge.run(out),
            Some(Then::Verify(verify)) => return verify.run(out),
            None => {}
        }
        if self.results {
            return lists::results(out).map(|()| DONE);
        }
        if self.places {
            return lists::places(out).map(|()| DONE);
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
            let done = match read(file) {
                Ok((study, inputs)) => {
                    let study = match self.units {
                        Some(units) => study.in_units(units),
                        None => study,
                    };
                    self.one(file, &study, inputs, out)
                }
                Err(complaint) => complain_on_stderr(&complaint).map(|()| BAD_INPUT),
            };
            match done {
                Ok(STOPPED) => return Ok(STOPPED),
                Ok(done) => status = status.max(done),
                Err(error) if error.kind() == ErrorKind::BrokenPipe => return Err(error),
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
    fn question(&self, out: &mut dyn Write) -> Result<u8> {
        let [job] = self.studies.as_slice() else {
            let said = "--vary asks of one job: weldbow study JOB --vary \u{2026}; several results go into one word: --show sweep,camber";
            return fault(None, said).map(|()| BAD_USAGE);
        };
        match (question::Question { job, vary: &self.vary, show: &self.show }).study() {
            Ok((study, inputs)) => {
                let study = match self.units {
                    Some(units) => study.in_units(units),
                    None => study,
                };
                self.one(job, &study, inputs, out)
            }
            Err(complaints) => {
                complaints.iter().try_for_each(complain_on_stderr)?;
                Ok(BAD_INPUT)
            }
        }
    }

    fn one(&self, file: &Path, study: &Study, inputs: Vec<Proof>, out: &mut dyn Write) -> Result<u8> {
        if let Some((i, n)) = self.shard.filter(|(_, n)| *n > study.count()) {
            let said = format!("--shard {i}/{n}: a study of {} cases has no so many parts", study.count());
            return fault(Some(file), &said).map(|()| BAD_USAGE);
        }
        show::opening(study, out)?;
        out.flush()?;
        let cases = self.cases(study);
        let name = stem(file);
        let Some(folder) = &self.out else {
            if let Some(said) = too_large(study, cases.end - cases.start) {
                let said = format!("{said}; `--out DIR` keeps rows on disk");
                return fault(Some(file), &said).map(|()| BAD_INPUT);
            }
            let table = in_memory(study, cases);
            show::table(study, &table, out)?;
            return warned::show(study, warned::found(study).as_ref(), out).map(|()| DONE);
        };
        let files = names::Names::new(folder, &name, self.shard);
        if self.replace {
            replace::replace(&files)?;
        }
        let wanted =
            output::Wanted { json_lines: self.json_lines, resume: self.resume, force: self.over.force };
        let kept = output::open(study, names::Names::new(folder, &name, self.shard), &cases, inputs, wanted)?;
        let done = work::on_disk(study, cases, kept)?;
        show::rows_kept(&done, &files, out)?;
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
        finish(study, &name, &files, self.over.force, out)
    }

    fn cases(&self, study: &Study) -> Range<u64> {
        self.shard.map_or(0..study.count(), |(i, n)| shard(study.count(), i, n))
    }
}

/// Says what kept rows say, draws the charts, and proves them beside the rows.
fn finish(study: &Study, name: &str, files: &names::Names, force: bool, out: &mut dyn Write) -> Result<u8> {
    let warned = warned::found(study);
    if study.is_sampled() || !study.charts.is_empty() || study.count() <= show::MOST_ROWS {
        if let Some(said) = too_large(study, study.count()) {
            writeln!(out, "No charts and no summary, which need all rows at once: {said}.")?;
            return Ok(DONE);
        }
        let table = read_back::table(study, &files.csv())?;
        show::table(study, &table, out)?;
        let study = &study.clone().with_warned(warned.clone());
        let drawn = charts(study, &table, name, &files.folder, force)?;
        if !drawn.is_empty() {
            writeln!(out, "{}", crate::cli::show::drawn(drawn.len() / 2, &files.folder))?;
        }
        if let Some(label) = Label::read(&files.label())? {
            let name = |path: &Path| path.file_name().unwrap_or_default().to_string_lossy().into_owned();
            let charts = drawn.iter().map(|path| Proof::of(path, name(path))).collect::<Result<_>>()?;
            Label { charts, ..label }.keep(files)?;
        }
    }
    warned::show(study, warned.as_ref(), out)?;
    Ok(DONE)
}

/// Name of a study's files.
fn stem(file: &Path) -> String {
    file.file_stem().map_or_else(|| "study".to_owned(), |stem| stem.to_string_lossy().into_owned())
}

/// Reads and checks a study file and the jobs it names; the files read, each with its hash.
pub(super) fn read(file: &Path) -> std::result::Result<(Study, Vec<Proof>), Diagnostics> {
    let paper: InputFile<StudyFile> = read_file(file)?;
    let folder = file.parent().unwrap_or(Path::new("")).to_owned();
    let read = RefCell::new(vec![file.to_owned()]);
    let study = Study::new(&paper.shape, |name| {
        let path = folder.join(name);
        let job = job_file(&path);
        read.borrow_mut().push(path);
        job
    });
    let study = study.map_err(|problems| paper.complaint(problems))?;
    let problems = wrong_charts(&study);
    if !problems.is_empty() {
        return Err(paper.complaint(problems));
    }
    let files: BTreeSet<PathBuf> = read.into_inner().into_iter().filter(|path| path.is_file()).collect();
    // one that is gone by now is proven by nothing
    let proofs = files.iter().filter_map(|path| Proof::of(path, path.display().to_string()).ok());
    Ok((study, proofs.collect()))
}

fn job_file(path: &Path) -> std::result::Result<JobFile, String> {
    let paper: InputFile<JobFile> = read_file(path).map_err(|complaint| wanted(&complaint))?;
    match crate::job::check(&paper.shape) {
        Ok(_) => Ok(paper.shape),
        Err(problems) => Err(wanted(&paper.complaint(problems))),
    }
}

/// The first mistake of a job, in one line.
fn wanted(complaint: &Diagnostics) -> String {
    let text = complaint.to_string();
    let first = text.lines().next().unwrap_or_default();
    format!("{} that can be predicted; {first}", JobFile::WHAT)
}

fn wrong_charts(study: &Study) -> Vec<Problem> {
    let columns: Vec<(String, bool)> = study
        .columns()
        .into_iter()
        .map(|column| (column.name, matches!(column.values, Values::Numbers(_))))
        .collect();
    let known: Vec<(&str, bool)> = columns.iter().map(|(name, number)| (name.as_str(), *number)).collect();
    let wrong = |(i, wish)| {
        let fault = check_wish(wish, &known).err()?;
        let path = format!("chart[{i}].{}", fault.key());
        Some(Problem::new(path, "a chart that cannot be drawn", fault.to_string()))
    };
    study.charts.iter().enumerate().filter_map(wrong).collect()
}
