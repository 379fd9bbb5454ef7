//! The first sheet of a workbook (.xlsx) as rows of text. `unpacked` alone knows calamine.

#[cfg(not(target_family = "wasm"))]
mod unpacked;

#[cfg(target_family = "wasm")]
use crate::row::Row;
use std::fmt::Display;
use weldbow_engine::input::Problem;

#[cfg(not(target_family = "wasm"))]
pub(crate) use unpacked::rows;

/// A mistake at row (from 1) and column (from 0), if it has a place.
type Placed = (Problem, Option<(u64, usize)>);

/// Whether bytes are a packed file, as a workbook is (local header of the zip format).
pub(crate) fn is_one(bytes: &[u8]) -> bool {
    bytes.starts_with(b"PK\x03\x04")
}

/// Whether bytes are a workbook of the kind before (compound file header).
pub(crate) fn is_old(bytes: &[u8]) -> bool {
    bytes.starts_with(&[0xd0, 0xcf, 0x11, 0xe0])
}

/// Name of a cell: row from 1, column from 0.
pub(crate) fn cell_name(row: u64, column: usize) -> String {
    let mut letters = Vec::new();
    let mut rest = column + 1;
    while rest > 0 {
        let letter = u8::try_from((rest - 1) % 26).unwrap_or_default();
        letters.push(char::from(b'A' + letter));
        rest = (rest - 1) / 26;
    }
    letters.iter().rev().collect::<String>() + &row.to_string()
}

/// A page is asked for no workbook.
#[cfg(target_family = "wasm")]
pub(crate) fn rows(_: &[u8]) -> Result<Vec<Row>, Vec<Placed>> {
    Err(no_workbook("a page reads none"))
}

fn no_workbook(why: impl Display) -> Vec<Placed> {
    let found = format!("a file that is no workbook ({why})");
    vec![(Problem::new("", found, "a workbook saved as `.xlsx`, or a table saved as CSV in UTF-8"), None)]
}
