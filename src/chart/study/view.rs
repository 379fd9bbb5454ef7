//! What the pictures of a study are drawn from.

use weldbow_engine::prediction::Job;
use weldbow_engine::scatter::{OneAtATime, Share};
use weldbow_engine::study::Table;

/// What a study brought back, and what is said with every picture of it.
#[derive(Debug, Clone, Copy)]
pub struct StudyView<'a> {
    /// Title of the study.
    pub title: &'a str,
    /// What the study teaches; its first clause stands under the title, the count of cases then goes to the foot.
    pub lesson: &'a str,
    /// One line under every chart: what was computed, from which job.
    pub source: &'a str,
    /// One row a case.
    pub table: &'a Table,
    /// Cases in a row that share a draw of the model bias; 1 if every case is drawn for itself.
    pub pieces: usize,
    /// Inputs moved alone, for a tornado chart; of the one result that the chart names as `y`.
    pub swings: &'a [OneAtATime],
    /// Parts of the variance, for a chart of shares; of the one result that the chart names as `y`.
    pub shares: &'a [Share],
    /// Rows whose case carries a warning, rising; their marks are hollow, values at their bars have an exclamation mark.
    pub warned: &'a [usize],
    /// The job whose member is drawn where the spec says so.
    pub member: Option<&'a Job>,
}

impl StudyView<'_> {
    /// Whether a row's case carries a warning.
    pub(super) fn warns(&self, row: usize) -> bool {
        self.warned.binary_search(&row).is_ok()
    }

    /// What says so under the chart, by its sign; empty if none does.
    pub(super) fn sign_of_warning(&self, sign: &str) -> String {
        if self.warned.is_empty() { String::new() } else { format!("{sign}: a case with a warning") }
    }
}
