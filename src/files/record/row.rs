//! One line of a record, as written.

use super::columns::{LENGTHS, WORDS};
use crate::measured::Front;
use crate::measured::columns::length_of;
use crate::measured::front_values::short;
use crate::readings::with_point;
use std::collections::BTreeMap;
use std::ops::Range;
use weldbow_engine::input::{Problem, day_number, text};

/// One piece, as written.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RecordRow {
    /// Line of the record, from 1.
    pub(super) line_number: usize,
    /// Job file, from where the record lies; empty if the mark says which.
    pub job: String,
    /// Mark of the member; empty if none is named.
    pub mark: String,
    /// List that says which job a mark is, from where the record lies; without one the mark's job is a file of its name.
    pub marks: Option<String>,
    /// The piece.
    pub piece: String,
    /// Day it was welded, counted from 1970-01-01.
    pub day: Option<i32>,
    /// Welding line; empty if none is named.
    pub line: String,
    /// Procedure; empty if none is named.
    pub procedure: String,
    /// Family.
    pub family: Option<String>,
    /// Whether the web was cut to the ordinates of the prediction.
    pub web_cut: bool,
    /// File with readings at stations, from where the record lies.
    pub readings: Option<String>,
    /// What is known of the piece and of how it was measured.
    pub front: Front,
    /// Lengths, mm: as the columns are.
    pub(super) lengths: [Option<f64>; LENGTHS.len()],
    /// Where cells stand, by column.
    pub(super) places: BTreeMap<&'static str, Range<usize>>,
    /// Unit in which each length is written.
    pub(super) units: [&'static str; LENGTHS.len()],
}

impl RecordRow {
    /// Where a column of it stands in the text.
    pub fn place(&self, column: &str) -> Option<Range<usize>> {
        self.places.get(column).cloned()
    }

    /// A row of which only that is known.
    pub(super) fn new(line_number: usize, front: &Front) -> Self {
        Self { line_number, front: front.clone(), units: ["mm"; LENGTHS.len()], ..Self::default() }
    }

    /// Takes what the front says of whose piece it is; cells of its own come after.
    pub(super) fn labelled(&mut self) -> Result<(), Problem> {
        let label = std::mem::take(&mut self.front.label);
        let known = WORDS.iter().enumerate().filter_map(|(i, word)| Some((i, label.get(word)?)));
        let known: Vec<(usize, &String)> = known.collect();
        known.into_iter().try_for_each(|(column, value)| self.word(column, value))
    }

    pub(super) fn word(&mut self, column: usize, cell: &str) -> Result<(), Problem> {
        let name = text::short(cell).into_owned();
        match WORDS[column] {
            "job" => self.job = cell.to_owned(),
            "mark" => self.mark = name,
            "marks" => self.marks = Some(cell.to_owned()),
            "piece" => self.piece = name,
            "line" => self.line = name,
            "procedure" => self.procedure = name,
            "family" => self.family = Some(name),
            "readings" => self.readings = Some(cell.to_owned()),
            "date" => {
                let wanted = if cell.contains('/') {
                    "a date: year, month, day. With slashes nobody can tell the day from the month"
                } else {
                    "a date: year, month, day"
                };
                let problem =
                    || Problem::new("date", format!("`{}`", short(cell)), wanted).example("2026-05-12");
                self.day = Some(day_number(cell).ok_or_else(problem)?);
            }
            _ => {
                self.web_cut = match cell.to_lowercase().as_str() {
                    "straight" => false,
                    "ordinates" => true,
                    _ => {
                        let wanted = "how the web was cut: straight, or to the ordinates of the prediction";
                        let problem = Problem::new("web", format!("`{}`", short(cell)), wanted);
                        return Err(problem.example("ordinates"));
                    }
                };
            }
        }
        Ok(())
    }

    /// Takes a length; `comma`: whether a comma may stand in it.
    pub(super) fn length(
        &mut self,
        column: usize,
        unit: &str,
        cell: &str,
        comma: bool,
    ) -> Result<(), Problem> {
        let value = length_of(LENGTHS[column], cell, &with_point(cell, comma), unit)
            .map_err(|problem| problem.example("12.5"))?;
        self.lengths[column] = Some(value);
        Ok(())
    }
}
