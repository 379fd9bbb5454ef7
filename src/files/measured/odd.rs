//! One question about readings.

use crate::readings::Placed;
use std::ops::Range;
use weldbow_engine::input::Problem;
use weldbow_engine::units::{Message, System};

/// The way to say that odd readings stand.
const CHECKED: &str = "# readings: checked, once they were read again";

/// What is odd about readings.
#[derive(Debug, Clone, PartialEq)]
pub struct OddReading {
    /// The column.
    pub column: &'static str,
    /// What is odd.
    pub found: Message,
    /// What would be usual.
    pub usual: Message,
    /// The head as it may be meant.
    meant: Option<String>,
    /// Where it stands in the file.
    place: Option<Range<usize>>,
}

impl OddReading {
    pub(super) const fn new(
        column: &'static str,
        found: Message,
        usual: Message,
        place: Option<Range<usize>>,
    ) -> Self {
        Self { column, found, usual, meant: None, place }
    }

    /// The same, where another head may be meant.
    pub(super) fn meant(self, head: String) -> Self {
        Self { meant: Some(head), ..self }
    }

    /// It as a complaint.
    pub(super) fn asked(&self, system: System) -> Placed {
        let problem = Problem::new(self.column, self.found.in_units(system), self.usual.in_units(system));
        let right = self.meant.as_ref().map_or(CHECKED.to_owned(), |head| format!("{head}, or {CHECKED}"));
        (problem.right(right), self.place.clone())
    }
}
