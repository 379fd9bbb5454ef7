//! In place of the factor where only formulas are wanted: every system says that this build solves none.

use super::factorising::{Grouping, SolveError};

/// Cannot be made.
pub(super) enum Factor {}

impl Factor {
    /// # Errors
    /// Always `NotBuilt`.
    pub(super) fn new(_: usize, _: &[usize], _: &[usize], _: Grouping) -> Result<Self, SolveError> {
        Err(SolveError::NotBuilt)
    }

    /// Is never reached.
    pub(super) fn fill(&mut self, _: usize, _: &[usize], _: &[usize], _: &[f64]) -> Result<(), SolveError> {
        match *self {}
    }

    /// Is never reached.
    pub(super) fn solve(&mut self, _: usize, _: &mut [f64]) {
        match *self {}
    }
}
