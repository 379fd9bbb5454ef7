//! What a tape reads while the piece lies.

use super::report::Report;
use super::table::Columns;
use crate::prediction::{Job, Prediction};
use crate::shop::measured::Front;
use crate::straighten::lying::{Lying, LyingReading, reading};
use crate::straighten::shape::ShapeError;
use crate::units::{System, show};

/// The readings of a piece that lies or is warm as its notes say; None if they say neither.
pub(crate) fn of(
    job: &Job,
    prediction: &Prediction,
    front: &Front,
) -> Option<Result<LyingReading, ShapeError>> {
    let ends = [0.0, job.member.length_mm];
    let on = front.up.map(|up| (up, front.lay_on_mm.unwrap_or(ends)));
    let lying = Lying { on, warmer: front.warmer };
    (lying.on.is_some() || lying.warmer.is_some()).then(|| reading(&job.member, prediction, &lying))
}

/// A table of both bows.
pub(crate) fn show(reading: &LyingReading, system: System, out: &mut Report) {
    let remark = "each where it is largest, from the line between its ends; camber + inner, sweep + near";
    out.heading("What a tape reads as it lies", remark);
    Columns::of([("camber", &reading.camber), ("sweep", &reading.sweep)])
        .left("", |(name, _)| *name)
        .right("the member itself", |(_, bow)| show::offset(bow.true_mm, system))
        .right("by its own weight", |(_, bow)| show::offset(bow.weight_mm, system))
        .right("by the warm side", |(_, bow)| show::offset(bow.warmth_mm, system))
        .right("reads", |(_, bow)| show::offset(bow.read_mm, system))
        .put(out)
}
