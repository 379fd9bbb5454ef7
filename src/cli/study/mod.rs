//! `weldbow study`: run studies, finish stopped ones, join parts, draw charts.
//!
//! `output` keeps rows on disk safe against a kill, a full disk and another study's rows; `work` computes them;
//! `read_back` makes a table of them; `show` says what they say; `draw` draws; `merge` joins parts.

mod draw;
mod merge;
mod output;
mod read_back;
mod show;
mod work;

pub use draw::charts;
pub use show::{findings, percent};

use super::{BAD_INPUT, DONE, STOPPED, complain_on_stderr};
use crate::chart::check_wish;
use crate::form::{Complaint, Paper, paper_of_path};
use crate::input::{Form, Problem};
use crate::job::file::JobFile;
use crate::study::file::StudyFile;
use crate::study::{Study, Values, names, shard};
use std::io::{Error, Result, Write};
use std::ops::Range;
use std::path::{Path, PathBuf};

/// Arguments of `weldbow study`.
#[derive(Debug, clap::Args)]
#[command(args_conflicts_with_subcommands = true, subcommand_negates_reqs = true)]
pub struct StudyCommand {
    /// Study files
    #[arg(required_unless_present = "results", value_name = "STUDY")]
    studies: Vec<PathBuf>,
    /// Keep rows (CSV) and charts (SVG and PNG) in this folder
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
    /// Keep rows as JSON lines too
    #[arg(long, requires = "out")]
    json_lines: bool,
    /// Go on where a stopped run ended
    #[arg(long, requires = "out")]
    resume: bool,
    /// Compute only part I of N, as 2/8; `weldbow study merge` joins the parts
    #[arg(long, value_name = "I/N", value_parser = part, requires = "out")]
    shard: Option<(u64, u64)>,
    /// List every result that can be collected
    #[arg(long)]
    results: bool,
    #[command(subcommand)]
    then: Option<Then>,
}

#[derive(Debug, clap::Subcommand)]
enum Then {
    /// Join the parts of a study that were computed with --shard
    Merge(merge::Merge),
}

fn part(text: &str) -> std::result::Result<(u64, u64), String> {
    let wrong = || format!("`{text}` is no part; right would be 2/8: the second of eight");
    let (i, n) = text.split_once('/').ok_or_else(wrong)?;
    let (i, n) = (i.trim().parse().map_err(|_| wrong())?, n.trim().parse().map_err(|_| wrong())?);
    if (1..=n).contains(&i) { Ok((i, n)) } else { Err(wrong()) }
}

impl StudyCommand {
    /// Runs every study; a bad one is complained about and does not stop the others.
    ///
    /// # Errors
    /// If rows or charts cannot be written.
    pub fn run(&self, out: &mut dyn Write) -> Result<u8> {
        if let Some(Then::Merge(merge)) = &self.then {
            return merge.run(out);
        }
        if self.results {
            return names().iter().try_for_each(|name| writeln!(out, "{name}")).map(|()| DONE);
        }
        let mut status = DONE;
        for file in &self.studies {
            match read(file) {
                Ok(study) => status = status.max(self.one(file, &study, out)?),
                Err(complaint) => {
                    complain_on_stderr(&complaint)?;
                    status = status.max(BAD_INPUT);
                }
            }
        }
        Ok(status)
    }

    fn one(&self, file: &Path, study: &Study, out: &mut dyn Write) -> Result<u8> {
        show::opening(study, out)?;
        out.flush()?;
        let cases = self.cases(study);
        let name = stem(file);
        let Some(folder) = &self.out else {
            let table = work::in_memory(study, cases)?;
            return show::table(study, &table, out).map(|()| DONE);
        };
        let files = output::Names::new(folder, &name, self.shard);
        let kept = output::open(study, &files, &cases, self.json_lines, self.resume)?;
        let done = work::on_disk(study, cases, kept)?;
        show::rows_kept(&done, &files, out)?;
        if done.stopped {
            return Ok(STOPPED);
        }
        if self.shard.is_some() {
            writeln!(
                out,
                "  `weldbow study merge {} --out {}` joins all parts",
                file.display(),
                folder.display()
            )?;
            return Ok(DONE);
        }
        finish(study, &name, folder, &files, out)
    }

    fn cases(&self, study: &Study) -> Range<u64> {
        self.shard.map_or(0..study.count(), |(i, n)| shard(study.count(), i, n))
    }
}

/// Says what kept rows say and draws the charts.
fn finish(
    study: &Study,
    name: &str,
    folder: &Path,
    files: &output::Names,
    out: &mut dyn Write,
) -> Result<u8> {
    if study.is_sampled() || !study.charts.is_empty() || study.count() <= show::MOST_ROWS {
        let table = read_back::table(study, &files.csv())?;
        show::table(study, &table, out)?;
        let drawn = charts(study, &table, name, folder)?;
        if drawn > 0 {
            writeln!(out, "{drawn} charts (SVG and PNG) in {}", folder.display())?;
        }
    }
    Ok(DONE)
}

/// Name of a study's files.
fn stem(file: &Path) -> String {
    file.file_stem().map_or_else(|| "study".to_owned(), |stem| stem.to_string_lossy().into_owned())
}

/// Reads and checks a study file and the jobs it names.
fn read(file: &Path) -> std::result::Result<Study, Complaint> {
    let paper: Paper<StudyFile> = paper_of_path(file)?;
    let folder = file.parent().unwrap_or(Path::new("")).to_owned();
    let study = Study::new(&paper.shape, |name| job_file(&folder.join(name)));
    let study = study.map_err(|problems| paper.complaint(problems))?;
    let problems = wrong_charts(&study);
    if problems.is_empty() { Ok(study) } else { Err(paper.complaint(problems)) }
}

fn job_file(path: &Path) -> std::result::Result<JobFile, String> {
    let paper: Paper<JobFile> = paper_of_path(path).map_err(|complaint| wanted(&complaint))?;
    match crate::job::build(&paper.shape) {
        Ok(_) => Ok(paper.shape),
        Err(problems) => Err(wanted(&paper.complaint(problems))),
    }
}

/// The first mistake of a job, in one line.
fn wanted(complaint: &Complaint) -> String {
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

/// An error that names a file.
fn named(path: &Path, what: &str, error: &Error) -> Error {
    Error::new(error.kind(), format!("{}: {what}: {error}", path.display()))
}
