//! Rows on disk. They are only ever added to, in order of their cases; what was begun and not finished is cut off.
//!
//! Beside the rows lies a small JSON file that says which study they belong to.

use super::named;
use crate::cli::files;
use crate::study::Study;
use serde::{Deserialize, Serialize};
use std::fs::{File, OpenOptions, read_to_string};
use std::io::{BufRead, BufReader, Error, ErrorKind, Result, Seek, SeekFrom, Write};
use std::ops::Range;
use std::path::{Path, PathBuf};

/// Names of a study's files in a folder.
#[derive(Debug)]
pub struct Names {
    folder: PathBuf,
    stem: String,
}

impl Names {
    /// Of a whole study, or of one part of it.
    pub fn new(folder: &Path, study: &str, part: Option<(u64, u64)>) -> Self {
        let stem = part.map_or_else(|| study.to_owned(), |(i, n)| format!("{study}.part-{i}-of-{n}"));
        Self { folder: folder.to_owned(), stem }
    }

    /// The rows.
    pub fn csv(&self) -> PathBuf {
        self.folder.join(format!("{}.csv", self.stem))
    }

    /// The rows as JSON lines.
    pub fn json_lines(&self) -> PathBuf {
        self.folder.join(format!("{}.jsonl", self.stem))
    }

    /// What they belong to.
    pub fn label(&self) -> PathBuf {
        self.folder.join(format!("{}.rows.json", self.stem))
    }
}

/// What rows belong to.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Label {
    /// Title of the study.
    pub study: String,
    /// Changes with what a row holds.
    pub fingerprint: String,
    /// First case.
    pub from: u64,
    /// One past the last case.
    pub to: u64,
}

impl Label {
    /// Of some cases of a study.
    pub fn of(study: &Study, cases: &Range<u64>) -> Self {
        Self {
            study: study.title.clone(),
            fingerprint: format!("{:016x}", study.fingerprint),
            from: cases.start,
            to: cases.end,
        }
    }

    /// The label kept in a file, if there is one.
    ///
    /// # Errors
    /// If it cannot be read.
    pub fn read(path: &Path) -> Result<Option<Self>> {
        match read_to_string(path) {
            Ok(text) => {
                let wrong = |e: serde_json::Error| {
                    let text = format!("{}: not what a study writes beside its rows ({e})", path.display());
                    Error::new(ErrorKind::InvalidData, text)
                };
                serde_json::from_str(&text).map(Some).map_err(wrong)
            }
            Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
            Err(error) => Err(named(path, "cannot be read", &error)),
        }
    }
}

/// Files open for rows.
#[derive(Debug)]
pub struct Kept {
    csv: (PathBuf, File),
    json_lines: Option<(PathBuf, File)>,
    /// Cases that are there already.
    pub done: u64,
}

/// Opens a study's files: new ones, or those of a stopped run, cut to their last whole row.
///
/// # Errors
/// If they cannot be made, belong to another study, or are there already and `resume` is not wanted.
pub fn open(
    study: &Study,
    names: &Names,
    cases: &Range<u64>,
    json_lines: bool,
    resume: bool,
) -> Result<Kept> {
    files::folder(&names.folder)?;
    let label = Label::of(study, cases);
    let csv = names.csv();
    let found = Label::read(&names.label())?;
    match &found {
        Some(found) if *found != label => {
            let text = format!(
                "{} holds rows of another study (\u{201c}{}\u{201d}, or this one before it was changed): give another folder, \
                 or remove them. Nothing was changed",
                csv.display(),
                found.study
            );
            return Err(Error::new(ErrorKind::AlreadyExists, text));
        }
        None if csv.metadata().is_ok_and(|m| m.len() > 0) => {
            let text = format!(
                "{} is there already and was not written by this study: give another folder, or remove it. Nothing was \
                 changed",
                csv.display()
            );
            return Err(Error::new(ErrorKind::AlreadyExists, text));
        }
        _ => {}
    }
    let header = study.csv_header();
    let mut rows = rows_in(&csv, true)?;
    let lines = names.json_lines();
    if json_lines {
        rows = rows.min(rows_in(&lines, false)?);
    }
    let complete = rows >= cases.end - cases.start;
    if rows > 0 && !complete && !resume {
        let text = format!(
            "{} holds {rows} of {} rows of this study: `--resume` finishes it; remove it to begin anew",
            csv.display(),
            cases.end - cases.start
        );
        return Err(Error::new(ErrorKind::AlreadyExists, text));
    }
    if found.is_none() {
        files::write_whole(&names.label(), serde_json::to_string_pretty(&label)?.as_bytes())?;
    }
    let csv_file = cut_to(&csv, rows + 1, &header)?;
    let json_lines = if json_lines { Some((lines.clone(), cut_to(&lines, rows, b"")?)) } else { None };
    Ok(Kept { csv: (csv, csv_file), json_lines, done: rows })
}

