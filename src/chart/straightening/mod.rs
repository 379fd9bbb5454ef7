//! Pictures of a plan for straightening: the shape before and after, and for the hardest push what its section, its ram and
//! the plates under its pads do.

mod bending;
mod pads;
mod shape;
mod stroke;

use super::{ChartError, Picture};
use crate::prediction::Job;
use crate::straighten::piece::Piece;
use crate::straighten::plan::{Plan, Push, Work};
use crate::units::System;

pub use shape::straightening_shape;

/// All pictures of a plan; those of a push only if there is one.
///
/// # Errors
/// [`ChartError::NotANumber`] if the plan holds a value that is not finite; the other errors mean a broken build.
pub fn straightening_pictures(
    job: &Job,
    piece: &Piece,
    plan: &Plan,
    system: System,
) -> Result<Vec<Picture>, ChartError> {
    let mut out = vec![straightening_shape(job, piece, plan, system)?];
    if let Some(push) = hardest(plan) {
        out.push(bending::bending(job, push)?);
        out.push(stroke::stroke(job, push, system)?);
        out.push(pads::pads(job, piece, push, system)?);
    }
    Ok(out)
}

/// The push that bends most, by curvature over that at first yield.
fn hardest(plan: &Plan) -> Option<&Push> {
    let steps = plan.chosen.iter().flat_map(|c| &c.way.steps);
    let pushes = steps.filter_map(|s| match &s.work {
        Work::Push(push) => Some(push.as_ref()),
        _ => None,
    });
    pushes.max_by(|a, b| a.bent.nominal.mu.total_cmp(&b.bent.nominal.mu))
}
