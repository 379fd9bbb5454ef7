//! The rows on disk, read back one by one, and a table of them.

use crate::cli::files::{fault_at, unread};
use crate::input::text::{cut, of_cell};
use crate::study::{CASE, REASON, Study, Table, Values};
use csv::StringRecord;
use std::fs::File;
use std::io::{BufReader, ErrorKind, Result};
use std::path::Path;

/// Hands over every row of a study, in order: its number, its cells, the reason, as text.
///
/// # Errors
/// If the file cannot be read or does not hold this study's columns, and those of `take`.
pub(crate) fn each(
    study: &Study,
    path: &Path,
    mut take: impl FnMut(&StringRecord) -> Result<()>,
) -> Result<()> {
    let wrong = |e: csv::Error| fault_at(ErrorKind::InvalidData, path, format_args!(": {e}"));
    let file = File::open(path).map_err(unread(path))?;
    let mut reader = csv::Reader::from_reader(BufReader::new(file));
    let heads = reader.headers().map_err(wrong)?.clone();
    if heads.iter().ne(study.heads().iter().map(String::as_str)) {
        let what = format!(": its columns are not those of this study ({CASE}, …, {REASON})");
        return Err(fault_at(ErrorKind::InvalidData, path, what));
    }
    let mut record = StringRecord::new();
    while reader.read_record(&mut record).map_err(wrong)? {
        take(&record)?;
    }
    Ok(())
}

/// A number in a cell; NaN for a result that is not there.
///
/// # Errors
/// If it is none, with its line.
pub(super) fn number(path: &Path, record: &StringRecord, text: &str) -> Result<f64> {
    if text.is_empty() {
        return Ok(f64::NAN);
    }
    text.parse().map_err(|_| {
        let line = record.position().map_or(0, csv::Position::line);
        let what = format!(":{line}: `{}` where a number is wanted", cut(text, 40));
        fault_at(ErrorKind::InvalidData, path, what)
    })
}

/// All columns of a study's rows.
///
/// # Errors
/// As [`each`].
pub(super) fn table(study: &Study, path: &Path) -> Result<Table> {
    let mut columns = study.columns();
    each(study, path, |record| {
        for (column, text) in columns.iter_mut().zip(record.iter().skip(1)) {
            match &mut column.values {
                Values::Numbers(numbers) => numbers.push(number(path, record, text)?),
                Values::Words(words) => words.push(of_cell(text).to_owned()),
            }
        }
        Ok(())
    })?;
    Ok(Table { columns })
}