/// Whole rows in a file; 0 if there is none.
fn rows_in(path: &Path, header: bool) -> Result<u64> {
    let file = match File::open(path) {
        Ok(file) => file,
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(0),
        Err(error) => return Err(named(path, "cannot be read", &error)),
    };
    if !file.metadata().is_ok_and(|m| m.is_file()) {
        return Ok(0);
    }
    let mut lines = 0;
    each_line(path, file, |whole| {
        lines += u64::from(whole);
        true
    })?;
    Ok(lines.saturating_sub(u64::from(header)))
}

/// Goes through lines and says of each whether it ends; a reason with a line end in it does not exist (see `Row`).
fn each_line(path: &Path, file: File, mut take: impl FnMut(bool) -> bool) -> Result<u64> {
    let mut reader = BufReader::with_capacity(1 << 16, file);
    let (mut line, mut bytes) = (Vec::new(), 0);
    loop {
        line.clear();
        let read = reader.read_until(b'\n', &mut line).map_err(|e| named(path, "cannot be read", &e))?;
        let whole = line.ends_with(b"\n");
        if read == 0 || !take(whole) || !whole {
            return Ok(bytes);
        }
        bytes += read as u64;
    }
}

/// Opens a file to add to, cut to its first lines; a new one gets the header.
fn cut_to(path: &Path, lines: u64, header: &[u8]) -> Result<File> {
    let failed = |e: Error| named(path, "cannot be written", &e);
    let mut file = OpenOptions::new().write(true).create(true).truncate(false).open(path).map_err(failed)?;
    if !file.metadata().is_ok_and(|m| m.is_file() && m.len() > 0) {
        file.write_all(header).map_err(failed)?;
        return Ok(file);
    }
    let end = end_of_lines(path, lines)?;
    file.set_len(end).map_err(failed)?;
    file.seek(SeekFrom::End(0)).map_err(failed)?;
    Ok(file)
}

/// Where the first lines of a file end, bytes.
fn end_of_lines(path: &Path, lines: u64) -> Result<u64> {
    let file = File::open(path).map_err(|e| named(path, "cannot be read", &e))?;
    let mut left = lines;
    each_line(path, file, |_| {
        let more = left > 0;
        left = left.saturating_sub(1);
        more
    })
}

impl Kept {
    /// Whether JSON lines are wanted.
    pub const fn wants_json_lines(&self) -> bool {
        self.json_lines.is_some()
    }

    /// Adds rows.
    ///
    /// # Errors
    /// If they cannot be written; what was written before stays.
    pub fn add(&mut self, csv: &[u8], json_lines: &[u8], rows: u64) -> Result<()> {
        let put = |(path, file): &mut (PathBuf, File), bytes: &[u8], done: u64| {
            file.write_all(bytes).map_err(|e| {
                let text = format!(
                    "{}: cannot be written after {done} rows: {e}. What is there is kept: make room, then `--resume` goes on",
                    path.display()
                );
                Error::new(e.kind(), text)
            })
        };
        put(&mut self.csv, csv, self.done)?;
        if let Some(file) = &mut self.json_lines {
            put(file, json_lines, self.done)?;
        }
        self.done += rows;
        Ok(())
    }
}
