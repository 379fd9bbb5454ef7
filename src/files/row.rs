//! One row of a table of text cells, and how many there may be.

/// Most rows (a choice: ten thousand marks).
pub(crate) const MOST_ROWS: usize = 10_001;
/// Most columns (a choice).
pub(crate) const MOST_COLUMNS: usize = 200;

/// One row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// Its cells without blanks around them; rows need not be equally long.
    pub cells: Vec<String>,
    /// Line of the text or row of the workbook, from 1.
    pub number: u64,
    /// Where it starts in the text, bytes.
    pub(crate) start: usize,
}

impl Row {
    /// A row of a workbook.
    #[cfg(not(target_family = "wasm"))]
    pub(crate) const fn of(cells: Vec<String>, number: u64) -> Self {
        Self { cells, number, start: 0 }
    }

    /// The cell in that column, counted from 0; empty if the row ends before it.
    pub fn cell(&self, column: usize) -> &str {
        self.cells.get(column).map_or("", String::as_str)
    }

    /// Whether no cell of it holds anything.
    pub(crate) fn is_empty(&self) -> bool {
        self.cells.iter().all(String::is_empty)
    }
}
