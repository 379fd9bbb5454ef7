//! A table of the rows on disk.

use super::named;
use crate::study::{CASE, REASON, Study, Table, Values};
use std::io::{Error, ErrorKind, Result};
use std::path::Path;

/// Reads all columns of a study's rows.
///
/// # Errors
/// If the file cannot be read or does not hold this study's columns.
pub fn table(study: &Study, path: &Path) -> Result<Table> {
    let wrong = |e: csv::Error| Error::new(ErrorKind::InvalidData, format!("{}: {e}", path.display()));
    let file = std::fs::File::open(path).map_err(|e| named(path, "cannot be read", &e))?;
    let mut reader = csv::Reader::from_reader(std::io::BufReader::new(file));
    let heads = reader.headers().map_err(wrong)?.clone();
    if heads.iter().ne(study.heads().iter().map(String::as_str)) {
        let text =
            format!("{}: its columns are not those of this study ({CASE}, …, {REASON})", path.display());
        return Err(Error::new(ErrorKind::InvalidData, text));
    }
    let mut columns = study.columns();
    let mut record = csv::StringRecord::new();
    while reader.read_record(&mut record).map_err(wrong)? {
        for (column, text) in columns.iter_mut().zip(record.iter().skip(1)) {
            match &mut column.values {
                Values::Numbers(numbers) => numbers.push(text.parse().unwrap_or(f64::NAN)),
                Values::Words(words) => words.push(text.to_owned()),
            }
        }
    }
    Ok(Table { columns })
}
