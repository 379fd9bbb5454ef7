//! A checked shop.

use crate::choose::Book;
use crate::job::file::{JobFile, LearnedShape};
use crate::straighten::piece::Measuring;
use crate::straighten::plan;

/// A checked shop.
#[derive(Debug, Clone, PartialEq)]
pub struct Shop {
    /// What it calls itself.
    pub title: String,
    /// Press, rollers, torches, rates; the leg under the press pads is the job's and left at 0.
    pub tools: plan::Equipment,
    /// How well it measures.
    pub measuring: Measuring,
    /// Rates that are placeholders, as the file calls them.
    pub placeholder_rates: Vec<&'static str>,
    /// Chance that a piece needs straightening from which the shop gets ready for it.
    pub plan_from_chance: f64,
    /// What its own pieces say, for jobs that name no such file.
    pub learned: Option<LearnedShape>,
    /// Welding line and qualified procedures; none without a `[[book]]`.
    pub welding: Option<Book>,
}

impl Shop {
    /// Gives a job what the shop's own pieces say, unless it names a file of its own.
    pub fn lend(&self, job: &mut JobFile) {
        lend(self.learned.as_ref(), job);
    }
}

/// Gives a job what a shop's pieces say, unless it names a file of its own.
pub(super) fn lend(learned: Option<&LearnedShape>, job: &mut JobFile) {
    if job.learned.is_none() {
        job.learned = learned.cloned();
    }
}
