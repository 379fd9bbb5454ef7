//! The pieces of one member, drawn and decided.

use super::case::Case;
use super::work::Basis;
use crate::job::file::JobFile;
use crate::prediction::Job;
use crate::scatter::{Draws, Pieces, SamplingFault};
use crate::straighten::shape::OutOfStraight;
use crate::study::fnv_1a;

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
    /// Draws all pieces; `shape` reads the shape of one.
    pub(super) fn new(
        job: &Job,
        file: &JobFile,
        draws: Draws,
        basis: &Basis,
        shape: impl Fn(&Job) -> Option<OutOfStraight>,
    ) -> Result<Self, SamplingFault> {
        let light = Job { carries: None, notes: Vec::new(), title: String::new(), ..job.clone() };
        let pieces = Pieces::new(&light, &file.scatter, draws, own_number(file))?;
        let mut room = pieces.room();
        let case = |job: &Job| shape(job).map(|s| Case::new(basis, s));
        let cases = (0..pieces.count()).map(|n| case(pieces.piece(n, &mut room).ok()?)).collect();
        let count = pieces.count().min(RIGHT_PIECES);
        let right = (0..count).map(|n| case(pieces.piece_without_bias(n, &mut room).ok()?)).collect();
        Ok(Self { cases, right, each: pieces.each() })
    }
}

/// Pieces that tell the chance if the model were right (choice: its standard error stays below 4 %).
const RIGHT_PIECES: usize = 200;

/// A number made of what the job says, so that a job has the same pieces in every order.
fn own_number(file: &JobFile) -> u64 {
    fnv_1a(serde_json::to_string(file).unwrap_or_default().as_bytes()) | 1
}
