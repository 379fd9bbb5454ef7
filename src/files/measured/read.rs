//! From a CSV file or text to readings, with every mistake and its place.

use super::columns::{Column, EXAMPLE, Head, Measured, Source, column, length_of, length_unit};
use super::front::{Front, no_side};
use super::front_values::short;
use crate::reading::{Diagnostics, LARGEST_BYTES, TextKind, text_of_path};
use crate::readings::{MOST_PROBLEMS, Reading, cells, whole, with_point};
use csv::StringRecord;
use std::ops::Range;
use std::path::Path;
use weldbow_engine::input::Problem;
use weldbow_engine::input::findings::mm;
use weldbow_engine::member::Seam;
use weldbow_engine::straighten::shape::Toes;

const KIND: TextKind =
    TextKind::csv("measured offsets", "one line a station: x [m], camber [mm], sweep [mm]", LARGEST_BYTES);
/// Fewest stations: both ends and one between.
const FEWEST: usize = 3;
/// Places nearer to each other are one place read twice, mm (choice: what a tape can tell).
const CLOSEST_MM: f64 = 1.0;

/// Reads measured offsets from a file.
///
/// # Errors
/// Everything wrong with it.
pub fn read_path(path: &Path) -> Result<Measured, Diagnostics> {
    read_text(&path.display().to_string(), &text_of_path(path, KIND)?)
}

/// Reads measured offsets from a text; `name` is what complaints call it.
///
/// # Errors
/// Everything wrong with it.
///
/// ```
/// let text = "# up: inner\nx [m], camber [mm]\n0, 0\n4.5, 12\n9, 0\n";
/// let measured = weldbow_files::measured::read_text("piece.csv", text).map_err(|c| c.to_string())?;
/// assert!((measured.x_mm[1] - 4500.0).abs() < 1e-9 && measured.sweep_mm.is_none());
/// # Ok::<(), String>(())
/// ```
pub fn read_text(name: &str, text: &str) -> Result<Measured, Diagnostics> {
    let mut reading = Reading::of(name, text);
    let front = reading.front();
    match reading.offsets(front) {
        Some(measured) => reading.checked(measured),
        None => Err(Diagnostics::placed(name, text, reading.problems)),
    }
}

/// What is wrong where one toe of a flange was read without the other.
pub(crate) fn one_toe(seam: Seam) -> Problem {
    let (name, wanted) = (seam.name(), "both toes of a flange, or neither");
    Problem::new(format!("{name} toes"), format!("one toe of the {name} flange only"), wanted)
}

