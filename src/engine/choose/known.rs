//! What was predicted already: climbs from different places meet, and a candidate met again is looked up.

use super::candidate::{Candidate, SearchSpace};
use super::score::{Score, screened};
use crate::prediction::Job;
use std::collections::HashMap;
use std::sync::{Mutex, MutexGuard, PoisonError};

/// A candidate with its score.
#[derive(Debug, Clone, PartialEq)]
pub struct Scored {
    /// Candidate.
    pub candidate: Candidate,
    /// Score.
    pub score: Score,
}

/// Scores by candidate; none for one that cannot be laid. A score depends on its candidate alone, so it does not matter which
/// thread finds it first.
pub(crate) struct Known(Mutex<HashMap<Vec<u64>, Option<Score>>>);

impl Known {
    /// What is known to begin with.
    pub(crate) fn of(all: &[Scored]) -> Self {
        Self(Mutex::new(all.iter().map(|s| (s.candidate.bits(), Some(s.score))).collect()))
    }

    fn table(&self) -> MutexGuard<'_, HashMap<Vec<u64>, Option<Score>>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// The score of a candidate, predicted in `job` if nobody has yet.
    pub(crate) fn score(
        &self,
        ground: &SearchSpace<'_>,
        candidate: &Candidate,
        job: &mut Job,
    ) -> Option<Score> {
        let bits = candidate.bits();
        let found = self.table().get(&bits).copied();
        found.unwrap_or_else(|| {
            let score = screened(ground, candidate, job);
            self.table().insert(bits, score);
            score
        })
    }
}

impl Candidate {
    /// What tells it from every other.
    pub fn bits(&self) -> Vec<u64> {
        let mut out = Vec::with_capacity(64);
        out.extend([self.way as u64, u64::from(self.cold)]);
        for trip in &self.trips {
            out.extend([trip.entry as u64, trip.speed_mm_s.to_bits(), trip.beads.len() as u64]);
            for bead in &trip.beads {
                out.push(bead.legs.len() as u64);
                out.extend(bead.legs.iter().flat_map(|(at, leg)| [*at as u64, leg.to_bits()]));
            }
        }
        out
    }
}
