//! The push log: readings of the pushes made so far, one line a push.
//!
//! ```text
//! step, travel [mm], force [kN], set [mm]
//! 2,    24.1,        43,         3.9
//! ```
//! Step as the plan numbers it; travel from the light pre-load, with two rams that of a dial midway; force in each ram, may be blank; what
//! stayed in all at the gauge.

use crate::reading::{Diagnostics, LARGEST_BYTES, TextKind, text_of_path};
use crate::readings::{Reading, name_and_unit, with_point};
use csv::StringRecord;
use std::path::Path;
use weldbow_engine::input::{Problem, near};
use weldbow_engine::straighten::plan::PushReading;
use weldbow_engine::units::{Kind, read as quantity};

const NAMES: [&str; 4] = ["step", "travel", "force", "set"];
const EXAMPLE: &str = "step, travel [mm], force [kN], set [mm]";
/// Most pushes taken.
const MOST: usize = 1000;

/// Readings of one step, in the order of the pushes.
#[derive(Debug, Clone, PartialEq)]
pub struct Pushed {
    /// Number of the step in the plan.
    pub step: usize,
    /// Its pushes.
    pub readings: Vec<PushReading>,
}

/// Reads a push log.
///
/// # Errors
/// Everything that is wrong with it.
pub fn read_path(path: &Path) -> Result<Vec<Pushed>, Diagnostics> {
    let kind = TextKind::csv("a push log", EXAMPLE, LARGEST_BYTES);
    read_text(&path.display().to_string(), &text_of_path(path, kind)?)
}

/// Reads a push log from its text; `name` is what complaints call it.
///
/// # Errors
/// Everything that is wrong with it.
///
/// ```
/// let log = weldbow_files::push_log::read_text("log", "step, travel [mm], force [kN], set [mm]\n1, 24.1, 43, 3.9\n");
/// assert!(log.is_ok_and(|l| l[0].readings[0].force_n == Some(43e3)));
/// ```
pub fn read_text(name: &str, text: &str) -> Result<Vec<Pushed>, Diagnostics> {
    let mut reading = Reading { most: usize::MAX, ..Reading::of(name, text) };
    let found = reading.pushes();
    reading.checked(found)
}

/// A column's name and unit.
type Head = (&'static str, String);

impl Reading<'_> {
    fn pushes(&mut self) -> Vec<Pushed> {
        let mut lines = self.lines();
        let Some(head) = lines.next() else {
            self.push(Problem::new("", "no table", "a head and one line a push").example(EXAMPLE), None);
            return Vec::new();
        };
        let rows: Vec<StringRecord> = lines.collect();
        let Some(columns) = self.push_columns(&head) else { return Vec::new() };
        let mut out: Vec<Pushed> = Vec::new();
        if rows.len() > MOST {
            let found = format!("{} pushes", rows.len());
            self.push(Problem::new("", found, format!("at most {MOST} pushes of one piece")), None);
            return out;
        }
        for row in rows {
            if let Some((step, reading)) = self.pushed(&columns, &row) {
                match out.iter_mut().find(|p| p.step == step) {
                    Some(known) => known.readings.push(reading),
                    None => out.push(Pushed { step, readings: vec![reading] }),
                }
            }
        }
        if out.is_empty() && self.problems.is_empty() {
            let problem = Problem::new("", "no push", "one line a push below the head");
            self.push(problem.example("1, 24.1, 43, 3.9"), None);
        }
        out
    }

    /// Which name and unit each column has.
    fn push_columns(&mut self, head: &StringRecord) -> Option<Vec<Head>> {
        let before = self.problems.len();
        let mut columns: Vec<Head> = Vec::new();
        for cell in head {
            let (name, unit) = name_and_unit(cell);
            let (name, unit) = (name.to_lowercase(), unit.unwrap_or_default().to_owned());
            let Some(known) = NAMES.iter().find(|n| **n == name) else {
                let (found, wanted) = (format!("unknown column `{name}`"), near::wanted(&name, &NAMES));
                let problem = Problem::new("head of the table", found, wanted);
                self.push(problem.example(EXAMPLE), self.place(head));
                continue;
            };
            let kind = if *known == "force" { Kind::Force } else { Kind::Length };
            if *known != "step" && kind.unit(&unit).is_none() {
                let wanted = format!("its unit with the name, a {}", kind.noun());
                self.push(
                    Problem::new(*known, format!("`{cell}`"), wanted).example(EXAMPLE),
                    self.place(head),
                );
            }
            if columns.iter().any(|c| c.0 == *known) {
                self.push(
                    Problem::new(*known, "the same column again", "each column once"),
                    self.place(head),
                );
            }
            columns.push((known, unit));
        }
        for needed in ["step", "travel", "set"] {
            if self.problems.len() == before && !columns.iter().any(|c| c.0 == needed) {
                let problem = Problem::new(needed, "nothing", format!("a column `{needed}`"));
                self.push(problem.example(EXAMPLE), self.place(head));
            }
        }
        (self.problems.len() == before).then_some(columns)
    }

    fn pushed(&mut self, columns: &[Head], row: &StringRecord) -> Option<(usize, PushReading)> {
        let before = self.problems.len();
        if row.len() != columns.len() {
            let found = format!("{} cells in a line", row.len());
            self.push(Problem::new("", found, format!("{}, as in the head", columns.len())), self.place(row));
            return None;
        }
        let (mut step, mut travel, mut force, mut set) = (0, 0.0, None, 0.0);
        for ((name, unit), cell) in columns.iter().zip(row) {
            if *name == "step" {
                let wanted = "the number of a step of the plan, from 1";
                match cell.parse::<usize>() {
                    Ok(n) if n > 0 => step = n,
                    _ => self.push(Problem::new("step", format!("`{cell}`"), wanted), self.place(row)),
                }
                continue;
            }
            if *name == "force" && cell.is_empty() {
                continue;
            }
            let kind = if *name == "force" { Kind::Force } else { Kind::Length };
            // a comma may stand in a number where it does not keep cells apart
            let number = with_point(cell, self.comma);
            match quantity(kind, &format!("{number} {unit}")) {
                Ok(value) if value >= 0.0 || *name == "set" => match *name {
                    "travel" => travel = value,
                    "force" => force = Some(value),
                    _ => set = value,
                },
                _ => {
                    let wanted = format!("a number of {unit}, not below zero");
                    self.push(Problem::new(*name, format!("`{cell}`"), wanted), self.place(row));
                }
            }
        }
        (self.problems.len() == before)
            .then_some((step, PushReading { travel_mm: travel, force_n: force, set_mm: set }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A log with decimal commas was refused, though the measured file beside it was read.
    #[test]
    fn a_comma_may_stand_in_a_number_where_semicolons_keep_cells_apart() {
        let read = |text| read_text("log.csv", text).map_err(|c| c.to_string());
        let log = read("step; travel [mm]; force [kN]; set [mm]\n1; 46,8; 290,5; −0,5\n").unwrap();
        let wanted = PushReading { travel_mm: 46.8, force_n: Some(290.5e3), set_mm: -0.5 };
        assert_eq!(log, [Pushed { step: 1, readings: vec![wanted] }]);
        assert!(read("step, travel [mm], set [mm]\n1, \"46,8\", 6.1\n").is_err());
    }
}
