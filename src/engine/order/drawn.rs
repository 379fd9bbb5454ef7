//! The pieces of one member, drawn and decided.

use super::basis::shape;
use super::case::Case;
use super::work::Basis;
use crate::job::file::JobFile;
use crate::prediction::{Job, Wanted, predict_each};
use crate::scatter::{Draws, PIECES_AT_ONCE, Pieces, SamplingFault, fnv_1a};
use crate::straighten::shape::OutOfStraight;

/// How an order draws unless it is told: 40 draws × 10 pieces of every mark (choice: the standard error of a chance stays
/// below 8 %).
pub const DRAWS: Draws = Draws { bias: 40, pieces: 10, seed: 1 };

/// Drawn pieces, draw after draw; None where the drawn numbers make no job.
pub(super) struct Drawn {
    pub cases: Vec<Option<Case>>,
    /// The same pieces with the bias at its middle.
    pub right: Vec<Option<Case>>,
    pub each: usize,
}

impl Drawn {
    /// Draws all pieces; `left` takes out of the shape of one what is made up for.
    pub(super) fn new(
        job: &Job,
        file: &JobFile,
        draws: Draws,
        basis: &Basis,
        left: impl Fn(OutOfStraight) -> OutOfStraight,
    ) -> Result<Self, SamplingFault> {
        let light = Job { carries: None, notes: Vec::new(), title: String::new(), ..job.clone() };
        let pieces = Pieces::new(&light, draws, own_number(file))?;
        let mut room = pieces.room();
        let mut cases = |count: usize, biased: bool| {
            let mut all = Vec::with_capacity(count);
            for from in (0..count).step_by(PIECES_AT_ONCE) {
                let asked = from..count.min(from + PIECES_AT_ONCE);
                let (jobs, there) = pieces.row(asked.map(|n| (n, biased)), &mut room);
                let mut made = Vec::with_capacity(jobs.len());
                predict_each(jobs, &Wanted::SHAPE, |job, drawn| {
                    made.push(shape(job, drawn).map(|shape| Case::new(basis, left(shape))));
                });
                let mut made = made.into_iter();
                all.extend(there.into_iter().map(|there| there.then(|| made.next().flatten()).flatten()));
            }
            all
        };
        let right = cases(pieces.count().min(RIGHT_PIECES), false);
        let cases = cases(pieces.count(), true);
        Ok(Self { cases, right, each: pieces.each() })
    }
}

/// Pieces that tell the chance if the model were right (choice: its standard error stays below 4 %).
const RIGHT_PIECES: usize = 200;

/// A number made of what the job says, so that a job has the same pieces in every order.
fn own_number(file: &JobFile) -> u64 {
    fnv_1a(serde_json::to_string(file).unwrap_or_default().as_bytes()) | 1
}
