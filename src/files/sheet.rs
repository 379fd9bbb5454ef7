//! A table of text cells, as a spreadsheet saves it: CSV in UTF-8, or the first sheet of a workbook (.xlsx).
//!
//! Cells are text whatever a workbook takes them for: 24 is "24", a date is "2026-04-03". A formula that was never calculated has
//! no value and is refused by the name of its cell. What the columns mean is for the reader of the table to say; it
//! gets a place for every complaint: line and column of a text, name of a cell of a workbook.

use crate::reading::{Diagnostics, TextKind, bytes_of_path, utf8};
use crate::readings::lines;
pub use crate::row::Row;
pub(crate) use crate::row::{MOST_COLUMNS, MOST_ROWS};
use crate::workbook;
use csv::StringRecord;
use std::ops::Range;
use std::path::Path;
use weldbow_engine::input::Problem;

/// A table of text cells.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// Name of the file as the user gave it.
    pub file: String,
    /// Rows with anything in them, from top to bottom; the first is mostly the names of the columns. Lines that begin with `#`
    /// are rows like others.
    pub rows: Vec<Row>,
    origin: Origin,
}

/// Where a table comes from.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Origin {
    Text { text: String, separator: u8 },
    Workbook,
}

/// A cell, by its row in [`Sheet::rows`] and its column, both from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct At {
    /// Row.
    pub row: usize,
    /// Column.
    pub column: usize,
}

/// Reads a table from a file; `kind` says what it is for and how large it may be.
///
/// # Errors
/// If it can be read neither as text nor as a workbook, or cells of it have no value.
pub fn read_path(path: &Path, kind: TextKind) -> Result<Sheet, Diagnostics> {
    read_bytes(&path.display().to_string(), bytes_of_path(path, kind)?)
}

/// Reads a table from the bytes of a file; `name` is what complaints call it.
///
/// # Errors
/// As [`read_path`].
pub fn read_bytes(name: &str, bytes: Vec<u8>) -> Result<Sheet, Diagnostics> {
    if workbook::is_one(&bytes) {
        let rows = workbook::rows(&bytes).map_err(|problems| of_workbook(name, problems))?;
        return enough(Sheet { file: name.to_owned(), rows, origin: Origin::Workbook });
    }
    if workbook::is_old(&bytes) {
        let wanted = "a workbook saved as `.xlsx`, or a table saved as CSV in UTF-8";
        return Err(Diagnostics::whole(name, Problem::new("", "a workbook of the old kind", wanted)));
    }
    let text = utf8(bytes).map_err(|problem| Diagnostics::whole(name, problem))?;
    read_text(name, &text)
}

/// Reads a table from text. Cells are kept apart by commas; by semicolons or tabs if the first line has these and no comma.
///
/// # Errors
/// If it is no table.
///
/// ```
/// let sheet = weldbow_files::sheet::read_text("list.csv", "mark;job\nR2;rafter.toml\n")?;
/// assert_eq!(sheet.rows[1].cell(1), "rafter.toml");
/// # Ok::<(), weldbow_files::reading::Diagnostics>(())
/// ```
pub fn read_text(name: &str, text: &str) -> Result<Sheet, Diagnostics> {
    let start = text.len() - text.trim_start_matches('\u{feff}').len();
    let body = &text[start..];
    let first = body.lines().find(|line| !line.trim().is_empty() && !line.starts_with('#'));
    let separator = separator(first.unwrap_or_default());
    let row = |record: StringRecord| {
        let place = record.position();
        Row {
            cells: record.iter().map(str::to_owned).collect(),
            number: place.map_or(0, csv::Position::line),
            start: start + place.map_or(0, |p| p.byte() as usize),
        }
    };
    // one more than may be shows that there are too many
    let rows = lines(body, separator, None).map(row).take(MOST_ROWS + 1).collect();
    enough(Sheet { file: name.to_owned(), rows, origin: Origin::Text { text: text.to_owned(), separator } })
}

fn separator(line: &str) -> u8 {
    let without_comma = |s: &char| line.contains(*s) && !line.contains(',');
    [';', '\t'].iter().find(|s| without_comma(s)).map_or(b',', |s| *s as u8)
}

