//! The lines of a record, with every mistake and its place.

use super::columns::{Column, EXAMPLE, column};
use super::row::RecordRow;
use crate::measured::front_values::short;
use crate::measured::{self, Front, KEYS, no_side, one_toe};
use crate::reading::{Diagnostics, LARGEST_BYTES, TextKind, bytes_of_path, utf8};
use crate::readings::{MOST_PROBLEMS, Reading, cells, whole};
use crate::{sheet, workbook};
use csv::StringRecord;
use std::collections::BTreeMap;
use std::path::Path;
use weldbow_engine::input::{Problem, text};
use weldbow_engine::member::Seam;

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
    let text = text_of(path)?;
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
    let mut reading = Reading::of(name, text);
    let (rows, unread) = reading.pieces();
    reading.checked(Rows { text: text.to_owned(), rows, unread })
}

impl Reading<'_> {
    /// The pieces, and the names of columns of the shop's own.
    fn pieces(&mut self) -> (Vec<RecordRow>, Vec<String>) {
        let front = Front::of(self.name, self.text, usize::MAX, &mut self.problems);
        let mut records = self.lines().filter(|line| !line.iter().all(str::is_empty));
        let Some(head) = records.next() else {
            self.push(Problem::new("", "no table", "a head and one line a piece").example(EXAMPLE), None);
            return (Vec::new(), Vec::new());
        };
        let mut unread = Vec::new();
        let Some(columns) = self.piece_columns(&head, &mut unread) else { return (Vec::new(), unread) };
        let mut rows = Vec::new();
        let mut seen: BTreeMap<(String, String), usize> = BTreeMap::new();
        for record in records {
            if self.problems.len() >= MOST_PROBLEMS || rows.len() >= MOST_PIECES {
                break;
            }
            if let Some(row) = self.piece(&columns, &record, &front, &mut seen) {
                rows.push(row);
            }
        }
        if rows.is_empty() && self.problems.is_empty() {
            self.push(Problem::new("", "a head without a line", "one line a piece").example(EXAMPLE), None);
        }
        (rows, unread)
    }

    fn piece_columns(
        &mut self,
        head: &StringRecord,
        unread: &mut Vec<String>,
    ) -> Option<Vec<(Column, &'static str)>> {
        let places = cells(self.text, head);
        let mut columns: Vec<(Column, &'static str)> = Vec::new();
        let before = self.problems.len();
        for (cell, place) in head.iter().zip(&places) {
            match column(cell) {
                Ok((Column::Own, unit)) => {
                    let name = cell.trim_start_matches('#').trim();
                    if !name.is_empty() {
                        unread.push(text::short(name).into_owned());
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

    fn piece(
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

const KIND: TextKind = TextKind::csv(
    "a record of measured pieces",
    "one line a piece: job, piece, date, sweep [mm], camber [mm]",
    4 * LARGEST_BYTES,
);

/// The text of a record.
///
/// # Errors
/// A file that cannot be read.
fn text_of(path: &Path) -> Result<String, Diagnostics> {
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
