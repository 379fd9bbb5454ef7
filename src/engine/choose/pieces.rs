//! Drawn pieces of an option: how likely one is inside every tolerance, by [`out_of_limits`].

use super::constraints::Constraints;
use crate::prediction::Job;
use crate::scatter::{Deviations, Draws, OutOfLimits, out_of_limits};
use crate::tolerance::{Quantity, Verdict};
use std::collections::BTreeMap;

/// What drawn pieces say.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Pieces {
    /// Part of the pieces inside every tolerance.
    pub inside: f64,
    /// Standard error of that part.
    pub standard_error: f64,
    /// Pieces drawn.
    pub drawn: usize,
    /// Part of the pieces outside, by quantity judged.
    pub outside: BTreeMap<&'static str, f64>,
}

/// Draws as many of the bias as wished. What the shop makes up for is taken off every piece alike.
pub fn pieces(job: &Job, verdicts: &[Verdict], own: &Deviations, wishes: &Constraints) -> Pieces {
    let draws = Draws { bias: wishes.draws.max(2), ..Draws::USUAL };
    match out_of_limits(job, verdicts, own, draws, |v| wishes.met(v)) {
        Ok(found) => Pieces::of(&found),
        Err(_) => Pieces { inside: 0.0, standard_error: 1.0, drawn: 0, outside: BTreeMap::new() },
    }
}

impl Pieces {
    fn of(found: &OutOfLimits) -> Self {
        let any = found.any();
        let outside = Quantity::ALL.into_iter().map(|q| (q.name(), found.of(|of| of == q).chance));
        Self {
            inside: 1.0 - any.chance,
            standard_error: any.standard_error,
            drawn: found.drawn,
            outside: outside.filter(|(_, part)| *part > 0.0).collect(),
        }
    }
}
