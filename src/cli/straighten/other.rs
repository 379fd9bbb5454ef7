//! Whether a measured file is that of the member it is judged as: a sheet must not go out for another one.

use super::gather::Given;
use crate::cli::cut;
use crate::cli::whose::{Label, Whose};
use crate::input::{Problem, near, text};
use crate::reading::Diagnostics;
use std::path::{Path, PathBuf};

/// Holds the job that the front of the readings names (`# job:`, or `# mark:` with `# marks:`) against the one of the command line.
///
/// # Errors
/// If they are two, or if the list of marks does not say.
pub(super) fn member(given: &Given, job: &Path) -> Result<(), Diagnostics> {
    let label = |key: &str| given.front.label.get(key).map(String::as_str);
    let (named, mark, marks) = (label("job"), label("mark"), label("marks"));
    let key = if named.is_some() { "job" } else { "mark" };
    // what comes through a pipe has no name to compare
    if (named.is_none() && mark.is_none()) || !job.is_file() {
        return Ok(());
    }
    let complaint = |key: &str, problem: Problem| {
        let in_file = given.measured.as_ref().and_then(|(_, m)| m.complaint_at(key, problem.clone()));
        in_file.unwrap_or_else(|| Diagnostics::whole("--note", problem))
    };
    let stands_in_file = given.measured.as_ref().filter(|(_, m)| m.gives(key));
    let folder = stands_in_file.and_then(|(path, _)| path.parent()).unwrap_or(Path::new(""));
    let written = named.or(mark).unwrap_or_default();
    let whose = Whose::of(&Label { job: named.unwrap_or_default(), mark: written, marks }, folder);
    let measured = match whose {
        Ok(Whose::Job(path)) => path,
        Ok(Whose::Mark(list, mark)) => of_mark(&list, &mark).map_err(|fault| match fault {
            Fault::List(complaint) => complaint,
            Fault::Mark(problem) => complaint("mark", problem),
        })?,
        // a file that lies elsewhere by now still has its name
        Err(_) if named.is_some() => folder.join(written),
        Err((problem, _)) if marks.is_some() => return Err(complaint("marks", problem)),
        // a mark by itself says nothing of the job
        Err(_) => return Ok(()),
    };
    if same(&measured, job) {
        return Ok(());
    }
    let here = std::env::current_dir().and_then(|here| here.canonicalize()).unwrap_or_default();
    let (own, asked) = (text::path(measured.strip_prefix(&here).unwrap_or(&measured)), text::path(job));
    let found = match named {
        Some(_) => format!("`{}`, where the readings are judged as those of {asked}", text::short(written)),
        None => {
            format!(
                "`{}`, a mark of {own}, where the readings are judged as those of {asked}",
                text::short(written)
            )
        }
    };
    let wanted = format!(
        "readings of the member that is judged: give that job (`weldbow straighten {own} …`), or mend this line if the piece is one of {asked}"
    );
    Err(complaint(key, Problem::new(key, found, wanted)))
}

/// Whether two paths are one file; of a file that is not there only the name is compared.
fn same(measured: &Path, job: &Path) -> bool {
    match (measured.canonicalize(), job.canonicalize()) {
        (Ok(measured), Ok(job)) => measured == job,
        _ => measured.file_name() == job.file_name(),
    }
}

/// What keeps a list from saying the job of a mark.
enum Fault {
    List(Diagnostics),
    Mark(Problem),
}

/// The job file of a mark.
fn of_mark(list: &Path, mark: &str) -> Result<PathBuf, Fault> {
    let mut jobs = cut::jobs_of(list).map_err(Fault::List)?;
    let names: Vec<&str> = jobs.iter().map(|(mark, _)| mark.as_str()).collect();
    let Some(at) = names.iter().position(|name| *name == mark) else {
        let list = list.file_name().unwrap_or_default().to_string_lossy();
        let found = format!("`{}`, which is not in {}", text::short(mark), text::short(&list));
        return Err(Fault::Mark(Problem::new("mark", found, near::wanted(mark, &names))));
    };
    Ok(jobs.swap_remove(at).1)
}
