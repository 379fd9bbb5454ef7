//! `weldbow new`: a commented job, study or shop to start from.

use super::files;
use super::kind::{Kind, KindArgs};
use crate::input::text::path as path_text;
use crate::job::{STARTER, STARTER_US};
use crate::units::in_round_us;
use crate::{shop, study};
use std::io::{Error, ErrorKind, Result, Write};
use std::path::{Path, PathBuf};

/// Write a commented job file, or study or shop file, to start from
#[derive(Debug, clap::Args)]
pub(super) struct New {
    /// Where to write it (job.toml, study.toml or shop.toml if left out); an existing file is never overwritten
    file: Option<PathBuf>,
    #[command(flatten)]
    kind: KindArgs,
    /// In feet, inches and ksi; a job with American tolerances
    #[arg(long)]
    us: bool,
}

impl New {
    /// Writes the starter and says so on `out`.
    ///
    /// # Errors
    /// If the file exists already or cannot be written; the message names it and says what to do.
    pub(super) fn run(&self, out: &mut dyn Write) -> Result<()> {
        let kind = self.kind.kind();
        let (usual, then) = match kind {
            Kind::Study => ("study.toml", "study FILE"),
            Kind::Shop => ("shop.toml", "straighten job.toml --shop FILE"),
            Kind::Job => ("job.toml", "predict FILE"),
        };
        let path = self.file.clone().unwrap_or_else(|| PathBuf::from(usual));
        let name = path_text(&path);
        let job = if self.us { STARTER_US } else { STARTER };
        let mut written = name.clone();
        match kind {
            Kind::Job => create(&path, job)?,
            Kind::Shop => create(&path, &self.in_units(shop::STARTER))?,
            Kind::Study => {
                let (beside, base) = beside(&path);
                // neither is written if one cannot be
                if beside.exists() {
                    return Err(exists(&path_text(&beside)));
                }
                create(&path, &self.in_units(study::STARTER).replace("job.toml", &base))?;
                create(&beside, &by_legs(job))?;
                written += &format!(" and its job {}", path_text(&beside));
            }
        }
        let then = then.replace("FILE", &name);
        writeln!(out, "{written} written; look at it, change it, then: weldbow {then}")
    }

    /// A starter in the units asked for.
    fn in_units(&self, text: &str) -> String {
        // the line that shows how sizes are written shows both systems
        let line =
            |line: &str| if line.starts_with("# Every size") { line.to_owned() } else { in_round_us(line) };
        if self.us { text.split_inclusive('\n').map(line).collect() } else { text.to_owned() }
    }
}

/// The job beside a study, and its name as the study gives it.
fn beside(study: &Path) -> (PathBuf, String) {
    let stem =
        study.file_stem().map_or_else(|| "study".to_owned(), |stem| stem.to_string_lossy().into_owned());
    let base = format!("{stem}-job.toml");
    (study.with_file_name(&base), base)
}

/// A starter job whose passes name no procedure, so that their heat follows the leg.
fn by_legs(job: &str) -> String {
    job.lines().filter(|line| !line.starts_with("procedure = ")).flat_map(|line| [line, "\n"]).collect()
}

fn create(path: &Path, text: &str) -> Result<()> {
    let name = path_text(path);
    files::create(path, text.as_bytes()).map_err(|error| match error.kind() {
        ErrorKind::AlreadyExists => exists(&name),
        ErrorKind::NotFound => {
            Error::new(error.kind(), format!("{name} cannot be written: its folder does not exist"))
        }
        _ => error,
    })
}

fn exists(name: &str) -> Error {
    let said = format!("{name} exists already; give another name, as `weldbow new rafter.toml`");
    Error::new(ErrorKind::AlreadyExists, said)
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
    fn a_shop_in_american_units_is_a_shop_without_a_metric_size() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("shop.toml");
        New { file: Some(file.clone()), us: true, kind: Kind::Shop.into() }.run(&mut Vec::new()).unwrap();
        let text = read_to_string(&file).unwrap();
        shop::read_text("shop.toml", &text).unwrap_or_else(|complaint| panic!("{complaint}\n{text}"));
        for metric in [" mm", " m\"", " kN", " m/min", "°C"] {
            let line =
                text.lines().filter(|line| !line.starts_with("# Every")).find(|line| line.contains(metric));
            assert_eq!(line, None, "{metric}");
        }
    }

    #[test]
    fn a_study_comes_with_a_job_and_teaches_what_it_says() {
        use crate::cli::study::in_memory;
        for us in [false, true] {
            let folder = tempfile::tempdir().unwrap();
            let file = folder.path().join("first.toml");
            New { file: Some(file.clone()), us, kind: Kind::Study.into() }.run(&mut Vec::new()).unwrap();
            let study = crate::cli::study::read(&file).unwrap_or_else(|complaint| panic!("{complaint}")).0;
            let (table, _) = in_memory(&study, 0..study.count());
            let column = |name: &str| table.column(name).and_then(|c| c.numbers()).unwrap().to_vec();
            // four legs, each with four thicknesses of the inner flange
            for all in [column("shortening_mm"), column("sweep.max_mm")] {
                let size = |leg: usize, plate: usize| all[4 * leg + plate].abs();
                for leg in 0..3 {
                    assert!(size(leg + 1, 0) > 1.15 * size(leg, 0), "a larger leg shrinks more: {all:?}");
                }
                assert!(size(0, 3) < size(0, 0), "a thicker flange resists: {all:?}");
            }
            let camber = column("camber.max_mm");
            assert!(camber[3].abs() > camber[0].abs(), "camber grows with the inner flange: {camber:?}");
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
