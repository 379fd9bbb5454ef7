//! Rows as text: CSV and JSON lines, shortest numbers that read back the same.

use super::axis::Takes;
use super::case::{Cell, Row};
use super::definition::Study;
use super::table::{Column, Table, Values};
use crate::input::text;
use serde_json::{Map, Number, Value};
use std::borrow::Cow;

/// First column: number of the case.
pub const CASE: &str = "case";
/// Last column: why a case failed.
pub const REASON: &str = "reason";

impl Study {
    /// Columns of inputs and results, empty: name, words, unit.
    pub fn columns(&self) -> Vec<Column> {
        let mut columns = Vec::new();
        for (index, axis) in self.axes.iter().enumerate() {
            let unit = axis.measure().map_or("", super::measure::Measure::unit);
            let words = matches!(axis.takes, Takes::Others(_));
            let many = self.coordinates[index].1.max(1);
            for number in 0..many {
                let (name, said) = axis.coordinate(number, many);
                columns.push(Column {
                    name,
                    words: if self.turns_jobs(index) { "job".to_owned() } else { said },
                    unit: unit.to_owned(),
                    values: if words { Values::Words(Vec::new()) } else { Values::Numbers(Vec::new()) },
                });
            }
        }
        columns.extend(self.collect.iter().map(|c| Column {
            name: c.name.clone(),
            words: c.words.clone(),
            unit: c.unit.to_owned(),
            values: Values::Numbers(Vec::new()),
        }));
        columns
    }

    /// How many different values a column will take; `None` where only the rows tell.
    pub fn values_of(&self, column: &str) -> Option<usize> {
        self.axes.iter().find(|axis| axis.name == column)?.distinct()
    }

    /// Heads of the CSV: names with units where the name does not tell it.
    pub fn heads(&self) -> Vec<String> {
        let inputs = self.columns().len() - self.collect.len();
        let head = |(i, column): (usize, Column)| match column.unit.as_str() {
            "" => column.name,
            _ if i >= inputs => column.name,
            unit => format!("{} ({unit})", column.name),
        };
        let named = self.columns().into_iter().enumerate().map(head);
        [CASE.to_owned()].into_iter().chain(named).chain([REASON.to_owned()]).collect()
    }

    /// The header line of the CSV.
    pub fn csv_header(&self) -> Vec<u8> {
        csv_text(|writer| writer.write_record(self.heads()))
    }

    /// A row as an object, for JSON lines: results without a value are left out.
    pub fn json_line(&self, row: &Row, names: &[Column]) -> Vec<u8> {
        let mut object = Map::new();
        object.insert(CASE.to_owned(), Value::from(row.case));
        let inputs = row.inputs.iter().map(|cell| match cell {
            Cell::Number(number) => Number::from_f64(*number).map(Value::Number),
            Cell::Word(word) => Some(Value::from(word.as_str())),
        });
        let results = row.results.iter().map(|number| Number::from_f64(*number).map(Value::Number));
        for (column, value) in names.iter().zip(inputs.chain(results)) {
            if let Some(value) = value {
                object.insert(column.name.clone(), value);
            }
        }
        if let Some(reason) = &row.reason {
            object.insert(REASON.to_owned(), Value::from(reason.as_str()));
        }
        let mut line = Value::Object(object).to_string().into_bytes();
        line.push(b'\n');
        line
    }

    /// A table of rows in memory.
    pub fn table(&self, rows: &[Row]) -> Table {
        let mut columns = self.columns();
        for row in rows {
            let cells = row.inputs.iter().cloned().chain(row.results.iter().map(|n| Cell::Number(*n)));
            for (column, cell) in columns.iter_mut().zip(cells) {
                match (&mut column.values, cell) {
                    (Values::Numbers(numbers), Cell::Number(number)) => numbers.push(number),
                    (Values::Words(words), Cell::Word(word)) => words.push(word),
                    (Values::Numbers(numbers), Cell::Word(_)) => numbers.push(f64::NAN),
                    (Values::Words(words), Cell::Number(number)) => words.push(number.to_string()),
                }
            }
        }
        Table { columns }
    }
}

