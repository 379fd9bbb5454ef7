//! Results as tables for people. Numbers come from the prediction; nothing is worked out here but how to say it.

mod allowance;
mod constants;
mod headline;
pub(crate) mod lying;
mod methods;
mod notes;
mod report;
mod shown;
mod span;
mod summary;
mod table;
mod tolerance;

pub(super) use constants::constants;
pub(crate) use methods::{attachments, remedies};
use methods::{cross_welds, estimates, flanges, level, passes};
pub(super) use notes::More;
pub(crate) use notes::{SIGNS, list_warnings, problem as outside_problem};
use notes::{outside, trust};
pub(crate) use report::{Report, plain_text, wrapped};
pub(super) use span::chance;
pub(crate) use span::{bare, bare_chance, fine, from_welding_alone, if_right, percent, unit};
pub(crate) use summary::summary;
pub(super) use table::drawn;
pub(crate) use table::{Columns, listed, roomy, row_table};

use crate::prediction::{Job, Prediction, Warning, WarningCode, job_warnings, outside as outside_model};
use crate::units::System;
use shown::Shown;

/// Everything about one job, in the order a shop asks: is the job as meant, is it in tolerance, what will it do, what to do
/// about it.
pub(super) fn report(job: &Job, prediction: &Prediction, system: System, more: More, out: &mut Report) {
    headline::member(job, prediction, system, out);
    let learned = |w: &&Warning| matches!(w.code, WarningCode::Learned | WarningCode::NotLearned);
    let said = prediction.warnings.iter().filter(learned);
    said.for_each(|said| out.line(said.text.in_units(system)));
    let none = outside_model(prediction);
    if !none.is_empty() {
        outside(&none, system, out);
        // what is worked out from numbers that are none says nothing
        let said = |w: &&Warning| {
            !matches!(w.code, WarningCode::Ripple | WarningCode::Twist | WarningCode::BowLarge)
        };
        let rest: Vec<Warning> = prediction.warnings.iter().filter(said).cloned().collect();
        return list_warnings("Warnings", &rest, system, out);
    }
    let of_job = job_warnings(job).len().min(prediction.warnings.len());
    let (input, results) = prediction.warnings.split_at(of_job);
    let rest = |all: &[Warning]| all.iter().filter(|w| !learned(w)).cloned().collect::<Vec<_>>();
    let (input, results) = (rest(input), rest(results));
    list_warnings("Look at the input first", &input, system, out);
    let of = Shown { job, prediction, system, whole: more.methods };
    tolerance::tolerance(of, out);
    headline::shape(of, out);
    level(prediction, system, out);
    list_warnings("What to watch", &results, system, out);
    allowance::allowance(of, out);
    if more.methods {
        passes(prediction, system, out);
        prediction.cross_welds.iter().for_each(|cross| cross_welds(cross, system, out));
        flanges(job, prediction, system, out);
        tolerance::rules(prediction, system, out);
        estimates(prediction, system, out);
    }
    if more.constants {
        constants(&constants::behind(job, prediction), out);
    }
    trust(more, out)
}
