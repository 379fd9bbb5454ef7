//! Drawn pieces of an option: how likely one is inside every tolerance, by [`out_at_most`].

use super::constraints::Constraints;
use crate::prediction::Job;
use crate::scatter::{Deviations, Draws, OutOfLimits, out_at_most};
use crate::tolerance::{Quantity, Verdict};
use std::collections::BTreeMap;

/// So much of a piece is none.
const HAIR: f64 = 1e-6;

/// What drawn pieces say.
#[derive(Debug, Clone, Default, PartialEq, serde::Serialize)]
pub struct DrawnChances {
    /// Part of the pieces inside every tolerance.
    pub inside: f64,
    /// Standard error of that part.
    pub standard_error: f64,
    /// Pieces drawn.
    pub drawn: usize,
    /// Part of the pieces outside, by quantity judged.
    pub outside: BTreeMap<&'static str, f64>,
    /// The same in the order of [`Quantity::ALL`].
    #[serde(skip)]
    pub out_of: [f64; Quantity::ALL.len()],
}

/// Draws as many of the bias as wished. What the shop makes up for is taken off every piece alike.
pub fn pieces(job: &Job, verdicts: &[Verdict], own: &Deviations, wishes: &Constraints) -> DrawnChances {
    until(job, verdicts, own, wishes, 0.0)
}

/// The same, but no further than it takes to know that fewer than that part of the pieces are inside.
pub(crate) fn until(
    job: &Job,
    verdicts: &[Verdict],
    own: &Deviations,
    wishes: &Constraints,
    inside: f64,
) -> DrawnChances {
    let draws = Draws { bias: wishes.draws.max(2), ..Draws::USUAL };
    let most = (1.0 - inside) * draws.count() as f64 + HAIR;
    match out_at_most(job, verdicts, own, draws, |v| wishes.met(v), most.max(0.0) as usize) {
        Ok(found) => DrawnChances::of(&found),
        Err(_) => {
            DrawnChances { standard_error: 1.0, out_of: [1.0; Quantity::ALL.len()], ..Default::default() }
        }
    }
}

impl DrawnChances {
    fn of(found: &OutOfLimits) -> Self {
        let any = found.any();
        let out_of = Quantity::ALL.map(|q| found.of(|of| of == q).chance);
        let outside = Quantity::ALL.into_iter().map(Quantity::key).zip(out_of);
        Self {
            inside: 1.0 - any.chance,
            standard_error: any.standard_error,
            drawn: found.drawn,
            outside: outside.filter(|(_, part)| *part > 0.0).collect(),
            out_of,
        }
    }
}
