//! From lists, job files and folders to the lines of an order, and a complaint about everything that is wrong.

use crate::form::{Complaint, Paper, paper_of_path};
use crate::input::Problem;
use crate::job::build;
use crate::job::file::JobFile;
use crate::order::Line;
use crate::order::list::{Entry, read};
use rayon::prelude::*;
use std::collections::BTreeSet;
use std::fs::{File, read_dir};
use std::io::{ErrorKind, Read};
use std::path::{Path, PathBuf};

/// Largest list taken, bytes (a choice: ten thousand lines fit).
const LARGEST_BYTES: u64 = 4_000_000;
/// What may be given.
const WANTED: &str = "a list ending in `.csv`, a job file ending in `.toml`, or a folder of job files";

/// Lines that can be worked out, and what is wrong with the rest.
#[derive(Debug, Default)]
pub struct Gathered {
    /// Lines in the order given.
    pub lines: Vec<Line>,
    /// One for each file that is wrong.
    pub complaints: Vec<Complaint>,
    marks: BTreeSet<String>,
    files: BTreeSet<PathBuf>,
}

/// Reads everything that was given.
pub fn gather(inputs: &[PathBuf]) -> Gathered {
    let mut all = Gathered::default();
    for input in inputs {
        let ending = input.extension().map(|e| e.to_ascii_lowercase());
        if input.is_dir() {
            all.folder(input);
        } else if ending.as_ref().is_some_and(|e| e == "csv") {
            all.list(input);
        } else if ending.is_some_and(|e| e == "toml") {
            all.jobs(std::slice::from_ref(input));
        } else {
            let found = if input.exists() { "a file of another kind" } else { "no such file" };
            all.wrong(input, Problem::new("", found, WANTED));
        }
    }
    all
}

impl Gathered {
    fn wrong(&mut self, path: &Path, problem: Problem) {
        self.complaints.push(Complaint::whole(&path.display().to_string(), problem));
    }

    fn folder(&mut self, folder: &Path) {
        let entries = match read_dir(folder) {
            Ok(entries) => entries,
            Err(error) => {
                let found = format!("a folder that cannot be read ({error})");
                return self.wrong(folder, Problem::new("", found, WANTED));
            }
        };
        let paths = entries.filter_map(|entry| entry.ok().map(|e| e.path()));
        let mut jobs: Vec<PathBuf> =
            paths.filter(|p| p.is_file() && p.extension().is_some_and(|e| e == "toml")).collect();
        jobs.sort();
        if jobs.is_empty() {
            let wanted = "a folder with job files, each ending in `.toml`";
            return self.wrong(folder, Problem::new("", "a folder without job files", wanted));
        }
        self.jobs(&jobs);
    }

    /// Job files, one piece each.
    fn jobs(&mut self, paths: &[PathBuf]) {
        for (path, read) in paths.iter().zip(paths.par_iter().map(|p| job(p)).collect::<Vec<_>>()) {
            let place = path.canonicalize().unwrap_or_else(|_| path.clone());
            if !self.files.insert(place) {
                let wanted = "each job once; a list gives the number of pieces";
                self.wrong(path, Problem::new("", "the same job again", wanted).example("R2,rafter.toml,24"));
                continue;
            }
            match read {
                Ok(file) => {
                    let mark = self.free_mark(path);
                    let path = path.display().to_string();
                    self.lines.push(Line { mark, path, file, quantity: 1, week: None, family: None });
                }
                Err(complaint) => self.complaints.push(complaint),
            }
        }
    }

    /// The name of a job file; with a number where another file has it too.
    fn free_mark(&mut self, path: &Path) -> String {
        let stem = path.file_stem().unwrap_or(path.as_os_str()).to_string_lossy().into_owned();
        let numbered = (2..).map(|n| format!("{stem}-{n}"));
        let mark = std::iter::once(stem.clone()).chain(numbered).find(|m| !self.marks.contains(m));
        let mark = mark.unwrap_or(stem);
        self.marks.insert(mark.clone());
        mark
    }

    fn list(&mut self, path: &Path) {
        let name = path.display().to_string();
        let text = match text_of(path) {
            Ok(text) => text,
            Err(problem) => return self.wrong(path, problem),
        };
        let entries = match read(&text) {
            Ok(entries) => entries,
            Err(problems) => {
                self.complaints.push(Complaint::placed(&name, &text, problems));
                return;
            }
        };
        let folder = path.parent().unwrap_or(Path::new(""));
        let mut problems = Vec::new();
        for entry in &entries {
            if !folder.join(&entry.job).is_file() {
                let found = if folder.join(&entry.job).is_dir() { "is a folder" } else { "is not there" };
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
            self.complaints.push(Complaint::placed(&name, &text, problems));
            return;
        }
        self.marks.extend(entries.iter().map(|e| e.mark.clone()));
        self.entries(folder, entries);
    }

    /// Lines of a list; a job that several lines name is read, and complained about, once.
    fn entries(&mut self, folder: &Path, entries: Vec<Entry>) {
        let paths: BTreeSet<PathBuf> = entries.iter().map(|e| folder.join(&e.job)).collect();
        let paths: Vec<PathBuf> = paths.into_iter().collect();
        let read: Vec<Result<JobFile, Complaint>> = paths.par_iter().map(|p| job(p)).collect();
        for entry in entries {
            let path = folder.join(&entry.job);
            let found = paths.binary_search(&path).ok().and_then(|i| read.get(i));
            if let Some(Ok(file)) = found {
                self.lines.push(Line {
                    mark: entry.mark,
                    path: path.display().to_string(),
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

/// A job that builds.
fn job(path: &Path) -> Result<JobFile, Complaint> {
    let paper: Paper<JobFile> = paper_of_path(path)?;
    match build(&paper.shape) {
        Ok(_) => Ok(paper.shape),
        Err(problems) => Err(paper.complaint(problems)),
    }
}

fn text_of(path: &Path) -> Result<String, Problem> {
    let unreadable = |error: std::io::Error| {
        let found = match error.kind() {
            ErrorKind::NotFound => "no such file".to_owned(),
            _ => format!("a file that cannot be read ({error})"),
        };
        Problem::new("", found, "a list of marks, with the columns mark, job, quantity")
    };
    let mut bytes = Vec::new();
    let file = File::open(path).map_err(unreadable)?;
    file.take(LARGEST_BYTES + 1).read_to_end(&mut bytes).map_err(unreadable)?;
    if bytes.len() as u64 > LARGEST_BYTES {
        return Err(Problem::new("", "a list of more than 4 MB", "a list of at most 4 MB"));
    }
    String::from_utf8(bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        let found = format!("a byte at offset {at} that is not UTF-8 text");
        Problem::new("", found, "a list saved as CSV in UTF-8")
    })
}
