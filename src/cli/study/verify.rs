//! `weldbow study verify`: whether kept results are what was computed.

use super::label::{Label, Names, Proof};
use super::proven::{Fault, Rows, prove};
use crate::cli::ended::{BAD_INPUT, DONE};
use crate::cli::files::{fault_at, unread};
use crate::cli::lists::counted;
use crate::input::text;
use crate::study::BUILD;
use std::fs::read_dir;
use std::io::{ErrorKind, Result, Write};
use std::path::{Path, PathBuf};

/// Check kept results: every row, every chart, and what they were computed from.
#[derive(Debug, clap::Args)]
pub(super) struct Verify {
    /// The folder of results
    #[arg(value_name = "DIR")]
    folder: PathBuf,
}

impl Verify {
    /// Checks every study in the folder and says of each what it found.
    ///
    /// # Errors
    /// If the folder cannot be read or holds no results.
    pub(super) fn run(&self, out: &mut dyn Write) -> Result<u8> {
        let entries = read_dir(&self.folder).map_err(unread(&self.folder))?;
        let stem = |name: String| name.strip_suffix(".rows.json").map(str::to_owned);
        let found = entries.filter_map(|e| stem(e.ok()?.file_name().to_string_lossy().into_owned()));
        let mut stems: Vec<String> = found.collect();
        stems.sort();
        if stems.is_empty() {
            let what = ": no results of a study are there";
            return Err(fault_at(ErrorKind::NotFound, &self.folder, what));
        }
        let mut status = DONE;
        for stem in stems {
            let faults = self.study(&stem, out)?;
            faults.iter().try_for_each(|fault| writeln!(out, "  NOT AS IT WAS: {fault}"))?;
            if !faults.is_empty() {
                status = BAD_INPUT;
            }
        }
        Ok(status)
    }

    /// What is wrong with the results of one study.
    fn study(&self, stem: &str, out: &mut dyn Write) -> Result<Vec<String>> {
        let names = Names::new(&self.folder, stem, None);
        let shown = text::line(stem).into_owned();
        let label = match names.check().and_then(|()| Label::read(&names.label())) {
            Ok(Some(label)) => label,
            Ok(None) => return Ok(Vec::new()),
            Err(error) => return Ok(vec![error.to_string()]),
        };
        let (rows, of) = (label.rows(), label.to.saturating_sub(label.from));
        let state = if rows == of { "all there" } else { "not finished" };
        let build = if label.build == BUILD { "this build" } else { "another build" };
        // each as SVG and PNG
        let charts = counted(label.charts.len() / 2, "chart");
        writeln!(out, "{shown}: {rows} of {of} rows, {state}, {charts}, by {build}")?;
        let mut faults = Vec::new();
        for (form, path) in Rows::kept(&names, label.has_json_lines()) {
            faults.extend(rows_of(&path, &label, form)?);
        }
        for made in label.charts.iter().chain(&label.parquet) {
            faults.extend(differs(&self.folder.join(&made.file), made));
        }
        for input in &label.inputs {
            let path = Path::new(&input.file);
            if path.exists() && differs(path, input).is_some() {
                writeln!(out, "  {} was changed since", text::path(path))?;
            }
        }
        Ok(faults)
    }
}

fn rows_of(path: &Path, label: &Label, form: Rows) -> Result<Option<String>> {
    let proven = prove(path, label, form)?;
    let name = text::path(path);
    Ok(match proven.fault {
        Some(Fault::Short) => Some(format!("{name} ends after {} rows that are proven", proven.rows)),
        Some(Fault::Changed { line, what }) => Some(format!("{name}:{line}: {what}")),
        None => {
            let length = path.metadata().map_or(0, |m| m.len());
            (length > proven.bytes).then(|| format!("{name} holds more than the rows that were computed"))
        }
    })
}

/// What is wrong with a file that was proven.
fn differs(path: &Path, proof: &Proof) -> Option<String> {
    match Proof::of(path, String::new()) {
        Ok(now) if now.sha256 == proof.sha256 => None,
        Ok(_) => Some(format!("{} was changed", text::path(path))),
        Err(error) => Some(error.to_string()),
    }
}
