//! A table of the rows on disk.

use super::named;
use crate::input::text::{cut, of_cell, path as path_text};
use crate::study::{CASE, REASON, Study, Table, Values};
use std::io::{Error, ErrorKind, Result};
use std::path::Path;

/// Reads all columns of a study's rows.
///
/// # Errors
/// If the file cannot be read or does not hold this study's columns.
pub fn table(study: &Study, path: &Path) -> Result<Table> {
    let wrong = |e: csv::Error| Error::new(ErrorKind::InvalidData, format!("{}: {e}", path_text(path)));
    let file = std::fs::File::open(path).map_err(|e| named(path, "cannot be read", &e))?;
    let mut reader = csv::Reader::from_reader(std::io::BufReader::new(file));
    let heads = reader.headers().map_err(wrong)?.clone();
    if heads.iter().ne(study.heads().iter().map(String::as_str)) {
        let text =
            format!("{}: its columns are not those of this study ({CASE}, …, {REASON})", path_text(path));
        return Err(Error::new(ErrorKind::InvalidData, text));
    }
    let mut columns = study.columns();
    let mut record = csv::StringRecord::new();
    while reader.read_record(&mut record).map_err(wrong)? {
        for (column, text) in columns.iter_mut().zip(record.iter().skip(1)) {
            match &mut column.values {
                // a result that is not there
                Values::Numbers(numbers) if text.is_empty() => numbers.push(f64::NAN),
                Values::Numbers(numbers) => {
                    numbers.push(text.parse().map_err(|_| no_number(path, &record, text))?)
                }
                Values::Words(words) => words.push(of_cell(text).to_owned()),
            }
        }
    }
    Ok(Table { columns })
}

fn no_number(path: &Path, record: &csv::StringRecord, text: &str) -> Error {
    let line = record.position().map_or(0, csv::Position::line);
    let text = format!("{}:{line}: `{}` where a number is wanted", path_text(path), cut(text, 40));
    Error::new(ErrorKind::InvalidData, text)
}
