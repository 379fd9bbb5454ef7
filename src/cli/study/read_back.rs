//! The rows on disk, read back one by one, and a table of them.

use crate::cli::files::named;
use crate::input::text::{cut, of_cell, path as path_text};
use crate::study::{CASE, REASON, Study, Table, Values};
use csv::StringRecord;
use std::fs::File;
use std::io::{BufReader, Error, ErrorKind, Result};
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
    let wrong = |e: csv::Error| Error::new(ErrorKind::InvalidData, format!("{}: {e}", path_text(path)));
    let file = File::open(path).map_err(|e| named(path, "cannot be read", &e))?;
    let mut reader = csv::Reader::from_reader(BufReader::new(file));
    let heads = reader.headers().map_err(wrong)?.clone();
    if heads.iter().ne(study.heads().iter().map(String::as_str)) {
        let text =
            format!("{}: its columns are not those of this study ({CASE}, …, {REASON})", path_text(path));
        return Err(Error::new(ErrorKind::InvalidData, text));
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
        let text = format!("{}:{line}: `{}` where a number is wanted", path_text(path), cut(text, 40));
        Error::new(ErrorKind::InvalidData, text)
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
