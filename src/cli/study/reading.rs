//! A study file with the jobs it names, read and checked.

use super::label::Proof;
use crate::chart::spec_fits;
use crate::input::{Form, Problem};
use crate::job::file::JobFile;
use crate::reading::{Diagnostics, InputFile, read_file};
use crate::study::Study;
use crate::study::file::StudyFile;
use std::cell::RefCell;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Name of a study's files.
pub(crate) fn stem(file: &Path) -> String {
    file.file_stem().map_or_else(|| "study".to_owned(), |stem| stem.to_string_lossy().into_owned())
}

/// Reads and checks a study file and the jobs it names; the files read, each with its hash.
pub(crate) fn read(file: &Path) -> Result<(Study, Vec<Proof>), Diagnostics> {
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

fn job_file(path: &Path) -> Result<JobFile, String> {
    let paper: InputFile<JobFile> = read_file(path).map_err(|complaint| wanted(&complaint))?;
    crate::job::check(&paper.shape).map_err(|problems| wanted(&paper.complaint(problems)))?;
    Ok(paper.shape)
}

/// The first mistake of a job, in one line.
fn wanted(complaint: &Diagnostics) -> String {
    let text = complaint.to_string();
    let first = text.lines().next().unwrap_or_default();
    format!("{} that can be predicted; {first}", JobFile::WHAT)
}

/// Charts that cannot be drawn.
pub(crate) fn wrong_charts(study: &Study) -> Vec<Problem> {
    let columns = study.columns();
    let wrong = |(i, spec)| {
        let fault = spec_fits(spec, &columns, |name| study.values_of(name)).err()?;
        let path = format!("chart[{i}].{}", fault.key());
        Some(Problem::new(path, "a chart that cannot be drawn", fault.to_string()))
    };
    study.charts.iter().enumerate().filter_map(wrong).collect()
}
