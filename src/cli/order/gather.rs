//! From lists, job files and folders to the lines of an order, and a complaint about everything that is wrong.

use crate::cli::files::free;
use crate::cli::show::outside_problem;
use crate::input::{Problem, text};
use crate::job::check;
use crate::job::file::JobFile;
use crate::order::Line;
use crate::order::list::{Entry, read};
use crate::reading::{Diagnostics, InputFile, TextKind, read_file, text_of_path};
use rayon::prelude::*;
use std::collections::BTreeSet;
use std::fs::read_dir;
use std::path::{Path, PathBuf};

/// A list of marks; its size is a choice: ten thousand lines fit.
const LIST: TextKind = TextKind {
    what: "a list of marks, with the columns mark, job, quantity",
    ending: ".csv",
    start: "saved as CSV in UTF-8",
    largest_bytes: 4_000_000,
};
/// What may be given.
const WANTED: &str = "a list ending in `.csv`, a job file ending in `.toml`, or a folder of job files";

/// Lines that can be worked out, and what is wrong with the rest.
#[derive(Debug, Default)]
pub(super) struct Gathered {
    /// Lines in the order given.
    pub lines: Vec<Line>,
    /// One for each file that is wrong.
    pub complaints: Vec<Diagnostics>,
    marks: BTreeSet<String>,
    files: BTreeSet<PathBuf>,
}

/// Reads everything that was given.
pub(crate) fn gather(inputs: &[PathBuf]) -> Gathered {
    let mut all = Gathered::default();
    for input in inputs {
        let ending = input.extension().map(|e| e.to_ascii_lowercase());
        let read = if input.is_dir() {
            jobs_in(input).map(|jobs| all.jobs(&jobs))
        } else if ending.as_ref().is_some_and(|e| e == "csv") {
            all.list(input)
        } else if ending.is_some_and(|e| e == "toml") {
            all.jobs(std::slice::from_ref(input));
            Ok(())
        } else {
            let found = if input.exists() { "a file of another kind" } else { "no such file" };
            Err(wrong(input, Problem::new("", found, WANTED)))
        };
        all.complaints.extend(read.err());
    }
    all
}

fn wrong(path: &Path, problem: Problem) -> Diagnostics {
    Diagnostics::whole(&path.display().to_string(), problem)
}

/// The job files of a folder, by name.
fn jobs_in(folder: &Path) -> Result<Vec<PathBuf>, Diagnostics> {
    let entries = read_dir(folder).map_err(|error| {
        let found = format!("a folder that cannot be read ({error})");
        wrong(folder, Problem::new("", found, WANTED))
    })?;
    let paths = entries.filter_map(|entry| entry.ok().map(|e| e.path()));
    let mut jobs: Vec<PathBuf> =
        paths.filter(|p| p.is_file() && p.extension().is_some_and(|e| e == "toml")).collect();
    jobs.sort();
    if jobs.is_empty() {
        let wanted = "a folder with job files, each ending in `.toml`";
        return Err(wrong(folder, Problem::new("", "a folder without job files", wanted)));
    }
    Ok(jobs)
}

impl Gathered {
    /// Job files, one piece each.
    fn jobs(&mut self, paths: &[PathBuf]) {
        for (path, read) in paths.iter().zip(paths.par_iter().map(|p| job(p)).collect::<Vec<_>>()) {
            let place = path.canonicalize().unwrap_or_else(|_| path.clone());
            if !self.files.insert(place) {
                let wanted = "each job once; a list gives the number of pieces";
                let problem = Problem::new("", "the same job again", wanted).example("R2,rafter.toml,24");
                self.complaints.push(wrong(path, problem));
                continue;
            }
            match read {
                Ok(file) => {
                    let mark = self.free_mark(path);
                    let path = text::path(path);
                    self.lines.push(Line { mark, path, file, quantity: 1, week: None, family: None });
                }
                Err(complaint) => self.complaints.push(complaint),
            }
        }
    }

    /// The name of a job file; with a number where another file has it too.
    fn free_mark(&mut self, path: &Path) -> String {
        let stem = path.file_stem().unwrap_or(path.as_os_str()).to_string_lossy();
        let mark = free(&text::short(&stem), |mark| self.marks.contains(mark));
        self.marks.insert(mark.clone());
        mark
    }

    fn list(&mut self, path: &Path) -> Result<(), Diagnostics> {
        let text = text_of_path(path, LIST)?;
        let complaint = |problems| Diagnostics::placed(&path.display().to_string(), &text, problems);
        let entries = read(&text).map_err(complaint)?;
        let folder = path.parent().unwrap_or(Path::new(""));
        let mut problems = Vec::new();
        for entry in &entries {
            if !folder.join(&entry.job).is_file() {
                let place = folder.join(&entry.job);
                let found = match (place.is_dir(), place.exists()) {
                    (true, _) => "is a folder",
                    (_, true) => "is no ordinary file",
                    (_, false) => "is not there",
                };
                let found = format!("`{}`, which {found}", entry.job);
                let wanted = "the path of a job file, from where the list lies";
                let problem = Problem::new("job", found, wanted).example("jobs/rafter.toml");
                problems.push((problem, entry.job_range.clone()));
            } else if self.marks.contains(&entry.mark) {
                let found = format!("`{}` again, as in what was given before", entry.mark);
                let problem = Problem::new("mark", found, "each mark once").example("R2");
                problems.push((problem, None));
            }
        }
        if !problems.is_empty() {
            return Err(complaint(problems));
        }
        self.marks.extend(entries.iter().map(|e| e.mark.clone()));
        self.entries(folder, entries);
        Ok(())
    }

    /// Lines of a list; a job that several lines name is read, and complained about, once.
    fn entries(&mut self, folder: &Path, entries: Vec<Entry>) {
        let paths: BTreeSet<PathBuf> = entries.iter().map(|e| folder.join(&e.job)).collect();
        let paths: Vec<PathBuf> = paths.into_iter().collect();
        let read: Vec<Result<JobFile, Diagnostics>> = paths.par_iter().map(|p| job(p)).collect();
        for entry in entries {
            let path = folder.join(&entry.job);
            let found = paths.binary_search(&path).ok().and_then(|i| read.get(i));
            if let Some(Ok(file)) = found {
                self.lines.push(Line {
                    mark: entry.mark,
                    path: text::path(&path),
                    file: file.clone(),
                    quantity: entry.quantity,
                    week: entry.week,
                    family: entry.family,
                });
            }
        }
        self.complaints.extend(read.into_iter().filter_map(Result::err));
    }
}

/// A job that builds and that the model covers.
fn job(path: &Path) -> Result<JobFile, Diagnostics> {
    let paper: InputFile<JobFile> = read_file(path)?;
    let job = check(&paper.shape).map_err(|problems| paper.complaint(problems))?;
    match outside_problem(&job) {
        Some(problem) => Err(paper.complaint(vec![problem])),
        None => Ok(paper.shape),
    }
}