impl Reading<'_> {
    /// Lines that start with # say what is known; they may stand anywhere.
    fn front(&mut self) -> Front {
        let front = Front::of(self.name, self.text, MOST_PROBLEMS, &mut self.problems);
        if front.lacks_side() {
            let at = self.text.find("lay on").or_else(|| self.text.find("string")).unwrap_or(0);
            self.push(no_side(), Some(at..at + 6));
        }
        front
    }

    fn offsets(&mut self, front: Front) -> Option<Measured> {
        let mut lines = self.lines();
        let Some(head) = lines.next() else {
            let problem = Problem::new("", "no table", "a head and one line a station");
            self.push(problem.example(EXAMPLE), Some(0..0));
            return None;
        };
        let mut rows: Vec<StringRecord> = lines.collect();
        let columns = self.offset_columns(&head, &mut rows)?;
        self.stations(&columns, &rows, front)
    }

    /// Columns with their units and places; a first row of units only is taken as such.
    fn offset_columns(&mut self, head: &StringRecord, rows: &mut Vec<StringRecord>) -> Option<Vec<Head>> {
        let places = cells(self.text, head);
        let units: Vec<Option<&'static str>> =
            rows.first().map_or(Vec::new(), |r| r.iter().map(length_unit).collect());
        let unit_row = !units.is_empty() && units.iter().all(Option::is_some);
        if unit_row {
            rows.remove(0);
        }
        let before = self.problems.len();
        let mut columns: Vec<Head> = Vec::new();
        for (i, cell) in head.iter().enumerate() {
            let place = places.get(i).cloned().unwrap_or(0..0);
            let below = units.get(i).copied().flatten().filter(|_| unit_row);
            match column(cell) {
                Ok((c, _)) if columns.iter().any(|known| known.0 == c) => {
                    self.push(
                        Problem::new(c.name(), "the same column again", "each column once"),
                        Some(place),
                    );
                }
                Ok((c, unit)) => match unit.or(below) {
                    Some(unit) => columns.push((c, unit, place)),
                    None => {
                        let found = format!("`{}` without a unit", short(cell));
                        let wanted = "its unit with the name, or a line of units below the head";
                        let problem = Problem::new(c.name(), found, wanted);
                        self.push(problem.example(format!("{} [mm]", c.name())), Some(place.clone()));
                        columns.push((c, "mm", place));
                    }
                },
                Err(problem) => self.push(problem, Some(place)),
            }
        }
        let whole = whole(&places);
        let has = |c: Column| columns.iter().any(|known| known.0 == c);
        if self.problems.len() == before && !has(Column::X) {
            let problem = Problem::new("x", "nothing", "a column `x`, the place from the start end");
            self.push(problem.example("x [m]"), Some(whole.clone()));
        }
        let toes = [Column::Toe(0, 0), Column::Toe(1, 0)].into_iter().any(has);
        if self.problems.len() == before && !has(Column::Camber) && !has(Column::Sweep) && !toes {
            let problem = Problem::new("", "no offsets", "a column `camber`, `sweep` or two toes");
            self.push(problem.example(EXAMPLE), Some(whole));
        }
        (self.problems.len() == before).then_some(columns)
    }

    fn stations(&mut self, columns: &[Head], rows: &[StringRecord], front: Front) -> Option<Measured> {
        let before = self.problems.len();
        let has = |c: Column| columns.iter().any(|known| known.0 == c);
        let mut out = Measured {
            x_mm: Vec::new(),
            camber_mm: has(Column::Camber).then(Vec::new),
            sweep_mm: has(Column::Sweep).then(Vec::new),
            toes: Vec::new(),
            front,
            source: Source {
                file: self.name.to_owned(),
                text: self.text.to_owned(),
                heads: columns.to_vec(),
                rows: Vec::new(),
            },
        };
        let mut last: Option<f64> = None;
        for row in rows {
            let places = cells(self.text, row);
            let line = whole(&places);
            if row.len() != columns.len() {
                let found = format!("{} cells in a line", row.len());
                let wanted = format!("{} cells, as in the head (toes may be blank)", columns.len());
                self.push(Problem::new("", found, wanted), Some(line));
                continue;
            }
            let mut toes = [[None; 2]; 2];
            let mut x = 0.0;
            for (((column, unit, _), cell), place) in columns.iter().zip(row).zip(&places) {
                let toe = matches!(column, Column::Toe(..));
                if cell.is_empty() && toe {
                    continue;
                }
                let Some(value) = self.offset(*column, unit, cell, place) else { continue };
                match column {
                    Column::X => {
                        if let Some(last) = last.filter(|l| value < l + CLOSEST_MM) {
                            let found = format!("{} after {}", mm(value), mm(last));
                            let least = mm(last + CLOSEST_MM);
                            let wanted =
                                format!("places that rise from line to line, each once: {least} or more");
                            self.push(Problem::new("x", found, wanted), Some(place.clone()));
                        }
                        (last, x) = (Some(value), value);
                    }
                    Column::Camber => out.camber_mm.get_or_insert_default().push(value),
                    Column::Sweep => out.sweep_mm.get_or_insert_default().push(value),
                    Column::Toe(flange, side) => toes[*flange][*side] = Some(value),
                }
            }
            out.x_mm.push(x);
            out.source.rows.push(places);
            for (seam, pair) in Seam::BOTH.into_iter().zip(toes) {
                match pair {
                    [Some(near_mm), Some(far_mm)] => out.toes.push(Toes { seam, x_mm: x, near_mm, far_mm }),
                    [None, None] => {}
                    _ => self.push(one_toe(seam), Some(line.clone())),
                }
            }
        }
        if self.problems.len() == before && out.x_mm.len() < FEWEST {
            let end = self.text.trim_end().len();
            let found = format!("{} stations", out.x_mm.len());
            let wanted = "both ends and at least one station between; five or more show the shape";
            self.push(Problem::new("", found, wanted), Some(end.saturating_sub(1)..end));
        }
        (self.problems.len() == before).then_some(out)
    }

    fn offset(&mut self, column: Column, unit: &str, cell: &str, place: &Range<usize>) -> Option<f64> {
        let name = column.name();
        if cell.is_empty() {
            let problem = Problem::new(name, "an empty cell", "a number (only toes may be blank)");
            self.push(problem, Some(place.clone()));
            return None;
        }
        let number = with_point(cell, self.comma);
        length_of(name, cell, &number, unit).map_err(|problem| self.push(problem, Some(place.clone()))).ok()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Readings with decimal commas were refused here and read by `calibrate`.
    #[test]
    fn a_comma_may_stand_in_a_number_where_semicolons_keep_cells_apart() {
        // a spreadsheet fills the line of a note up with empty cells
        let text = "\u{feff}# delivery: ordinary;;\nx [m];camber [mm]\n0;0\n4,5;−12,5\n9;0\n";
        let read = read_text("piece.csv", text).map_err(|c| c.to_string()).unwrap();
        assert_eq!((read.x_mm[1], read.camber_mm.unwrap()[1]), (4500.0, -12.5));
        assert!(read_text("piece.csv", "x [m],camber [mm]\n0,0\n4.5,\"12,5\"\n9,0\n").is_err());
    }
}
