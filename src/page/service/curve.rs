//! Results of many variants of a job.

use super::{Refused, built, shape};
use serde::Deserialize;
use serde_json::Value;
use weldbow_engine::prediction::predict;
use weldbow_engine::study::{Collected, collected};

/// Shapes, and what to read of each.
#[derive(Debug, Deserialize)]
pub struct Curve {
    jobs: Vec<Value>,
    collect: Vec<String>,
}

impl Curve {
    /// One row a result, one value a job; null where a job makes no sense or has no such result.
    ///
    /// # Errors
    /// A name that is no result.
    pub fn values(self) -> Result<Vec<Vec<Option<f64>>>, Refused> {
        let wanted = results(&self.collect)?;
        let mut rows = vec![Vec::with_capacity(self.jobs.len()); wanted.len()];
        for job in self.jobs {
            let prediction = shape(job).and_then(|file| built(&file)).ok().map(|job| predict(&job));
            for (row, result) in rows.iter_mut().zip(&wanted) {
                row.push(
                    prediction.as_ref().map(|p| result.of(Some(p), &[None; 2])).filter(|v| v.is_finite()),
                );
            }
        }
        Ok(rows)
    }
}

/// Results by name.
///
/// # Errors
/// A name that is none, with the nearest.
pub fn results(names: &[String]) -> Result<Vec<Collected>, Refused> {
    let mut all = Vec::new();
    for name in names {
        let found = collected(name)
            .map_err(|no| Refused::Error(format!("`{name}` is no result; wanted: {}", no.wanted)))?;
        all.extend(found);
    }
    Ok(all)
}
