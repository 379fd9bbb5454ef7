//! From job files and lists to members with their plates.

use crate::cli::files::free;
use crate::cut::{Mark, Plates, Stations, stations};
use crate::input::{Problem, text};
use crate::job::check;
use crate::job::file::JobFile;
use crate::prediction::{Job, outside, predict};
use crate::reading::{Diagnostics, InputFile, TextKind, read_file};
use crate::units::System;
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use weldbow_files::member_list::{Entry, read};
use weldbow_files::sheet::{Sheet, read_path};

/// A list of members; its size is a choice: ten thousand rows fit.
const LIST: TextKind = TextKind {
    what: "a list of members, with the columns mark and job",
    ending: ".csv",
    start: "saved as CSV in UTF-8 or as `.xlsx`",
    largest_bytes: 10_000_000,
};

/// Members that can be cut, and what is wrong with the rest.
#[derive(Default)]
pub(super) struct Gathered {
    /// Members in the order given.
    pub marks: Vec<Mark>,
    /// One for each file that is wrong.
    pub complaints: Vec<Diagnostics>,
    /// Marks whose prediction is no number to cut by, and why.
    pub outside: Vec<(String, String)>,
    /// Units asked for, or those of the first job.
    pub system: Option<System>,
}

impl Gathered {
    /// Whether anything is.
    pub(crate) fn is_wrong(&self) -> bool {
        !self.complaints.is_empty() || !self.outside.is_empty() || self.marks.is_empty()
    }
}

/// A member of a list, before its plates are worked out.
pub(crate) struct Listed {
    /// Mark.
    pub mark: String,
    job_file: String,
    quantity: u32,
    /// Its job, with what the list says differs.
    pub job: Job,
}

/// Reads everything that was given and works the plates out.
pub(crate) fn gather(inputs: &[PathBuf], wanted: Stations, units: Option<System>) -> Gathered {
    let (mut members, mut complaints) = (Vec::new(), Vec::new());
    let mut taken = BTreeSet::new();
    for input in inputs {
        let ending = input.extension().map(|e| e.to_ascii_lowercase());
        let found =
            if ending.is_some_and(|e| e == "csv" || e == "xlsx") { list(input) } else { single(input) };
        match found {
            Ok(found) => {
                for mut member in found {
                    member.mark = free(&member.mark, |mark| taken.contains(mark));
                    taken.insert(member.mark.clone());
                    members.push(member);
                }
            }
            Err(all) => complaints.extend(all),
        }
    }
    let system = units.or_else(|| members.first().map(|m| m.job.units));
    let in_units = system.unwrap_or(System::Si);
    let worked: Vec<_> = members.par_iter().map(|member| worked(member, wanted, in_units)).collect();
    let mut all = Gathered { complaints, system, ..Gathered::default() };
    for (member, outcome) in members.iter().zip(worked) {
        match outcome {
            Ok(mark) => all.marks.push(mark),
            Err(said) => all.outside.push((member.mark.clone(), said)),
        }
    }
    all
}

fn worked(member: &Listed, wanted: Stations, system: System) -> Result<Mark, String> {
    let prediction = predict(&member.job);
    if let Some(none) = outside(&prediction).first() {
        return Err(format!("nothing to cut by: {}", none.reason.in_units(system)));
    }
    let plates = Plates::of(&member.job, &prediction);
    Ok(Mark {
        stations: stations(&plates.web, wanted, system),
        mark: member.mark.clone(),
        job: member.job_file.clone(),
        quantity: member.quantity,
        plates,
    })
}

/// A job file: one member, its mark the file's name.
fn single(path: &Path) -> Result<Vec<Listed>, Vec<Diagnostics>> {
    let paper: InputFile<JobFile> = read_file(path).map_err(|c| vec![c])?;
    let job = check(&paper.shape).map_err(|problems| vec![paper.complaint(problems)])?;
    let stem = path.file_stem().unwrap_or(path.as_os_str()).to_string_lossy();
    Ok(vec![Listed { mark: text::short(&stem).into_owned(), job_file: text::path(path), quantity: 1, job }])
}

/// A list: a member a row.
///
/// # Errors
/// Everything wrong with it and with the jobs that it names.
pub(crate) fn list(path: &Path) -> Result<Vec<Listed>, Vec<Diagnostics>> {
    let sheet = read_path(path, LIST).map_err(|c| vec![c])?;
    let entries = read(&sheet).map_err(|c| vec![c])?;
    let folder = path.parent().unwrap_or(Path::new(""));
    let jobs = jobs(&sheet, folder, &entries)?;
    let member = |entry: &Entry| {
        let base = jobs.get(&entry.job)?;
        Some(entry.job_of(&sheet, base).map(|job| Listed {
            mark: entry.mark.clone(),
            job_file: text::path(&folder.join(&entry.job)),
            quantity: entry.quantity,
            job,
        }))
    };
    all_good(entries.par_iter().filter_map(member).collect::<Vec<_>>())
}

/// The marks of a list with their job files, which are not read.
///
/// # Errors
/// Everything wrong with the list.
pub(crate) fn jobs_of(path: &Path) -> Result<Vec<(String, PathBuf)>, Diagnostics> {
    let folder = path.parent().unwrap_or(Path::new(""));
    let entries = read(&read_path(path, LIST)?)?;
    Ok(entries.into_iter().map(|entry| (entry.mark, folder.join(entry.job))).collect())
}

/// All of them, or everything wrong with any.
fn all_good<T, All: FromIterator<T>>(
    read: impl IntoIterator<Item = Result<T, Diagnostics>>,
) -> Result<All, Vec<Diagnostics>> {
    let (good, bad): (Vec<_>, Vec<_>) = read.into_iter().partition(Result::is_ok);
    if bad.is_empty() {
        Ok(good.into_iter().filter_map(Result::ok).collect())
    } else {
        Err(bad.into_iter().filter_map(Result::err).collect())
    }
}

/// Every job that a list names, read once.
fn jobs(
    sheet: &Sheet,
    folder: &Path,
    entries: &[Entry],
) -> Result<BTreeMap<String, JobFile>, Vec<Diagnostics>> {
    let mut problems = Vec::new();
    let mut names: BTreeSet<&str> = BTreeSet::new();
    for entry in entries {
        if folder.join(&entry.job).is_file() {
            names.insert(&entry.job);
        } else {
            let wanted = "the path of a job file, from where the list lies";
            let found = format!("`{}`, which is no file", entry.job);
            problems
                .push((Problem::new("job", found, wanted).example("jobs/rafter.toml"), Some(entry.job_at)));
        }
    }
    if !problems.is_empty() {
        return Err(vec![sheet.complaint(problems)]);
    }
    let job = |name: &str| Ok((name.to_owned(), read_file::<JobFile>(&folder.join(name))?.shape));
    all_good(names.into_iter().map(job))
}
