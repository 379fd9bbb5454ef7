//! A prediction outside its model: what is left of it to be shown.

use super::table::{heading, wrapped};
use crate::input::Problem;
use crate::prediction::{Job, Outside, Prediction, outside as outside_of, predict};
use crate::tolerance::Quantity;
use crate::units::System;
use serde_json::{Map, Value};
use std::io::{Result, Write};

/// Says what is outside, in place of the numbers.
///
/// # Errors
/// Only those of `out`.
pub fn outside(all: &[Outside], system: System, out: &mut dyn Write) -> Result<()> {
    heading("Outside what this model covers", "no numbers can be given", out)?;
    all.iter().try_for_each(|one| writeln!(out, "{}", wrapped(&one.reason.in_units(system))))
}

/// What to say of a job whose pieces cannot be judged, because the model says nothing of it.
pub fn problem(job: &Job) -> Option<Problem> {
    let why = outside_of(&predict(job)).into_iter().next()?;
    Some(Problem::new("", "a job outside what the model covers", why.reason.to_string()))
}

/// A prediction for other programs: fields outside the model are null, and `outside` says why.
///
/// # Errors
/// If it cannot be written as JSON.
pub fn json(prediction: &Prediction, all: &[Outside]) -> Result<Value> {
    let mut value = serde_json::to_value(prediction)?;
    let Some(fields) = value.as_object_mut().filter(|_| !all.is_empty()) else { return Ok(value) };
    for field in all.iter().flat_map(|one| one.fields) {
        fields.insert((*field).to_owned(), Value::Null);
        for (of, quantity) in [("camber", Quantity::Camber), ("sweep", Quantity::Sweep)] {
            if of == *field {
                no_verdict(fields, quantity);
            }
        }
    }
    fields.insert("outside".to_owned(), serde_json::to_value(all)?);
    Ok(value)
}

/// Nothing is judged by a bow that is no number.
fn no_verdict(fields: &mut Map<String, Value>, quantity: Quantity) {
    let name = serde_json::to_value(quantity).unwrap_or_default();
    let Some(Value::Array(verdicts)) = fields.get_mut("verdicts") else { return };
    for verdict in verdicts.iter_mut().filter(|v| v.get("quantity") == Some(&name)) {
        for field in ["value", "value_2s", "verdict"] {
            if let Some(held) = verdict.get_mut(field) {
                *held = Value::Null;
            }
        }
    }
}
