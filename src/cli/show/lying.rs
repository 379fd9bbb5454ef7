//! What a tape reads while the piece lies.

use super::table::{heading, row_table};
use crate::prediction::{Job, Prediction};
use crate::shop::measured::Front;
use crate::straighten::lying::{Lying, LyingBow, LyingReading, reading};
use crate::straighten::shape::ShapeError;
use crate::units::{System, show};
use std::io::{Result as Written, Write};

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
pub(crate) fn show(reading: &LyingReading, system: System, out: &mut dyn Write) -> Written<()> {
    let remark = "each where it is largest, from the line between its ends; camber + inner, sweep + near";
    heading("What a tape reads as it lies", remark, out)?;
    let mut table =
        row_table(&["", "the member itself", "by its own weight", "by the warm side", "reads"], 1..5);
    for (name, bow) in [("camber", &reading.camber), ("sweep", &reading.sweep)] {
        let LyingBow { true_mm, weight_mm, warmth_mm, read_mm, .. } = bow;
        let [own, weight, warm, read] =
            [true_mm, weight_mm, warmth_mm, read_mm].map(|mm| show::offset(*mm, system));
        table.add_row([name.to_owned(), own, weight, warm, read]);
    }
    table.put(out)
}
