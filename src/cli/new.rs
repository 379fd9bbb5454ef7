//! `weldbow new`: a commented job, study or shop to start from.

use super::files;
use super::kind::{Kind, KindArgs};
use crate::input::text::path as path_text;
use crate::job::{STARTER, STARTER_US};
use crate::{shop, study};
use std::io::{Error, ErrorKind, Result, Write};
use std::path::PathBuf;

/// Write a commented job file, or study or shop file, to start from
#[derive(Debug, clap::Args)]
pub struct New {
    /// Where to write it (job.toml, study.toml or shop.toml if left out); an existing file is never overwritten
    file: Option<PathBuf>,
    #[command(flatten)]
    kind: KindArgs,
    /// A job in feet, inches and ksi, with American tolerances
    #[arg(long, conflicts_with = "KindArgs")]
    us: bool,
}

impl New {
    /// Writes the starter and says so on `out`.
    ///
    /// # Errors
    /// If the file exists already or cannot be written; the message names it and says what to do.
    pub fn run(&self, out: &mut dyn Write) -> Result<()> {
        let (usual, text, then) = match (self.kind.kind(), self.us) {
            (Kind::Study, _) => ("study.toml", study::STARTER, "study FILE"),
            (Kind::Shop, _) => ("shop.toml", shop::STARTER, "straighten job.toml --shop FILE"),
            (Kind::Job, true) => ("job.toml", STARTER_US, "predict FILE"),
            (Kind::Job, false) => ("job.toml", STARTER, "predict FILE"),
        };
        let path = self.file.clone().unwrap_or_else(|| PathBuf::from(usual));
        let name = path_text(&path);
        files::create(&path, text.as_bytes()).map_err(|error| match error.kind() {
            ErrorKind::AlreadyExists => Error::new(
                error.kind(),
                format!("{name} exists already; give another name, as `weldbow new rafter.toml`"),
            ),
            ErrorKind::NotFound => {
                Error::new(error.kind(), format!("{name} cannot be written: its folder does not exist"))
            }
            _ => error,
        })?;
        let then = then.replace("FILE", &name);
        writeln!(out, "{name} written; look at it, change it, then: weldbow {then}")
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
            New { file: Some(file.clone()), us, kind: Kind::Job.into() }.run(&mut Vec::new()).unwrap();
            let job = read_path(&file).unwrap_or_else(|complaint| panic!("{complaint}"));
            assert_eq!(job.notes, [], "a starter has nothing to remark");
        }
    }

    #[test]
    fn an_existing_file_is_left_as_it_is() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("mine.toml");
        write(&file, "mine").unwrap();
        let new = New { file: Some(file.clone()), us: false, kind: Kind::Job.into() };
        let error = new.run(&mut Vec::new()).unwrap_err();
        assert!(error.to_string().contains("exists already"), "{error}");
        assert_eq!(read_to_string(&file).unwrap(), "mine");
    }
}
