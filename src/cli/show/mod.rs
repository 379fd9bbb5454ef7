//! Results as tables for people. Numbers come from the prediction; nothing is worked out here but how to say it.

mod allowance;
mod chance;
mod estimates;
mod flanges;
mod headline;
mod hold;
mod level;
pub mod outside;
mod passes;
mod summary;
mod table;
mod tolerance;
mod trust;

pub use chance::{bare_chance, chance, if_right, percent};
pub use hold::remedies;
pub use summary::summary;
pub use table::{heading, put, row_table, wrapped, wrapped as paragraph};

use crate::prediction::{Code, Job, Prediction, Warning, outside as outside_model};
use crate::units::System;
use std::io::{Result, Write};

/// Everything about one job, in the order a shop asks.
///
/// # Errors
/// Only those of `out`.
pub fn report(job: &Job, prediction: &Prediction, system: System, out: &mut dyn Write) -> Result<()> {
    headline::member(job, prediction, system, out)?;
    let learned = |w: &&Warning| w.code == Code::Learned;
    for said in prediction.warnings.iter().filter(learned) {
        writeln!(out, "{}", said.text.in_units(system))?;
    }
    let none = outside_model(prediction);
    if !none.is_empty() {
        outside::outside(&none, system, out)?;
        // what is worked out from numbers that are none says nothing
        let said = |w: &&Warning| !matches!(w.code, Code::Ripple | Code::Twist | Code::BowLarge);
        let rest: Vec<Warning> = prediction.warnings.iter().filter(said).cloned().collect();
        return list_warnings(&rest, system, out);
    }
    headline::shape(prediction, system, out)?;
    level::level(prediction, system, out)?;
    flanges::flanges(job, prediction, system, out)?;
    tolerance::tolerance(job, prediction, system, out)?;
    allowance::allowance(job, prediction, system, out)?;
    passes::passes(prediction, system, out)?;
    estimates::estimates(prediction, system, out)?;
    // what was learned stands at the head
    let rest: Vec<Warning> = prediction.warnings.iter().filter(|w| !learned(w)).cloned().collect();
    list_warnings(&rest, system, out)?;
    trust::trust(out)
}

/// Warnings, one a paragraph.
///
/// # Errors
/// Only those of `out`.
pub fn list_warnings(warnings: &[Warning], system: System, out: &mut dyn Write) -> Result<()> {
    if warnings.is_empty() {
        return Ok(());
    }
    heading("Warnings", "", out)?;
    for warning in warnings {
        writeln!(out, "{}", wrapped(&warning.text.in_units(system)))?;
    }
    Ok(())
}
