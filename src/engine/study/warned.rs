//! What the cases of a study warn of: a study is no way around the warnings of its jobs.

use super::definition::Study;
use crate::prediction::{Code, Warning, predict};
use rayon::prelude::*;
use std::cmp::Reverse;

/// Cases looked at, evenly among all (a choice: some hundredths of a second's work).
const MOST_LOOKED_AT: u64 = 500;

/// Warnings of one kind.
#[derive(Debug, Clone, PartialEq)]
pub struct WarnedOf {
    /// What they are about.
    pub code: Code,
    /// Cases that have one.
    pub cases: u64,
    /// The first of them.
    pub first: Warning,
}

/// Warnings of a study's cases.
#[derive(Debug, Clone, PartialEq)]
pub struct Warned {
    /// Cases looked at.
    pub looked_at: u64,
    /// Cases in all.
    pub cases: u64,
    /// Kinds of warnings, the commonest first.
    pub of: Vec<WarnedOf>,
}

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
        for warnings in each {
            let mut said: Vec<Code> = Vec::new();
            for warning in warnings.into_iter().filter(|w| w.code != Code::Factors) {
                if said.contains(&warning.code) {
                    continue;
                }
                said.push(warning.code);
                match of.iter_mut().find(|known| known.code == warning.code) {
                    Some(known) => known.cases += 1,
                    None => of.push(WarnedOf { code: warning.code, cases: 1, first: warning }),
                }
            }
        }
        of.sort_by_key(|kind| Reverse(kind.cases));
        Warned { looked_at, cases: self.count(), of }
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
