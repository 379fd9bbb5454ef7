//! One text of whatever holds a table: CSV as it is, a spreadsheet as the CSV that its first sheet would be saved as, line for
//! line, so that a complaint's line is the row of the sheet.

use crate::reading::{Diagnostics, LARGEST_BYTES, TextKind, text_of_path};
use calamine::{Data, Reader, open_workbook_auto};
use std::path::Path;
use weldbow_engine::input::Problem;

const KIND: TextKind = TextKind {
    what: "a record of measured pieces",
    ending: ".csv",
    start: "one line a piece: job, piece, date, sweep [mm], camber [mm]",
    largest_bytes: 4 * LARGEST_BYTES,
};
/// How names of spreadsheets end.
const SHEETS: [&str; 3] = ["xlsx", "xlsm", "ods"];
/// Most cells taken of a sheet (choice: a hundred thousand pieces are another matter).
const MOST_CELLS: usize = 500_000;

/// The text of a record.
///
/// # Errors
/// A file that cannot be read.
pub fn text(path: &Path) -> Result<String, Diagnostics> {
    let ending = path.extension().map(|e| e.to_string_lossy().to_lowercase()).unwrap_or_default();
    if SHEETS.contains(&ending.as_str()) && path.is_file() {
        return sheet(path).map_err(|problem| Diagnostics::whole(&path.display().to_string(), problem));
    }
    text_of_path(path, KIND)
}

fn sheet(path: &Path) -> Result<String, Problem> {
    let wanted = || "a workbook whose first sheet has one row a piece".to_owned();
    let mut book = open_workbook_auto(path).map_err(|e| {
        Problem::new(
            "",
            format!("a file that is no workbook ({e})"),
            "an .xlsx, .xlsm or .ods file, or the same saved as .csv",
        )
    })?;
    let name = book.sheet_names().first().cloned();
    let name = name.ok_or_else(|| Problem::new("", "a workbook without a sheet", wanted()))?;
    let range = book
        .worksheet_range(&name)
        .map_err(|e| Problem::new("", format!("sheet `{name}` ({e})"), wanted()))?;
    let (height, width) = range.get_size();
    if height.saturating_mul(width) > MOST_CELLS {
        let found = format!("a sheet of {height} rows and {width} columns");
        return Err(Problem::new("", found, format!("at most {MOST_CELLS} cells; take away what is blank")));
    }
    let mut text = "\n".repeat(range.start().map_or(0, |s| s.0 as usize));
    let first = range.start().map_or(0, |s| s.0 as usize);
    for (at, row) in range.rows().enumerate() {
        let cells: Result<Vec<String>, Problem> = row.iter().map(|c| cell(c, first + at + 1)).collect();
        let cells = cells?;
        // a remark stands alone in its row; its commas are its own
        let remark = cells.first().filter(|c| c.starts_with('#'));
        text.push_str(
            &remark.cloned().unwrap_or_else(|| cells.iter().map(|c| quoted(c)).collect::<Vec<_>>().join(",")),
        );
        text.push('\n');
    }
    Ok(text)
}

/// A cell as text.
fn cell(cell: &Data, row: usize) -> Result<String, Problem> {
    Ok(match cell {
        Data::Empty => String::new(),
        Data::String(words) => words.trim().replace(['\n', '\r'], " "),
        Data::Float(number) => number.to_string(),
        Data::Int(number) => number.to_string(),
        Data::Bool(is) => is.to_string(),
        Data::DateTime(when) => {
            let day = when.as_f64().floor();
            // spreadsheets count days from 1899-12-30
            weldbow_engine::input::day_text(day as i32 - SHEET_EPOCH)
        }
        Data::DateTimeIso(when) => when.chars().take(10).collect(),
        Data::DurationIso(words) => words.clone(),
        Data::Error(error) => {
            let found = format!("row {row}: a cell that holds the error {error}");
            return Err(Problem::new("", found, "values; calculate the sheet and save it again"));
        }
    })
}

/// Days from 1899-12-30 to 1970-01-01.
const SHEET_EPOCH: i32 = 25_569;

fn quoted(cell: &str) -> String {
    if cell.contains([',', '"', ';']) {
        format!("\"{}\"", cell.replace('"', "\"\""))
    } else {
        cell.to_owned()
    }
}
