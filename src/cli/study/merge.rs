//! `weldbow study merge`: joins the parts of a study.

use super::output::{Label, Names};
use super::{finish, named, read, show};
use crate::cli::{BAD_INPUT, complain_on_stderr};
use crate::study::{Study, shard};
use std::fs::File;
use std::io::{BufRead, BufReader, BufWriter, Error, ErrorKind, Read, Result, Write};
use std::path::{Path, PathBuf};
use tempfile::NamedTempFile;

/// Join the parts of a study.
#[derive(Debug, clap::Args)]
pub struct Merge {
    /// The study file
    #[arg(value_name = "STUDY")]
    study: PathBuf,
    /// The folder with the parts; the whole goes there too
    #[arg(long, value_name = "DIR")]
    out: PathBuf,
}

impl Merge {
    /// Joins the parts, says what the whole says, and draws its charts.
    ///
    /// # Errors
    /// If parts are missing, not finished, or of another study, and if the whole cannot be written.
    pub fn run(&self, out: &mut dyn Write) -> Result<u8> {
        let study = match read(&self.study) {
            Ok(study) => study,
            Err(complaint) => {
                complain_on_stderr(&complaint)?;
                return Ok(BAD_INPUT);
            }
        };
        let name = crate::cli::output::stem(&self.study);
        let parts = self.parts(&study, &name)?;
        let whole = Names::new(&self.out, &name, None);
        let label = Label::of(&study, &(0..study.count()));
        if Label::read(&whole.label())?.is_some_and(|found| found != label) {
            let text = format!("{} holds rows of another study; nothing was changed", whole.csv().display());
            return Err(Error::new(ErrorKind::AlreadyExists, text));
        }
        join(&self.out, parts.iter().map(Names::csv), &whole.csv(), true)?;
        let lines: Vec<PathBuf> = parts.iter().map(Names::json_lines).filter(|path| path.exists()).collect();
        if lines.len() == parts.len() {
            join(&self.out, lines.into_iter(), &whole.json_lines(), false)?;
        }
        crate::cli::files::write_whole(&whole.label(), serde_json::to_string_pretty(&label)?.as_bytes())?;
        show::opening(&study, out)?;
        writeln!(out, "{} parts joined in {}", parts.len(), whole.csv().display())?;
        finish(&study, &name, &self.out, &whole, out)
    }

    /// The parts in the folder, all of one division, all finished.
    fn parts(&self, study: &Study, name: &str) -> Result<Vec<Names>> {
        let n = self.division(name)?;
        let mut missing = Vec::new();
        let mut parts = Vec::new();
        for i in 1..=n {
            let part = Names::new(&self.out, name, Some((i, n)));
            let cases = shard(study.count(), i, n);
            match Label::read(&part.label())? {
                Some(found) if found != Label::of(study, &cases) => {
                    let text = format!(
                        "{} belongs to another study, or to this one before it was changed",
                        part.csv().display()
                    );
                    return Err(Error::new(ErrorKind::InvalidData, text));
                }
                Some(_) if lines_in(&part.csv())? == cases.end - cases.start + 1 => parts.push(part),
                Some(_) => missing.push(format!("{i}/{n} (not finished)")),
                None => missing.push(format!("{i}/{n}")),
            }
        }
        if missing.is_empty() {
            return Ok(parts);
        }
        let text = format!(
            "{}: missing {}; `weldbow study {} --out {} --resume --shard I/{n}` computes one",
            self.out.display(),
            missing.join(", "),
            self.study.display(),
            self.out.display()
        );
        Err(Error::new(ErrorKind::NotFound, text))
    }

    /// How many parts the study was divided into, from the names in the folder.
    fn division(&self, name: &str) -> Result<u64> {
        let entries = std::fs::read_dir(&self.out).map_err(|e| named(&self.out, "cannot be read", &e))?;
        let lead = format!("{name}.part-");
        let of = |file: String| {
            let rest = file.strip_prefix(&lead)?.strip_suffix(".rows.json")?.to_owned();
            rest.split_once("-of-")?.1.parse::<u64>().ok()
        };
        let mut found: Vec<u64> =
            entries.filter_map(|e| of(e.ok()?.file_name().to_string_lossy().into_owned())).collect();
        found.sort_unstable();
        found.dedup();
        match found.as_slice() {
            [n] => Ok(*n),
            [] => Err(Error::new(
                ErrorKind::NotFound,
                format!("{}: no part of `{name}` is there", self.out.display()),
            )),
            many => Err(Error::new(
                ErrorKind::InvalidData,
                format!("{}: parts of several divisions ({many:?}); keep those of one", self.out.display()),
            )),
        }
    }
}

fn lines_in(path: &Path) -> Result<u64> {
    let file = File::open(path).map_err(|e| named(path, "cannot be read", &e))?;
    let mut reader = BufReader::with_capacity(1 << 16, file);
    let (mut lines, mut buffer) = (0, [0; 1 << 16]);
    loop {
        match reader.read(&mut buffer).map_err(|e| named(path, "cannot be read", &e))? {
            0 => return Ok(lines),
            read => lines += buffer[..read].iter().filter(|byte| **byte == b'\n').count() as u64,
        }
    }
}

/// Writes files one after the other into one, the header once.
fn join(folder: &Path, parts: impl Iterator<Item = PathBuf>, whole: &Path, header: bool) -> Result<()> {
    let failed = |e: Error| named(whole, "cannot be written", &e);
    let temporary = NamedTempFile::new_in(folder).map_err(failed)?;
    let mut writer = BufWriter::new(temporary);
    for (i, part) in parts.enumerate() {
        let file = File::open(&part).map_err(|e| named(&part, "cannot be read", &e))?;
        let mut reader = BufReader::new(file);
        if header && i > 0 {
            reader.skip_until(b'\n').map_err(|e| named(&part, "cannot be read", &e))?;
        }
        std::io::copy(&mut reader, &mut writer).map_err(failed)?;
    }
    let temporary = writer.into_inner().map_err(|e| failed(e.into_error()))?;
    crate::cli::files::persist(temporary, whole)
}
