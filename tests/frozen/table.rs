//! A table of results: one line a case, kept as text, compared number by number.

use crate::changes::{Changes, summary};
use serde_json::Value;
use std::collections::BTreeMap;
use std::env::var_os;
use std::fs::{read_to_string, write};
use std::io::Write;
use std::path::{Path, PathBuf};

/// Largest relative change of a number that is none: kept numbers have ten digits, so they are off by 5e-10 at most.
pub(crate) const RELATIVE: f64 = 1e-9;

/// Least change that counts, over the largest size in its column. Results that are zero in theory are differences of sums
/// that are no larger than a column's largest by more than a factor of some tens, each rounded at 1e-16 some hundred times:
/// 1e-13 of the largest is noise, and ten times that is taken.
pub(crate) const FLOOR: f64 = 1e-12;

/// One result.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Cell {
    /// A number.
    Number(f64),
    /// A word; empty if there is no such result.
    Word(String),
}

/// Names of a row: the case, the kind of member, the kind of sequence.
pub(crate) type Names = [String; 3];

/// A table, its rows by name.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Table {
    /// Names of the columns after the three names of a row.
    pub columns: Vec<String>,
    /// Rows.
    pub rows: Vec<(Names, Vec<Cell>)>,
}

/// One row under way: results by the name of their column.
#[derive(Default)]
pub(crate) struct Results(Vec<(String, Cell)>);

impl Results {
    /// A number, or nothing if it is not there or no number.
    pub(crate) fn number(&mut self, column: &str, value: impl Into<Option<f64>>) {
        let value = value.into().filter(|value| value.is_finite());
        self.0.push((column.to_owned(), value.map_or_else(|| Cell::Word(String::new()), Cell::Number)));
    }

    /// A word; commas would end its column.
    pub(crate) fn word(&mut self, column: &str, word: impl AsRef<str>) {
        self.0.push((column.to_owned(), Cell::Word(word.as_ref().replace([',', '\n'], ";"))));
    }

    /// What the JSON holds at a place such as `/camber/max_mm`: a number, a word, or nothing.
    pub(crate) fn take(&mut self, column: &str, answer: &Value, place: &str) {
        match answer.pointer(place) {
            Some(Value::String(word)) => self.word(column, word),
            Some(Value::Bool(is)) => self.word(column, is.to_string()),
            found => self.number(column, found.and_then(Value::as_f64)),
        }
    }
}

impl Table {
    /// Adds a row; columns it is the first to have come last.
    pub(crate) fn push(&mut self, names: [&str; 3], results: Results) {
        let mut cells = vec![Cell::Word(String::new()); self.columns.len()];
        for (column, cell) in results.0 {
            let at = self.columns.iter().position(|known| *known == column).unwrap_or_else(|| {
                self.columns.push(column);
                cells.push(Cell::Word(String::new()));
                cells.len() - 1
            });
            cells[at] = cell;
        }
        self.rows.push((names.map(str::to_owned), cells));
    }

    /// The text that is kept.
    pub(crate) fn text(&self) -> String {
        let mut text = format!("case,member,sequence,{}\n", self.columns.join(","));
        for (names, cells) in &self.rows {
            let width = self.columns.len();
            let written = (0..width).map(|at| cells.get(at).map_or_else(String::new, written));
            text += &names.iter().cloned().chain(written).collect::<Vec<_>>().join(",");
            text.push('\n');
        }
        text
    }

    /// The table of a text that [`Self::text`] made.
    pub(crate) fn of(text: &str) -> Self {
        let mut lines = text.lines();
        let columns = lines.next().unwrap_or_default().split(',').skip(3).map(str::to_owned).collect();
        let cell = |word: &str| word.parse().map_or_else(|_| Cell::Word(word.to_owned()), Cell::Number);
        let rows = lines.map(|line| {
            let mut words = line.split(',');
            let names = [(); 3].map(|()| words.next().unwrap_or_default().to_owned());
            (names, words.map(cell).collect())
        });
        Self { columns, rows: rows.collect() }
    }

    /// Largest size in each column.
    pub(crate) fn largest(&self) -> BTreeMap<&str, f64> {
        let size = |at: usize| {
            let cells = self.rows.iter().filter_map(|(_, cells)| cells.get(at));
            cells
                .fold(0.0_f64, |most, cell| if let Cell::Number(x) = cell { most.max(x.abs()) } else { most })
        };
        self.columns.iter().enumerate().map(|(at, column)| (column.as_str(), size(at))).collect()
    }
}

/// Ten digits, in the fewest characters.
fn written(cell: &Cell) -> String {
    match cell {
        Cell::Word(word) => word.clone(),
        Cell::Number(x) => {
            // no minus before a zero
            let rounded: f64 = format!("{x:.9e}").parse().unwrap_or(*x) + 0.0;
            let (plain, short) = (format!("{rounded:?}"), format!("{rounded:e}"));
            let plain = plain.strip_suffix(".0").unwrap_or(&plain).to_owned();
            if short.len() < plain.len() { short } else { plain }
        }
    }
}

/// Fails unless the table is the one kept under that name; with `UPDATE_FROZEN` keeps it instead. Either way says what
/// changed.
pub(crate) fn compare(name: &str, table: &Table) {
    let path = folder().join(format!("{name}.csv"));
    let kept = Table::of(&read_to_string(&path).unwrap_or_default());
    let changes = Changes::between(&kept, table);
    let said = summary(name, table.rows.len(), &changes);
    if var_os("UPDATE_FROZEN").is_some() {
        write(&path, table.text()).unwrap();
        // straight to the terminal: a test that passes keeps what it prints to itself
        std::io::stderr().write_all(said.as_bytes()).unwrap();
        return;
    }
    assert!(
        changes.is_empty(),
        "{said}If this is meant: UPDATE_FROZEN=1 cargo test --test frozen, and a line in tests/frozen/CHANGES.md."
    );
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/frozen")
}
