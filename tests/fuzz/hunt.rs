//! Runs a family: so many cases, or for so many seconds; a case that fails is named by its number, so that it can be run again alone.

use super::damage::Dice;
use super::families::Family;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::{Duration, Instant};

/// Failures after which a family stops.
const ENOUGH: usize = 5;

/// What to run.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Hunt {
    /// Of all cases.
    pub seed: u64,
    /// First case.
    pub from: u64,
    /// Most cases.
    pub cases: u64,
    /// Most seconds, if time counts.
    pub seconds: Option<f64>,
}

/// What a family brought.
#[derive(Debug, Default)]
pub(crate) struct Catch {
    /// Cases followed.
    pub tried: u64,
    /// Of these, taken by the reader and followed to their results.
    pub taken: u64,
    /// Seconds in all, and of the slowest case.
    pub seconds: [f64; 2],
    /// What is wrong, with the number of the case.
    pub failures: Vec<String>,
}

/// Follows the cases of a family.
pub(crate) fn hunt(family: Family, what: Hunt) -> Catch {
    let started = Instant::now();
    let end = what.seconds.map(|s| started + Duration::from_secs_f64(s));
    let mut all = Catch::default();
    for case in (what.from..).take(usize::try_from(what.cases).unwrap_or(usize::MAX)) {
        if end.is_some_and(|end| Instant::now() >= end) || all.failures.len() >= ENOUGH {
            break;
        }
        let begun = Instant::now();
        let mut dice = Dice::new(what.seed, case);
        let outcome = catch_unwind(AssertUnwindSafe(|| family(&mut dice)));
        all.tried += 1;
        all.seconds[1] = all.seconds[1].max(begun.elapsed().as_secs_f64());
        match outcome {
            Ok(Ok(taken)) => all.taken += u64::from(taken),
            Ok(Err(what)) => all.failures.push(format!("case {case}: {what}")),
            Err(_) => all.failures.push(format!("case {case}: a panic, told above")),
        }
    }
    all.seconds[0] = started.elapsed().as_secs_f64();
    all
}

impl Catch {
    /// In one line.
    pub(crate) fn said(&self, name: &str, seed: u64) -> String {
        format!(
            "{name}: {} cases of seed {seed}, {} taken, in {:.1} s, the slowest in {:.2} s, {} failures",
            self.tried,
            self.taken,
            self.seconds[0],
            self.seconds[1],
            self.failures.len()
        )
    }
}
