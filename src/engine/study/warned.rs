//! What the cases of a study warn of: a study is no way around the warnings of its jobs.

use super::definition::Study;
use super::warnings::{Warned, WarnedOf};
use crate::prediction::{Warning, WarningCode, predict};
use rayon::prelude::*;
use std::cmp::Reverse;

/// Cases looked at, evenly among all (a choice: some hundredths of a second's work).
const MOST_LOOKED_AT: u64 = 500;

impl Study {
    /// The warnings of its cases, each job made through its file, so that legs, heats and plates are held against each other
    /// as a job's are. Multipliers are what a study varies: they are no warning here. A study of draws has its job's own.
    pub fn warned(&self) -> Warned {
        let cases = if self.is_sampled() { 1 } else { self.count() };
        let looked_at = cases.min(MOST_LOOKED_AT);
        let case = |i: u64| i * cases / looked_at.max(1);
        let each: Vec<Vec<Warning>> =
            (0..looked_at).into_par_iter().map(|i| self.warnings_of(case(i))).collect();
        let mut of: Vec<WarnedOf> = Vec::new();
        let mut said: Vec<(u64, WarningCode)> = Vec::new();
        for (i, warnings) in (0..looked_at).zip(each) {
            for warning in warnings.into_iter().filter(|w| w.code != WarningCode::Factors) {
                if said.contains(&(case(i), warning.code)) {
                    continue;
                }
                said.push((case(i), warning.code));
                match of.iter_mut().find(|known| known.code == warning.code) {
                    Some(known) => known.cases += 1,
                    None => of.push(WarnedOf { code: warning.code, cases: 1, first: warning }),
                }
            }
        }
        of.sort_by_key(|kind| Reverse(kind.cases));
        let own = |code: WarningCode| of.iter().any(|kind| kind.code == code && kind.cases < looked_at);
        let mut which: Vec<u64> =
            said.into_iter().filter(|(_, code)| own(*code)).map(|said| said.0).collect();
        which.dedup();
        // marks on all would tell none from another
        if which.len() as u64 == looked_at {
            which.clear();
        }
        Warned { looked_at, cases: self.count(), which, of }
    }

    /// Warnings of one case; none where there is no job.
    pub(super) fn warnings_of(&self, case: u64) -> Vec<Warning> {
        let draws = self.draws_each();
        let values = self.grid.at(case / draws);
        let middle = self.draws.as_ref().map_or_else(Vec::new, |d| vec![0.5; d.point(case % draws).len()]);
        self.job_by_file(&values, &self.drawn(&middle))
            .map_or_else(|_| Vec::new(), |job| predict(&job).warnings)
    }
}
