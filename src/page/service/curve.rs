//! Results of many jobs: along a curve, or of drawn pieces.

use super::refused::{Refused, built, shape};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use weldbow_engine::job::file::JobFile;
use weldbow_engine::prediction::{Prediction, outside, predict};
use weldbow_engine::scatter::{Draws, Pieces, SamplingFault, out_of_limits};
use weldbow_engine::study::{Collected, collected};
use weldbow_engine::tolerance::Likely;

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

/// Most pieces drawn for one answer (a choice: a second in a page).
const MOST: usize = 20_000;

/// A job, how many pieces, and what to keep of each.
#[derive(Debug, Deserialize)]
pub(crate) struct Draw {
    job: Value,
    count: usize,
    seed: u64,
    #[serde(default)]
    collect: Vec<String>,
}

/// What drawn pieces do.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Drawn {
    /// Limit by limit, in the order of the verdicts: how likely it is passed.
    pub likely: Vec<Likely>,
    /// How likely any limit is.
    pub any: Likely,
    /// One row a result, one value a piece.
    pub values: Vec<Vec<Option<f64>>>,
    /// Pieces that make no sense and are left out.
    pub refused: usize,
}

impl Draw {
    /// Draws.
    ///
    /// # Errors
    /// A job that makes no sense, a name that is no result.
    pub(crate) fn found(self) -> Result<Drawn, Refused> {
        let wanted = results(&self.collect)?;
        drawn(&shape(self.job)?, self.count, self.seed, &wanted)
    }
}

/// How likely each limit is passed, as every other command says it, and these results of so many pieces, each with a bias of
/// its own so that their picture is smooth.
///
/// # Errors
/// A job that makes no sense.
pub fn drawn(file: &JobFile, count: usize, seed: u64, wanted: &[Collected]) -> Result<Drawn, Refused> {
    let job = built(file)?;
    let fault = |fault: SamplingFault| Refused::Error(fault.to_string());
    let verdicts = predict(&job).verdicts;
    let out = out_of_limits(&job, &verdicts, Draws::USUAL, |v| v.value).map_err(fault)?;
    let mut drawn = Drawn { any: out.any(), likely: out.likely, ..Drawn::default() };
    if wanted.is_empty() {
        return Ok(drawn);
    }
    let count = count.clamp(2, MOST);
    let draws = Draws { bias: count, pieces: 1, seed };
    let pieces = Pieces::new(&job, draws, 0).map_err(fault)?;
    let mut room = pieces.room();
    drawn.values = vec![Vec::with_capacity(count); wanted.len()];
    for n in 0..count {
        let Ok(piece) = pieces.piece(n, &mut room) else {
            drawn.refused += 1;
            continue;
        };
        let values = numbers(&predict(piece), wanted);
        drawn.values.iter_mut().zip(values).for_each(|(row, value)| row.push(value));
    }
    Ok(drawn)
}
