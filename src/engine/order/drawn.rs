//! The pieces of one member, drawn and decided.

use super::case::Case;
use super::work::Basis;
use crate::job::file::JobFile;
use crate::prediction::Job;
use crate::scatter::PlanFault;
use crate::straighten::shape::OutOfStraight;
use crate::study::Pieces;

/// How pieces are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
pub struct Draws {
    /// Draws of the model bias, which all pieces of the order share.
    pub bias: usize,
    /// Pieces of each mark in each of them.
    pub pieces: usize,
    /// The same seed draws the same pieces.
    pub seed: u64,
}

impl Default for Draws {
    /// 40 draws × 10 pieces (choice: the standard error of a chance stays below 8 %).
    fn default() -> Self {
        Self { bias: 40, pieces: 10, seed: 1 }
    }
}

/// Drawn pieces, draw after draw; None where the drawn numbers make no job.
pub(super) struct Drawn {
    pub cases: Vec<Option<Case>>,
    /// The same pieces with the bias at its middle.
    pub right: Vec<Option<Case>>,
    pub each: usize,
}

impl Drawn {
    /// Draws all pieces; `shape` reads the shape of one.
    pub fn new(
        file: &JobFile,
        draws: Draws,
        basis: &Basis,
        shape: impl Fn(&Job) -> Option<OutOfStraight>,
    ) -> Result<Self, PlanFault> {
        let own = own_number(file);
        let pieces = Pieces::new(file, draws.bias, draws.pieces, draws.seed, own)?;
        let case = |job: Option<Job>| job.and_then(|job| shape(&job)).map(|s| Case::new(basis, s));
        let cases = (0..pieces.count()).map(|n| case(pieces.piece(n).ok())).collect();
        let count = pieces.count().min(RIGHT_PIECES);
        let right = (0..count).map(|n| case(pieces.piece_without_bias(n).ok())).collect();
        Ok(Self { cases, right, each: pieces.each() })
    }
}

/// Pieces that tell the chance if the model were right (choice: its standard error stays below 4 %).
const RIGHT_PIECES: usize = 200;

/// A number made of what the job says, so that a job has the same pieces in every order: FNV-1a of 64 bits (published
/// constants; memory, sure).
fn own_number(file: &JobFile) -> u64 {
    let text = serde_json::to_string(file).unwrap_or_default();
    let hash = text.bytes().fold(0xcbf2_9ce4_8422_2325, |hash: u64, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
    });
    hash | 1
}
