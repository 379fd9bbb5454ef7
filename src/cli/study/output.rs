//! Rows on disk: opened to go on where they end, kept chunk by chunk, or given up for new ones.

use super::label::{Chunk, Label, Names, Part, Proof, hex, to_write};
use super::proven::{Fault, Proven, Rows, prove};
use crate::cli::files::{self, fault_at, named, unwritten};
use crate::input::text;
use crate::reading::was_read;
use crate::study::Study;
use sha2::{Digest, Sha256};
use std::fs::{File, remove_file};
use std::io::{ErrorKind, Result, Seek, SeekFrom, Write};
use std::ops::Range;
use std::path::{Path, PathBuf};

/// Rows after which a chunk is closed (a choice: some megabytes, and a label of a few hundred lines for millions of rows).
const CHUNK_ROWS: u64 = 65_536;

/// What is wanted of kept rows.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wanted {
    /// As JSON lines too.
    pub(crate) json_lines: bool,
    /// Go on where a stopped run ended.
    pub(crate) resume: bool,
    /// Compute rows again that somebody changed.
    pub force: bool,
}

/// Files open for rows.
#[derive(Debug)]
pub(crate) struct Kept {
    names: Names,
    label: Label,
    csv: Sink,
    json_lines: Option<Sink>,
    /// Rows of the chunk that still grows.
    open_rows: u64,
    /// Chunks that are closed.
    closed: usize,
    /// Cases that are there already.
    pub(crate) done: u64,
}

/// One file and the part of it that still grows.
#[derive(Debug)]
struct Sink {
    path: PathBuf,
    file: File,
    hash: Sha256,
    bytes: u64,
}

/// Opens a study's files: new ones, or those of a stopped run, cut to the last row that is proven.
///
/// # Errors
/// If they cannot be made, belong to another study, were changed, or are there already and going on is not wanted.
pub(crate) fn open(
    study: &Study,
    names: Names,
    cases: &Range<u64>,
    inputs: Vec<Proof>,
    wanted: Wanted,
) -> Result<Kept> {
    files::folder(&names.folder)?;
    names.check()?;
    let mut label = Label::of(study, cases, inputs);
    let csv = names.csv();
    let there =
        |what: &str| fault_at(ErrorKind::AlreadyExists, &csv, format_args!(" {what}. Nothing was changed"));
    let found = Label::read(&names.label())?;
    match &found {
        Some(found) if !found.same_rows(&label) => {
            return Err(there(&format!(
                "holds rows of another study (\u{201c}{}\u{201d}, or this one before it, its jobs or this program were changed): \
                 give another folder, or let them give way with `--replace`",
                text::short(&found.study)
            )));
        }
        None if csv.metadata().is_ok_and(|m| m.len() > 0) => {
            return Err(there(
                "is there already and was not written by this study: give another folder, or remove it",
            ));
        }
        _ => {}
    }
    let rows_there = || csv.metadata().is_ok_and(|m| m.len() > label.header.len() as u64);
    let begun = found.as_ref().is_some_and(|found| !found.chunks.is_empty() || rows_there());
    let json_lines = wanted.json_lines || found.as_ref().is_some_and(Label::has_json_lines);
    let (chunks, rows) = match &found {
        Some(found) => {
            let chunks = intact(found, &names, json_lines, wanted.force)?;
            label.chunks = found.chunks[..chunks].to_vec();
            label.charts.clone_from(&found.charts);
            label.parquet.clone_from(&found.parquet);
            (chunks, label.rows())
        }
        None => (0, 0),
    };
    let of = cases.end - cases.start;
    if begun && rows < of && !wanted.resume {
        return Err(there(&format!(
            "holds {rows} of {of} rows of this study: `--resume` finishes it; remove it to begin anew"
        )));
    }
    let header = label.header.clone();
    let end = |form: Rows| -> u64 {
        label.chunks.iter().filter_map(|chunk| form.part(chunk)).map(|part| part.bytes).sum()
    };
    // before the rows: those of a run that is killed between the two would be anyone's
    label.keep(&names)?;
    let (csv_end, lines_end) = (header.len() as u64 + end(Rows::Csv), end(Rows::JsonLines));
    let csv = Sink::open(csv, csv_end, header.as_bytes(), rows)?;
    let lines = names.json_lines();
    let json_lines = if json_lines { Some(Sink::open(lines, lines_end, b"", rows)?) } else { None };
    Ok(Kept { names, label, csv, json_lines, open_rows: 0, closed: chunks, done: rows })
}

