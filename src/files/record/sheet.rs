//! One text of whatever holds a table: CSV as it is, a workbook as the CSV that its first sheet would be saved as, line for
//! line, so that a complaint's line is the row of the sheet.

use crate::reading::{Diagnostics, LARGEST_BYTES, TextKind, bytes_of_path, utf8};
use crate::{sheet, workbook};
use std::path::Path;

const KIND: TextKind = TextKind {
    what: "a record of measured pieces",
    ending: ".csv",
    start: "one line a piece: job, piece, date, sweep [mm], camber [mm]",
    largest_bytes: 4 * LARGEST_BYTES,
};

/// The text of a record.
///
/// # Errors
/// A file that cannot be read.
pub(super) fn text(path: &Path) -> Result<String, Diagnostics> {
    let (name, bytes) = (path.display().to_string(), bytes_of_path(path, KIND)?);
    if workbook::is_one(&bytes) || workbook::is_old(&bytes) {
        return sheet::read_bytes(&name, bytes).map(|sheet| as_text(&sheet));
    }
    utf8(bytes).map_err(|problem| Diagnostics::whole(&name, problem))
}

/// Row n of the sheet on line n.
fn as_text(sheet: &sheet::Sheet) -> String {
    let (mut text, mut line) = (String::new(), 1);
    for row in &sheet.rows {
        while line < row.number {
            text.push('\n');
            line += 1;
        }
        // a remark stands alone in its row; its commas are its own
        let remark = row.cells.first().filter(|c| c.starts_with('#'));
        let quoted = || row.cells.iter().map(|c| quoted(c)).collect::<Vec<_>>().join(",");
        text.push_str(&remark.cloned().unwrap_or_else(quoted));
        text.push('\n');
        line += 1;
    }
    text
}

fn quoted(cell: &str) -> String {
    if cell.contains([',', '"', ';']) {
        format!("\"{}\"", cell.replace('"', "\"\""))
    } else {
        cell.to_owned()
    }
}
