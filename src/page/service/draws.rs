//! Drawn pieces of a job: how often each limit is passed, and what results come to.

use super::curve::results;
use super::{Refused, shape};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use weldbow_engine::job::file::JobFile;
use weldbow_engine::prediction::predict;
use weldbow_engine::scatter::{Draws, Pieces};
use weldbow_engine::study::Collected;
use weldbow_engine::tolerance::{Quantity, Verdict};

/// Most pieces drawn for one answer (a choice: a second in a page).
const MOST: usize = 20_000;

/// A job, how many pieces, and what to keep of each.
#[derive(Debug, Deserialize)]
pub struct Draw {
    job: Value,
    count: usize,
    seed: u64,
    #[serde(default)]
    collect: Vec<String>,
}

/// How often one limit is passed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Out {
    /// Tolerance set.
    pub set: &'static str,
    /// What it limits.
    pub quantity: Quantity,
    /// Clause.
    pub clause: &'static str,
    /// Share of pieces beyond it, 0 to 1; bias and scatter together.
    pub share: f64,
}

/// What drawn pieces do.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Drawn {
    /// Limit by limit, in the order of the verdicts.
    pub out: Vec<Out>,
    /// Share of pieces beyond any limit.
    pub any: f64,
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
    pub fn found(self) -> Result<Drawn, Refused> {
        let wanted = results(&self.collect)?;
        drawn(&shape(self.job)?, self.count, self.seed, &wanted)
    }
}

/// Draws so many pieces, each with a bias of its own, and keeps these results.
///
/// # Errors
/// A job that makes no sense.
pub fn drawn(file: &JobFile, count: usize, seed: u64, wanted: &[Collected]) -> Result<Drawn, Refused> {
    let job = super::built(file)?;
    let count = count.clamp(2, MOST);
    let draws = Draws { bias: count, pieces: 1, seed };
    let pieces =
        Pieces::new(&job, &file.scatter, draws, 0).map_err(|fault| Refused::Error(fault.to_string()))?;
    let mut room = pieces.room();
    let mut out: Vec<(Out, usize)> = predict(&job).verdicts.iter().map(|v| (of(v), 0)).collect();
    let mut values = vec![Vec::with_capacity(count); wanted.len()];
    let (mut any, mut good, mut refused) = (0_usize, 0_usize, 0_usize);
    for n in 0..count {
        let Ok(piece) = pieces.piece(n, &mut room) else {
            refused += 1;
            continue;
        };
        let prediction = predict(piece);
        good += 1;
        let mut beyond = false;
        for (k, verdict) in prediction.verdicts.iter().enumerate() {
            let passed = verdict.margin < 0.0;
            beyond |= passed;
            if let Some((_, times)) = out.get_mut(k).filter(|(out, _)| same(out, verdict)) {
                *times += usize::from(passed);
            }
        }
        any += usize::from(beyond);
        for (row, result) in values.iter_mut().zip(wanted) {
            row.push(Some(result.of(Some(&prediction), &[None; 2])).filter(|v| v.is_finite()));
        }
    }
    let share = |times: usize| times as f64 / good.max(1) as f64;
    let out = out.into_iter().map(|(out, times)| Out { share: share(times), ..out }).collect();
    Ok(Drawn { out, any: share(any), values, refused })
}

const fn of(verdict: &Verdict) -> Out {
    Out { set: verdict.set, quantity: verdict.quantity, clause: verdict.clause, share: 0.0 }
}

fn same(out: &Out, verdict: &Verdict) -> bool {
    (out.set, out.quantity, out.clause) == (verdict.set, verdict.quantity, verdict.clause)
}