/// Chunks that are as they were written, in every form that is kept.
fn intact(label: &Label, names: &Names, json_lines: bool, force: bool) -> Result<usize> {
    let mut least = usize::MAX;
    for (form, path) in Rows::kept(names, json_lines) {
        let proven = prove(&path, label, form)?;
        refuse_changed(&path, &proven, force)?;
        least = least.min(proven.chunks);
    }
    Ok(least)
}

fn refuse_changed(path: &Path, proven: &Proven, force: bool) -> Result<()> {
    let Some(Fault::Changed { line, what }) = &proven.fault else { return Ok(()) };
    if force {
        return Ok(());
    }
    let text = format!(
        ":{line}: changed since it was written: {what}. Nothing was changed; `--resume --force` computes everything from row {} on \
         again",
        proven.rows
    );
    Err(fault_at(ErrorKind::InvalidData, path, text))
}

impl Sink {
    /// Opens a file to add to, cut to its first bytes; a new one gets the header.
    fn open(path: PathBuf, end: u64, header: &[u8], rows: u64) -> Result<Self> {
        let mut file = to_write(&path)?;
        let kept = if rows == 0 { 0 } else { end };
        file.set_len(kept).map_err(unwritten(&path))?;
        file.seek(SeekFrom::End(0)).map_err(unwritten(&path))?;
        if rows == 0 {
            file.write_all(header).map_err(unwritten(&path))?;
        }
        Ok(Self { path, file, hash: Sha256::new(), bytes: 0 })
    }

    fn add(&mut self, bytes: &[u8], done: u64) -> Result<()> {
        self.file.write_all(bytes).map_err(|e| {
            let text = format!(
                ": cannot be written after {done} rows: {e}. What is there is kept: make room, then `--resume` goes on"
            );
            fault_at(e.kind(), &self.path, text)
        })?;
        self.hash.update(bytes);
        self.bytes += bytes.len() as u64;
        Ok(())
    }

    fn part(&self) -> Part {
        Part { bytes: self.bytes, sha256: hex(self.hash.clone()) }
    }

    fn close(&mut self) {
        (self.hash, self.bytes) = (Sha256::new(), 0);
    }
}

impl Kept {
    /// Whether JSON lines are wanted.
    pub(crate) const fn wants_json_lines(&self) -> bool {
        self.json_lines.is_some()
    }

    /// Adds rows.
    ///
    /// # Errors
    /// If they cannot be written; what was written before stays.
    pub(crate) fn add(&mut self, csv: &[u8], json_lines: &[u8], rows: u64) -> Result<()> {
        self.csv.add(csv, self.done)?;
        if let Some(sink) = &mut self.json_lines {
            sink.add(json_lines, self.done)?;
        }
        self.done += rows;
        self.open_rows += rows;
        Ok(())
    }

    /// Proves what was added: after every wave, and at the end.
    ///
    /// # Errors
    /// If the label cannot be written.
    pub(crate) fn seal(&mut self) -> Result<()> {
        if self.open_rows == 0 {
            return Ok(());
        }
        let chunk = Chunk {
            rows: self.open_rows,
            csv: self.csv.part(),
            json_lines: self.json_lines.as_ref().map(Sink::part),
        };
        self.label.chunks.truncate(self.closed);
        self.label.chunks.push(chunk);
        // charts and columns of fewer rows are none of these
        self.label.charts.clear();
        self.label.parquet = None;
        if self.open_rows >= CHUNK_ROWS {
            (self.open_rows, self.closed) = (0, self.label.chunks.len());
            self.csv.close();
            self.json_lines.iter_mut().for_each(Sink::close);
        }
        self.label.keep(&self.names)
    }
}

/// Takes away what this program kept under these names; without a label of ours nothing is touched.
///
/// # Errors
/// If a file cannot be removed, is no ordinary one, or is one that this run has read.
pub(crate) fn replace(names: &Names) -> Result<()> {
    names.check()?;
    if Label::read(&names.label())?.is_none() {
        return Ok(());
    }
    // the label goes last: a run that is stopped in between leaves rows that are still known for ours
    for path in names.all() {
        if was_read(&path) {
            let said = " was read by this run and is not replaced";
            return Err(fault_at(ErrorKind::AlreadyExists, &path, said));
        }
        match remove_file(&path) {
            Err(error) if error.kind() != ErrorKind::NotFound => {
                return Err(named(&path, "cannot be removed", &error));
            }
            _ => {}
        }
    }
    Ok(())
}
