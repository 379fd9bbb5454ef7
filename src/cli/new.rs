//! `weldbow new`: a commented job or study to start from.

use crate::job::{STARTER, STARTER_US};
use crate::study;
use std::fs::OpenOptions;
use std::io::{Error, ErrorKind, Result, Write};
use std::path::PathBuf;

/// Write a commented job file, or study file, to start from
#[derive(Debug, clap::Args)]
pub struct New {
    /// Where to write it (job.toml or study.toml if left out); an existing file is never overwritten
    file: Option<PathBuf>,
    /// A study of a job instead of a job
    #[arg(long, conflicts_with = "us")]
    study: bool,
    /// In feet, inches and ksi, with American tolerances
    #[arg(long)]
    us: bool,
}

impl New {
    /// Writes the starter and says so on `out`.
    ///
    /// # Errors
    /// If the file exists already or cannot be written; the message names it and says what to do.
    pub fn run(&self, out: &mut dyn Write) -> Result<()> {
        let usual = if self.study { "study.toml" } else { "job.toml" };
        let path = self.file.clone().unwrap_or_else(|| PathBuf::from(usual));
        let name = path.display();
        let mut file = OpenOptions::new().write(true).create_new(true).open(&path).map_err(|error| {
            let text = match error.kind() {
                ErrorKind::AlreadyExists => {
                    format!("{name} exists already; give another name, as `weldbow new rafter.toml`")
                }
                ErrorKind::NotFound => format!("{name} cannot be written: its folder does not exist"),
                _ => format!("{name} cannot be written: {error}"),
            };
            Error::new(error.kind(), text)
        })?;
        let (text, then) = match (self.study, self.us) {
            (true, _) => (study::STARTER, "study"),
            (false, true) => (STARTER_US, "predict"),
            (false, false) => (STARTER, "predict"),
        };
        file.write_all(text.as_bytes())?;
        writeln!(out, "{name} written; look at it, change it, then: weldbow {then} {name}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::read_path;
    use std::fs::{read_to_string, write};

    #[test]
    fn a_new_job_reads_in_both_systems_of_units() {
        let folder = tempfile::tempdir().unwrap();
        for us in [false, true] {
            let file = folder.path().join(format!("{us}.toml"));
            New { file: Some(file.clone()), us, study: false }.run(&mut Vec::new()).unwrap();
            let job = read_path(&file).unwrap_or_else(|complaint| panic!("{complaint}"));
            assert_eq!(job.notes, [], "a starter has nothing to remark");
        }
    }

    #[test]
    fn an_existing_file_is_left_as_it_is() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("mine.toml");
        write(&file, "mine").unwrap();
        let error =
            New { file: Some(file.clone()), us: false, study: false }.run(&mut Vec::new()).unwrap_err();
        assert!(error.to_string().contains("exists already"), "{error}");
        assert_eq!(read_to_string(&file).unwrap(), "mine");
    }
}