/// Without empty rows, or the complaint that there are none or too many.
fn enough(mut sheet: Sheet) -> Result<Sheet, Diagnostics> {
    sheet.rows.retain(|row| !row.is_empty());
    let wide = sheet.rows.iter().position(|row| row.cells.len() > MOST_COLUMNS);
    let problem = |found: String, wanted: String| Problem::new("", found, wanted);
    if sheet.rows.is_empty() {
        let empty =
            problem("an empty table".into(), "names of the columns, and a row for each member".into());
        return Err(Diagnostics::whole(&sheet.file, empty));
    }
    if sheet.rows.len() > MOST_ROWS {
        let found = format!("more than {} rows", MOST_ROWS - 1);
        let wanted = format!("a table of at most {} rows", MOST_ROWS - 1);
        return Err(Diagnostics::whole(&sheet.file, problem(found, wanted)));
    }
    match wide {
        Some(row) => {
            let found = format!("{} cells in a row", sheet.rows[row].cells.len());
            let wanted = format!("at most {MOST_COLUMNS} columns");
            Err(sheet.complaint(vec![(problem(found, wanted), Some(At { row, column: MOST_COLUMNS }))]))
        }
        None => Ok(sheet),
    }
}

impl Sheet {
    /// A complaint about cells of it.
    pub fn complaint(&self, problems: Vec<(Problem, Option<At>)>) -> Diagnostics {
        match &self.origin {
            Origin::Text { text, separator } => {
                let range = |at: At| field_range(text, self.rows.get(at.row)?.start, *separator, at.column);
                let placed = problems.into_iter().map(|(problem, at)| (problem, at.and_then(range)));
                Diagnostics::placed(&self.file, text, placed.collect())
            }
            Origin::Workbook => {
                let cell = |at: At| Some((self.rows.get(at.row)?.number, at.column));
                let named = problems.into_iter().map(|(problem, at)| (problem, at.and_then(cell)));
                of_workbook(&self.file, named.collect())
            }
        }
    }
}

/// A complaint about cells of a workbook: row from 1, column from 0. The name of the cell stands before the field's.
fn of_workbook(file: &str, problems: Vec<(Problem, Option<(u64, usize)>)>) -> Diagnostics {
    let named = problems.into_iter().map(|(mut problem, at)| {
        if let Some((row, column)) = at {
            let cell = workbook::cell_name(row, column);
            problem.path = if problem.path.is_empty() { cell } else { format!("{cell} ({})", problem.path) };
        }
        (problem, None)
    });
    Diagnostics::placed(file, "", named.collect())
}

/// Bytes of a field of the record that starts at `from`, without quotes and blanks; of an empty one, the place where it should
/// stand.
pub(crate) fn field_range(text: &str, from: usize, separator: u8, index: usize) -> Option<Range<usize>> {
    let line = text.get(from..)?;
    let skipped = line.len() - line.trim_start_matches(['\r', '\n']).len();
    let (mut field, mut quoted, mut start) = (0, false, from + skipped);
    let mut end = text.len();
    let first = start;
    for (i, byte) in text.as_bytes().iter().enumerate().skip(first) {
        match *byte {
            b'"' => quoted = !quoted,
            b'\n' if !quoted => {
                end = i;
                break;
            }
            b if b == separator && !quoted => {
                if field == index {
                    end = i;
                    break;
                }
                field += 1;
                start = i + 1;
            }
            _ => {}
        }
    }
    let inside = text.get(start..end)?;
    let bare = inside.trim().trim_matches('"');
    let shift = if bare.is_empty() { 0 } else { inside.find(bare).unwrap_or(0) };
    Some(start + shift..start + shift + bare.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_read_with_whatever_keeps_its_fields_apart() {
        for text in ["a,b\n1,\"2, 3\"\n", "\u{feff}a;b\r\n1;2, 3\r\n", "# note: x, y\n\na\tb\n1\t\"2, 3\"\n"]
        {
            let sheet = read_text("t.csv", text).unwrap();
            let last = sheet.rows.last().unwrap();
            assert_eq!((last.cell(0), last.cell(1), last.cell(2)), ("1", "2, 3", ""), "{text:?}");
        }
    }

    #[test]
    fn a_complaint_of_a_text_stands_at_its_field() {
        let sheet = read_text("t.csv", "mark,depth\n\nR2, deep \n").unwrap();
        let problem = Problem::new("depth", "`deep`", "a length");
        let complaint = sheet.complaint(vec![(problem, Some(At { row: 1, column: 1 }))]);
        assert_eq!((complaint.problems[0].line, complaint.problems[0].column), (3, 5));
        assert_eq!(&complaint.text[complaint.problems[0].range.clone().unwrap()], "deep");
    }

    #[test]
    fn nothing_and_too_much_are_refused() {
        let said = |text: &str| read_text("t.csv", text).unwrap_err().to_string();
        assert!(said("\n\n").contains("an empty table"));
        assert!(said(&"1\n".repeat(MOST_ROWS + 5)).contains("more than 10000 rows"));
        assert!(said(&",".repeat(300)).contains("an empty table"));
        assert!(said(&"1,".repeat(300)).contains("at most 200 columns"));
        assert!(read_bytes("t.csv", vec![0xff, 0xfe, 0x41]).unwrap_err().to_string().contains("UTF-8"));
    }
}
