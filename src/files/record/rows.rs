//! The lines of a record, with every mistake and its place.

use super::columns::{Column, EXAMPLE, column};
use super::row::RecordRow;
use super::sheet;
use crate::measured::front_values::short;
use crate::measured::{self, Front, KEYS, no_side, one_toe};
use crate::reading::Diagnostics;
use crate::readings::{Placed, cells, delimiter, reader, whole};
use csv::StringRecord;
use std::collections::BTreeMap;
use std::ops::Range;
use std::path::Path;
use weldbow_engine::input::{Problem, text};
use weldbow_engine::member::Seam;

/// Most problems written down.
const MOST_PROBLEMS: usize = 40;
/// Most pieces taken (choice: a shop's years).
const MOST_PIECES: usize = 20_000;

/// The lines of one file.
#[derive(Debug, Clone, PartialEq)]
pub struct Rows {
    /// The text they stand in, for complaints.
    pub text: String,
    /// One for each piece.
    pub rows: Vec<RecordRow>,
    /// Columns of the shop's own, which are not read.
    pub unread: Vec<String>,
}

/// Reads a record from a file: CSV, the first sheet of a spreadsheet, or the file of one piece with its job in front.
///
/// # Errors
/// Everything wrong with it.
pub fn read_path(path: &Path) -> Result<Rows, Diagnostics> {
    let name = path.display().to_string();
    let text = sheet::text(path)?;
    let head = text.lines().find(|l| !l.starts_with('#') && !l.trim().is_empty()).unwrap_or("");
    let first = head.split([',', ';', '\t']).next().unwrap_or("");
    if measured::columns::column(first).is_ok_and(|(column, _)| column == measured::columns::Column::X) {
        return of_piece(path, &name, &text).map(|row| Rows { text, rows: vec![row], unread: Vec::new() });
    }
    read_text(&name, &text)
}

/// The row of a piece that has a file of its own, with its job in front.
fn of_piece(path: &Path, name: &str, text: &str) -> Result<RecordRow, Diagnostics> {
    let front = measured::read_text(name, text)?.front;
    let file = path.file_name().map(|f| f.to_string_lossy().into_owned());
    let stem = path.file_stem().map_or_else(String::new, |f| f.to_string_lossy().into_owned());
    let mut row =
        RecordRow { readings: file, piece: text::short(&stem).into_owned(), ..RecordRow::new(1, &front) };
    let wrong =
        |problem| Diagnostics::placed(name, text, vec![(problem, text.find("# date").map(|i| i..i + 6))]);
    row.labelled().map_err(wrong)?;
    if row.job.is_empty() && row.mark.is_empty() {
        let wanted = "a line in front that names the job file of the piece";
        let problem = Problem::new("job", "nothing", wanted).example("# job: ../jobs/rafter.toml");
        return Err(Diagnostics::whole(name, problem));
    }
    Ok(row)
}

/// Reads a record from a text; `name` is what complaints call it.
///
/// # Errors
/// Everything wrong with it.
///
/// ```
/// let found = weldbow_files::record::read_text("r.csv", "job, piece, sweep [mm]\nrafter.toml, R2-01, -17.5\n");
/// assert!(found.is_ok_and(|found| found.rows[0].piece == "R2-01"));
/// ```
pub fn read_text(name: &str, text: &str) -> Result<Rows, Diagnostics> {
    let mut reading = Reading { name, text, comma: false, unread: Vec::new(), problems: Vec::new() };
    let rows = reading.all();
    if reading.problems.is_empty() {
        Ok(Rows { text: text.to_owned(), rows, unread: reading.unread })
    } else {
        Err(Diagnostics::placed(name, text, reading.problems))
    }
}

struct Reading<'t> {
    name: &'t str,
    text: &'t str,
    /// Whether numbers may have commas: where these do not keep cells apart.
    comma: bool,
    /// Columns of the shop's own.
    unread: Vec<String>,
    problems: Vec<Placed>,
}

