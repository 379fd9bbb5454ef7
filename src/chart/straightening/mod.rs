//! Pictures of a plan for straightening: the shape before and after, and for the hardest push what its section, its ram and
//! the plates under its pads do.

mod bending;
mod pads;
mod rule;
mod setup;
mod shape;
mod stroke;

use super::{Done, Picture};
use weldbow_engine::prediction::Job;
use weldbow_engine::straighten::piece::Piece;
use weldbow_engine::straighten::plan::{Plan, Push, Work};
use weldbow_engine::units::System;

pub use setup::straightening_setup;
pub(crate) use shape::straightening_shape;
pub use shape::straightening_sketch;

/// All pictures of a plan; those of a push only if there is one.
///
/// # Errors
/// [`ChartError::NotANumber`](crate::ChartError::NotANumber) if the plan holds a value that is not finite; the other errors mean a broken build.
pub fn straightening_pictures(job: &Job, piece: &Piece, plan: &Plan, system: System) -> Done<Vec<Picture>> {
    let mut out = vec![straightening_shape(job, piece, plan, system)?];
    if let Some(push) = worst(plan, |p| p.bent.nominal.mu) {
        out.push(bending::bending(job, push)?);
        out.push(stroke::stroke(job, push, system)?);
        out.push(rule::rule(job, push, piece.weld, system)?);
    }
    // sideways a pad on two flange edges uses next to nothing: no picture
    if let Some(push) =
        worst(plan, |p| if p.layout.from.strong() { p.worst.map_or(0.0, |c| c.ratio) } else { 0.0 })
    {
        out.push(pads::pads(job, piece, push, system)?);
    }
    Ok(out)
}

/// The push that has most of something; None if none has any.
fn worst(plan: &Plan, of: impl Fn(&Push) -> f64) -> Option<&Push> {
    let steps = plan.chosen.iter().flat_map(|c| &c.way.steps);
    let pushes = steps.filter_map(|s| match &s.work {
        Work::Push(push) => Some(push.as_ref()),
        _ => None,
    });
    pushes.filter(|p| of(p) > 0.0).max_by(|a, b| of(a).total_cmp(&of(b)))
}
