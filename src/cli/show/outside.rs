//! A prediction outside its model: what is left of it to be shown.

use super::report::Report;
use crate::input::Problem;
use crate::prediction::{Job, Outside, outside as outside_of, predict};
use crate::units::System;

/// Says what is outside, in place of the numbers.
pub(crate) fn outside(all: &[Outside], system: System, out: &mut Report) {
    out.heading("Outside what this model covers", "no numbers can be given");
    all.iter().for_each(|one| out.say(one.reason.in_units(system)))
}

/// What to say of a job whose pieces cannot be judged, because the model says nothing of it.
pub(crate) fn problem(job: &Job) -> Option<Problem> {
    let why = outside_of(&predict(job)).into_iter().next()?;
    Some(Problem::new("", "a job outside what the model covers", why.reason.to_string()))
}