impl Reading<'_> {
    fn push(&mut self, problem: Problem, range: Option<Range<usize>>) {
        if self.problems.len() < MOST_PROBLEMS {
            self.problems.push((problem, range));
        }
    }

    fn all(&mut self) -> Vec<RecordRow> {
        let front = Front::of(self.name, self.text, usize::MAX, &mut self.problems);
        let delimiter = delimiter(self.text);
        self.comma = delimiter != b',';
        // a mark of the byte order is no part of the first name; as many bytes keep every place
        let plain = self.text.replace('\u{feff}', "   ");
        let mut records = Vec::new();
        for record in reader(&plain, delimiter).records() {
            match record {
                Ok(record) if record.iter().all(str::is_empty) => {}
                Ok(record) => records.push(record),
                Err(error) => {
                    let at = error.position().map(|p| p.byte() as usize..p.byte() as usize + 1);
                    let found = format!("a line that is no CSV ({error})");
                    self.push(Problem::new("", found, "cells separated by commas").example(EXAMPLE), at);
                    return Vec::new();
                }
            }
        }
        let mut records = records.into_iter();
        let Some(head) = records.next() else {
            self.push(Problem::new("", "no table", "a head and one line a piece").example(EXAMPLE), None);
            return Vec::new();
        };
        let Some(columns) = self.head(&head) else { return Vec::new() };
        let mut rows = Vec::new();
        let mut seen: BTreeMap<(String, String), usize> = BTreeMap::new();
        for record in records {
            if self.problems.len() >= MOST_PROBLEMS || rows.len() >= MOST_PIECES {
                break;
            }
            if let Some(row) = self.row(&columns, &record, &front, &mut seen) {
                rows.push(row);
            }
        }
        if rows.is_empty() && self.problems.is_empty() {
            self.push(Problem::new("", "a head without a line", "one line a piece").example(EXAMPLE), None);
        }
        rows
    }

    fn head(&mut self, head: &StringRecord) -> Option<Vec<(Column, &'static str)>> {
        let places = cells(self.text, head);
        let mut columns: Vec<(Column, &'static str)> = Vec::new();
        let before = self.problems.len();
        for (cell, place) in head.iter().zip(&places) {
            match column(cell) {
                Ok((Column::Own, unit)) => {
                    let name = cell.trim_start_matches('#').trim();
                    if !name.is_empty() {
                        self.unread.push(text::short(name).into_owned());
                    }
                    columns.push((Column::Own, unit));
                }
                Ok((c, _)) if columns.iter().any(|known| known.0 == c) => {
                    let problem = Problem::new(c.name(), "the same column again", "each column once");
                    self.push(problem.example(EXAMPLE), Some(place.clone()));
                }
                Ok(found) => columns.push(found),
                Err(problem) => self.push(problem, Some(place.clone())),
            }
        }
        if self.problems.len() > before {
            return None;
        }
        for needed in [&["job", "mark"][..], &["piece"]] {
            if !columns.iter().any(|(c, _)| needed.contains(&c.name())) {
                let found = format!("no column `{}`", needed.join("` or `"));
                let wanted = "the columns job (or mark) and piece, and what was read";
                self.push(Problem::new(needed[0], found, wanted).example(EXAMPLE), places.first().cloned());
            }
        }
        let reads = |c: &Column| matches!(c, Column::Length(1..=7)) || c.name() == "readings";
        if !columns.iter().any(|(c, _)| reads(c)) {
            let wanted = "a column camber, sweep, shortening, two toes, or readings";
            let problem = Problem::new("", "nothing that was read", wanted);
            self.push(problem.example(EXAMPLE), places.first().cloned());
        }
        (self.problems.len() == before).then_some(columns)
    }

    fn row(
        &mut self,
        columns: &[(Column, &'static str)],
        record: &StringRecord,
        front: &Front,
        seen: &mut BTreeMap<(String, String), usize>,
    ) -> Option<RecordRow> {
        let before = self.problems.len();
        let places = cells(self.text, record);
        let whole = whole(&places);
        let line_number = self.text.get(..whole.start).map_or(1, |t| t.matches('\n').count() + 1);
        if record.len() > columns.len() {
            let found = format!("{} cells under {} names", record.len(), columns.len());
            let wanted = "as many cells as names; put a cell with a comma in quotes";
            self.push(Problem::new("", found, wanted).example("\"R2, left\""), Some(whole));
            return None;
        }
        let mut row = RecordRow::new(line_number, front);
        if let Err(problem) = row.labelled() {
            self.push(problem, Some(whole));
            return None;
        }
        for (((column, unit), cell), place) in columns.iter().zip(record).zip(&places) {
            if *column == Column::Own {
                continue;
            }
            row.places.insert(column.name(), place.clone());
            if let Column::Length(i) = column {
                row.units[*i] = unit;
            }
            if cell.is_empty() {
                continue;
            }
            let taken = match column {
                Column::Word(i) => row.word(*i, cell),
                Column::Length(i) => row.length(*i, unit, cell, self.comma),
                Column::Own => Ok(()),
                Column::Key(i) => row.front.take(KEYS[*i].0, cell).map_err(|(problem, _)| problem),
            };
            if let Err(problem) = taken {
                self.push(problem, Some(place.clone()));
            }
        }
        let member = if row.job.is_empty() { &row.mark } else { &row.job };
        for (name, written) in [("job", member), ("piece", &row.piece)] {
            if written.is_empty() {
                let right = if name == "job" { "../jobs/rafter.toml" } else { "R2-01" };
                let place = row.places.get(name).cloned().or(Some(whole.clone()));
                let problem = Problem::new(name, "nothing", "the job file and the name of the piece");
                self.push(problem.example(right), place);
            }
        }
        for (seam, [a, b]) in Seam::BOTH.into_iter().zip([[4, 5], [6, 7]]) {
            if row.lengths[a].is_some() != row.lengths[b].is_some() {
                self.push(one_toe(seam), Some(whole.clone()));
            }
        }
        if row.front.lacks_side() {
            self.push(no_side(), Some(whole.clone()));
        }
        if let Some(first) = seen.insert((member.clone(), row.piece.clone()), line_number) {
            let found = format!("`{}` again, as in line {first}", short(&row.piece));
            let wanted = "each piece of a job once; of two measurements give the mean, with `measurements` 2";
            let place = row.place("piece");
            self.push(Problem::new("piece", found, wanted).example("R2-02"), place);
        }
        (self.problems.len() == before).then_some(row)
    }
}
