//! Which member a piece is of: a job file that a line names, or a mark of a list.

use crate::input::{Problem, near, text};
use std::path::{Path, PathBuf};

/// What says which member a piece is.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Whose {
    /// A job file.
    Job(PathBuf),
    /// A mark of a list.
    Mark(PathBuf, String),
}

/// What a person wrote of it; a job goes before a mark.
pub(super) struct Label<'a> {
    /// Job file, or nothing.
    pub job: &'a str,
    /// Mark.
    pub mark: &'a str,
    /// List of marks.
    pub marks: Option<&'a str>,
}

impl Whose {
    /// The member that a label in a file of that folder names.
    ///
    /// # Errors
    /// What is wrong with it, and the key at fault.
    pub(super) fn of(label: &Label<'_>, folder: &Path) -> Result<Self, (Problem, &'static str)> {
        if !label.job.is_empty() {
            return there(folder, label.job).map(Self::Job).map_err(|what| {
                let wanted = "the path of a job file, from where the record lies";
                let found = format!("`{}`, which {what}", text::short(label.job));
                (Problem::new("job", found, wanted).example("../jobs/rafter.toml"), "job")
            });
        }
        match label.marks {
            Some(list) => {
                there(folder, list).map(|list| Self::Mark(list, label.mark.to_owned())).map_err(|what| {
                    let wanted = "the path of a list of marks and their jobs, from where the record lies";
                    let found = format!("`{}`, which {what}", text::short(list));
                    (Problem::new("marks", found, wanted).example("# marks: order.csv"), "mark")
                })
            }
            None => there(folder, &format!("{}.toml", label.mark)).map(Self::Job).map_err(|what| {
                let wanted = "a mark whose job file of that name lies beside the record, or a line that names the list of marks";
                let found = format!("`{0}`, whose job file {0}.toml {what}", label.mark);
                (Problem::new("mark", found, wanted).example("# marks: order.csv"), "mark")
            }),
        }
    }
}

/// A file that a line names, in one spelling.
/// What is wrong with a mark that a list does not have.
pub(super) fn not_listed(mark: &str, list: &Path, names: &[&str]) -> Problem {
    let list = list.file_name().unwrap_or_default().to_string_lossy();
    let found = format!("`{}`, which is not in {}", text::short(mark), text::short(&list));
    Problem::new("mark", found, near::wanted(mark, names))
}

fn there(folder: &Path, name: &str) -> Result<PathBuf, &'static str> {
    let path = folder.join(name);
    if path.is_file() {
        Ok(path.canonicalize().unwrap_or(path))
    } else {
        Err(if path.is_dir() { "is a folder" } else { "is not there" })
    }
}