/// Rows as CSV lines.
pub fn csv_lines(rows: &[Row]) -> Vec<u8> {
    let mut lines = Lines::with_room(rows.len());
    for row in rows {
        lines.whole(row.case);
        for cell in &row.inputs {
            lines.next();
            match cell {
                Cell::Number(number) => lines.number(*number),
                Cell::Word(word) => lines.words(word),
            }
        }
        for result in &row.results {
            lines.next();
            lines.number(*result);
        }
        lines.next();
        lines.words(row.reason.as_deref().unwrap_or_default());
        lines.end();
    }
    lines.text
}

/// Lines of CSV being written. Numbers need no quotes and go straight in.
struct Lines {
    text: Vec<u8>,
    number: zmij::Buffer,
    whole: itoa::Buffer,
}

impl Lines {
    fn with_room(rows: usize) -> Self {
        /// Most rows of bows take fewer bytes.
        const ROW_BYTES: usize = 128;
        let text = Vec::with_capacity(ROW_BYTES * rows);
        Self { text, number: zmij::Buffer::new(), whole: itoa::Buffer::new() }
    }

    fn next(&mut self) {
        self.text.push(b',');
    }

    fn end(&mut self) {
        self.text.push(b'\n');
    }

    fn whole(&mut self, number: u64) {
        self.text.extend_from_slice(self.whole.format(number).as_bytes());
    }

    /// Shortest text that reads back the same; nothing for a result that is not there.
    fn number(&mut self, number: f64) {
        if number.is_finite() {
            let text = self.number.format_finite(number);
            self.text.extend_from_slice(text.strip_suffix(".0").unwrap_or(text).as_bytes());
        }
    }

    /// Words in one line that no spreadsheet runs: a row is a line.
    fn words(&mut self, words: &str) {
        match text::line(words) {
            Cow::Borrowed(clean) => self.cell(&text::cell(clean)),
            Cow::Owned(clean) => self.cell(&text::cell(&clean)),
        }
    }

    /// A cell, in quotes where it needs them (RFC 4180).
    fn cell(&mut self, cell: &str) {
        if cell.contains(['"', ',']) {
            self.text.push(b'"');
            self.text.extend_from_slice(cell.replace('"', "\"\"").as_bytes());
            self.text.push(b'"');
        } else {
            self.text.extend_from_slice(cell.as_bytes());
        }
    }
}

fn csv_text(write: impl FnOnce(&mut csv::Writer<Vec<u8>>) -> csv::Result<()>) -> Vec<u8> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    // writing to memory cannot fail
    let _ = write(&mut writer);
    writer.into_inner().unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the library that reads and writes CSV; numbers read back to the last bit.
    #[test]
    fn rows_are_what_a_library_of_csv_would_write_of_the_same_cells() {
        let words = ["", "plain", "a, b", "say \"6 mm\"", "\"", "two\nlines", "=1+1", "-4 mm", "ü, \"=\""];
        for (case, word) in words.iter().enumerate() {
            let numbers = [0.1 + 0.2, -1e-300, 4.0, 6.02e23, f64::NAN, -0.0];
            let row = Row {
                case: case as u64,
                inputs: vec![Cell::Word((*word).to_owned()), Cell::Number(1.0 / 3.0)],
                results: numbers.to_vec(),
                reason: Some((*word).to_owned()),
            };
            let ours = csv_lines(std::slice::from_ref(&row));
            let record = csv::ReaderBuilder::new().has_headers(false).from_reader(&ours[..]).records().next();
            let record = record.unwrap().unwrap();
            let theirs = csv_text(|writer| writer.write_record(&record));
            assert_eq!(ours, theirs, "{word}: {}", String::from_utf8_lossy(&ours));
            assert_eq!(record.len(), 2 + row.inputs.len() + numbers.len(), "{word}");
            let clean = text::line(word);
            assert_eq!((&record[0], text::of_cell(&record[1])), (&*case.to_string(), &*clean), "{word}");
            for (cell, number) in record.iter().skip(3).zip(numbers) {
                let read = cell.parse::<f64>().unwrap_or(f64::NAN);
                let same = read.to_bits() == number.to_bits() || read.is_nan() && number.is_nan();
                assert!(same, "{word}: {cell} and {number}");
            }
        }
    }
}
