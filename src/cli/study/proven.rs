//! Rows on disk against what their label promises: every case number, every byte.

use super::label::{Chunk, Label, Names, Part, hex};
use crate::cli::files::unread;
use serde::Deserialize;
use sha2::{Digest, Sha256};
use std::fs::File;
use std::io::{BufRead, BufReader, ErrorKind, Read, Result};
use std::path::{Path, PathBuf};

/// What of a file is as it was written.
#[derive(Debug, Default, PartialEq, Eq)]
pub(crate) struct Proven {
    /// Chunks of the label that are intact, from the first on.
    pub(crate) chunks: usize,
    /// Rows in them.
    pub(crate) rows: u64,
    /// Where they end, bytes.
    pub(crate) bytes: u64,
    /// Why the next one is not.
    pub(crate) fault: Option<Fault>,
}

/// Why rows are not what they were.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Fault {
    /// The file ends before them: what a full disk or a cut leaves.
    Short,
    /// They were changed: the line, from 1, and what is wrong with it.
    Changed {
        /// First line that is wrong, or the first of those of which one is.
        line: u64,
        /// What is wrong.
        what: String,
    },
}

/// Form of the rows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Rows {
    /// A table with a line of names.
    Csv,
    /// JSON lines.
    JsonLines,
}

impl Rows {
    /// The forms in which rows are kept, each with its file.
    pub(super) fn kept(names: &Names, json_lines: bool) -> Vec<(Self, PathBuf)> {
        let lines = json_lines.then(|| (Self::JsonLines, names.json_lines()));
        [(Self::Csv, names.csv())].into_iter().chain(lines).collect()
    }

    /// What a chunk holds in this form.
    pub(super) const fn part(self, chunk: &Chunk) -> Option<&Part> {
        match self {
            Self::Csv => Some(&chunk.csv),
            Self::JsonLines => chunk.json_lines.as_ref(),
        }
    }

    /// Number of the case that a line holds.
    pub(super) fn case(self, line: &[u8]) -> Option<u64> {
        #[derive(Deserialize)]
        struct Numbered {
            case: u64,
        }
        match self {
            Self::Csv => {
                let first = line.split(|byte| *byte == b',').next()?;
                std::str::from_utf8(first).ok()?.parse().ok()
            }
            Self::JsonLines => serde_json::from_slice::<Numbered>(line).ok().map(|row| row.case),
        }
    }
}

/// Reads a file of rows against its label.
///
/// # Errors
/// If it cannot be read.
pub(crate) fn prove(path: &Path, label: &Label, form: Rows) -> Result<Proven> {
    let failed = unread(path);
    let file = match File::open(path) {
        Ok(file) => file,
        Err(error) if error.kind() == ErrorKind::NotFound => {
            let fault = (!label.chunks.is_empty()).then_some(Fault::Short);
            return Ok(Proven { fault, ..Proven::default() });
        }
        Err(error) => return Err(failed(error)),
    };
    let mut reader = BufReader::with_capacity(1 << 16, file);
    let mut proven = Proven::default();
    let mut line = 1;
    if form == Rows::Csv {
        let mut head = vec![0; label.header.len()];
        let what = "its columns are not those of this study".to_owned();
        proven.fault = match reader.read_exact(&mut head) {
            Ok(()) if head == label.header.as_bytes() => None,
            Ok(()) => Some(Fault::Changed { line, what }),
            Err(_) => Some(Fault::Short),
        };
        if proven.fault.is_some() {
            return Ok(proven);
        }
        proven.bytes = label.header.len() as u64;
        line = 2;
    }
    for chunk in &label.chunks {
        // rows that were not kept in this form are simply not there
        let Some(part) = form.part(chunk) else { break };
        let first = label.from + proven.rows;
        if let Some(fault) = piece(&mut reader, part, chunk.rows, (first, line), form).map_err(&failed)? {
            proven.fault = Some(fault);
            break;
        }
        proven.chunks += 1;
        proven.rows += chunk.rows;
        proven.bytes += part.bytes;
        line += chunk.rows;
    }
    Ok(proven)
}

/// Reads one chunk; `from` is its first case and line.
fn piece(
    reader: &mut impl BufRead,
    part: &Part,
    rows: u64,
    (first, line): (u64, u64),
    form: Rows,
) -> Result<Option<Fault>> {
    let mut bytes = reader.take(part.bytes);
    let (mut hash, mut text, mut row, mut length) = (Sha256::new(), Vec::new(), 0, 0);
    let mut wrong = None;
    loop {
        text.clear();
        let read = bytes.read_until(b'\n', &mut text)?;
        if read == 0 {
            break;
        }
        length += read as u64;
        hash.update(&text);
        // what a full disk cut off in the middle of a row is no change
        let whole = text.ends_with(b"\n");
        if wrong.is_none() && whole && form.case(&text) != Some(first + row) {
            let shown = String::from_utf8_lossy(&text);
            let shown = crate::input::text::cut(&shown, 40);
            let what = format!("the row of case {} is wanted, `{shown}` stands there", first + row);
            wrong = Some(Fault::Changed { line: line + row, what });
        }
        row += 1;
    }
    if length < part.bytes && wrong.is_none() {
        return Ok(Some(Fault::Short));
    }
    if hex(hash) == part.sha256 && row == rows {
        return Ok(None);
    }
    let what = format!("a row up to line {} is not what was computed", line + rows.saturating_sub(1));
    Ok(Some(wrong.unwrap_or(Fault::Changed { line, what })))
}
