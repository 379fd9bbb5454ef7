//! Results as tables for people. Numbers come from the prediction; nothing is worked out here but how to say it.

mod allowance;
mod chance;
mod constants;
mod cross;
mod estimates;
mod flanges;
mod headline;
mod hold;
mod level;
mod listed;
pub(crate) mod lying;
pub(super) mod outside;
mod passes;
mod report;
mod shown;
mod signs;
mod span;
mod summary;
mod table;
mod tolerance;
mod trust;
mod warnings;

pub(super) use chance::chance;
pub(crate) use chance::{bare_chance, from_welding_alone, if_right, percent};
pub(super) use constants::constants;
pub(crate) use cross::said as attachments;
pub(crate) use hold::remedies;
pub(crate) use listed::listed;
pub(crate) use report::{Report, plain_text, wrapped};
pub(crate) use signs::SIGNS;
pub(crate) use span::{bare, fine, unit};
pub(crate) use summary::summary;
pub(super) use table::drawn;
pub(crate) use table::{Columns, roomy, row_table};
pub(super) use trust::More;
pub(crate) use warnings::list_warnings;

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
        outside::outside(&none, system, out);
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
    level::level(prediction, system, out);
    list_warnings("What to watch", &results, system, out);
    allowance::allowance(of, out);
    if more.methods {
        passes::passes(prediction, system, out);
        prediction.cross_welds.iter().for_each(|cross| cross::each(cross, system, out));
        flanges::flanges(job, prediction, system, out);
        tolerance::rules(prediction, system, out);
        estimates::estimates(prediction, system, out);
    }
    if more.constants {
        constants(&constants::behind(job, prediction), out);
    }
    trust::trust(more, out)
}
