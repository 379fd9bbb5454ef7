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
    csv_text(|writer| {
        let mut number = ryu::Buffer::new();
        let mut whole = itoa::Buffer::new();
        for row in rows {
            writer.write_field(whole.format(row.case))?;
            for cell in &row.inputs {
                match cell {
                    Cell::Number(n) => writer.write_field(short(&mut number, *n))?,
                    Cell::Word(word) => writer.write_field(one_cell(word).as_ref())?,
                }
            }
            for result in &row.results {
                writer.write_field(short(&mut number, *result))?;
            }
            writer.write_field(one_cell(row.reason.as_deref().unwrap_or_default()).as_ref())?;
            writer.write_record(None::<&[u8]>)?;
        }
        Ok(())
    })
}

/// Words in one line that no spreadsheet runs: a row is a line.
fn one_cell(words: &str) -> Cow<'_, str> {
    match text::line(words) {
        Cow::Borrowed(clean) => text::cell(clean),
        Cow::Owned(clean) => Cow::Owned(text::cell(&clean).into_owned()),
    }
}

/// Shortest text that reads back the same; nothing for a result that is not there.
fn short(buffer: &mut ryu::Buffer, value: f64) -> &str {
    if !value.is_finite() {
        return "";
    }
    let text = buffer.format(value);
    text.strip_suffix(".0").unwrap_or(text)
}

fn csv_text(write: impl FnOnce(&mut csv::Writer<Vec<u8>>) -> csv::Result<()>) -> Vec<u8> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    // writing to memory cannot fail
    let _ = write(&mut writer);
    writer.into_inner().unwrap_or_default()
}
