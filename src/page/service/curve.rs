//! Results of many variants of a job.

use super::refused::{Refused, built, shape};
use serde::Deserialize;
use serde_json::Value;
use weldbow_engine::prediction::{Prediction, outside, predict};
use weldbow_engine::study::{Collected, collected};

/// Shapes, and what to read of each.
#[derive(Debug, Deserialize)]
pub(super) struct Curve {
    jobs: Vec<Value>,
    collect: Vec<String>,
}

impl Curve {
    /// One row a result, one value a job; null where a job makes no sense or has no such result.
    ///
    /// # Errors
    /// A name that is no result.
    pub(super) fn values(self) -> Result<Vec<Vec<Option<f64>>>, Refused> {
        let wanted = results(&self.collect)?;
        let mut rows = vec![Vec::with_capacity(self.jobs.len()); wanted.len()];
        for job in self.jobs {
            let prediction = shape(job).and_then(|file| built(&file)).ok().map(|job| predict(&job));
            let values = prediction.map_or_else(|| vec![None; wanted.len()], |p| numbers(&p, &wanted));
            rows.iter_mut().zip(values).for_each(|(row, value)| row.push(value));
        }
        Ok(rows)
    }
}

/// Results of a prediction; none where there is no such result, or the model does not cover it.
pub(super) fn numbers(prediction: &Prediction, wanted: &[Collected]) -> Vec<Option<f64>> {
    let none = outside(prediction);
    let inside = |result: &Collected| !none.iter().any(|outside| result.is_hidden_by(outside));
    let number = |result: &Collected| {
        inside(result).then(|| result.of(Some(prediction), &[None; 2])).filter(|value| value.is_finite())
    };
    wanted.iter().map(number).collect()
}

/// Results by name.
///
/// # Errors
/// A name that is none, with the nearest.
pub(super) fn results(names: &[String]) -> Result<Vec<Collected>, Refused> {
    let mut all = Vec::new();
    for name in names {
        let found = collected(name)
            .map_err(|no| Refused::Error(format!("`{name}` is no result; wanted: {}", no.wanted)))?;
        all.extend(found);
    }
    Ok(all)
}
