//! What a workbook holds, unpacked. Not in a page, which reads none.

use super::{Placed, no_workbook};
use crate::row::{MOST_COLUMNS, MOST_ROWS, Row};
use calamine::{DataRef, Reader, Xlsx};
use std::collections::BTreeMap;
use std::io::{Cursor, Read, Seek, copy, sink};
use weldbow_engine::input::Problem;
use zip::ZipArchive;

/// Largest unpacked content, bytes (a choice: a table of ten thousand marks has a few megabytes). A small file may unpack to
/// more than the memory holds.
const LARGEST_UNPACKED: u64 = 100_000_000;
/// Mistakes after which no more are looked for (a choice).
const MOST_PROBLEMS: usize = 100;
/// Farthest whole number that a cell holds exactly.
const WHOLE: f64 = 9.0e15;

/// Rows of the first sheet, in their order.
///
/// # Errors
/// If the bytes are no workbook, it is too large, or cells have no value.
pub(crate) fn rows(bytes: &[u8]) -> Result<Vec<Row>, Vec<Placed>> {
    fits_in_memory(bytes)?;
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).map_err(no_workbook)?;
    let Some(name) = book.sheet_names().first().cloned() else {
        return Err(no_workbook("it has no sheet"));
    };
    cells(&mut book, &name)
}

/// Unpacks everything once, to nowhere: what a packed file says of its own size need not be so.
fn fits_in_memory(bytes: &[u8]) -> Result<(), Vec<Placed>> {
    let mut packed = ZipArchive::new(Cursor::new(bytes)).map_err(no_workbook)?;
    let mut left = LARGEST_UNPACKED;
    for i in 0..packed.len() {
        let part = packed.by_index(i).map_err(no_workbook)?;
        let size = copy(&mut part.take(left + 1), &mut sink()).map_err(no_workbook)?;
        left = left.checked_sub(size).ok_or_else(|| {
            let most = LARGEST_UNPACKED as f64 / 1e6;
            let found = format!("a workbook that unpacks to more than {most:.0} MB");
            vec![(Problem::new("", found, format!("a table of at most {} rows", MOST_ROWS - 1)), None)]
        })?;
    }
    Ok(())
}

fn cells<R: Read + Seek>(book: &mut Xlsx<R>, name: &str) -> Result<Vec<Row>, Vec<Placed>> {
    let mut reader = book.worksheet_cells_reader(name).map_err(no_workbook)?;
    let (mut found, mut problems) = (BTreeMap::<u32, Vec<String>>::new(), Vec::new());
    while let Some(record) = reader.next_cell_with_formula_metadata().map_err(no_workbook)? {
        if problems.len() >= MOST_PROBLEMS {
            break;
        }
        let (row, column) = (record.pos.0, record.pos.1 as usize);
        let at = Some((u64::from(row) + 1, column));
        match text_of(&record.value, record.formula.is_some()) {
            Err(problem) => problems.push((problem, at)),
            Ok(text) if text.is_empty() => {}
            Ok(_) if column >= MOST_COLUMNS => {
                let problem =
                    Problem::new("", "a cell far to the right", format!("at most {MOST_COLUMNS} columns"));
                problems.push((problem, at));
            }
            Ok(text) => {
                let cells = found.entry(row).or_default();
                cells.resize(cells.len().max(column + 1), String::new());
                cells[column] = text;
            }
        }
        if found.len() > MOST_ROWS {
            break;
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    Ok(found.into_iter().map(|(row, cells)| Row::of(cells, u64::from(row) + 1)).collect())
}

/// A cell as a person reads it.
fn text_of(value: &DataRef<'_>, formula: bool) -> Result<String, Problem> {
    Ok(match value {
        DataRef::Empty if formula => {
            let wanted = "a value: open the workbook, let it calculate, and save it again";
            return Err(Problem::new("", "a formula that was never calculated", wanted));
        }
        DataRef::Error(error) => {
            return Err(Problem::new("", format!("the error {error}"), "a value"));
        }
        DataRef::Empty => String::new(),
        DataRef::String(text) | DataRef::DateTimeIso(text) | DataRef::DurationIso(text) => {
            text.trim().to_owned()
        }
        DataRef::SharedString(text) => text.trim().to_owned(),
        DataRef::Bool(truth) => truth.to_string(),
        DataRef::Int(number) => number.to_string(),
        DataRef::Float(number) if number.fract().abs() <= 0.0 && number.abs() < WHOLE => {
            format!("{number:.0}")
        }
        DataRef::Float(number) => number.to_string(),
        DataRef::DateTime(date) if date.is_datetime() => {
            let (year, month, day, ..) = date.to_ymd_hms_milli();
            format!("{year:04}-{month:02}-{day:02}")
        }
        DataRef::DateTime(duration) => duration.as_f64().to_string(),
    })
}

#[cfg(test)]
mod tests {
    use super::super::cell_name;
    use super::*;

    #[test]
    fn cells_are_called_as_a_spreadsheet_calls_them() {
        let names =
            [(1, 0), (3, 25), (3, 26), (10, 701), (10, 702)].map(|(row, column)| cell_name(row, column));
        assert_eq!(names, ["A1", "Z3", "AA3", "ZZ10", "AAA10"]);
    }

    #[test]
    fn values_read_as_a_person_sees_them_and_a_formula_without_one_is_refused() {
        let text = |value: DataRef<'_>| text_of(&value, false).unwrap();
        assert_eq!(text(DataRef::Float(24.0)), "24");
        assert_eq!(text(DataRef::Float(6.35)), "6.35");
        assert_eq!(text(DataRef::String(" R2 ".into())), "R2");
        assert!(text_of(&DataRef::Empty, true).unwrap_err().found.contains("never calculated"));
        assert_eq!(text_of(&DataRef::Float(1.0), true).unwrap(), "1");
    }
}
