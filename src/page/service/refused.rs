//! A job asked about, or why there is no answer.

use serde::Serialize;
use serde_json::Value;
use weldbow_engine::input::Problem;
use weldbow_engine::job::check;
use weldbow_engine::job::file::JobFile;
use weldbow_engine::prediction::Job;
use weldbow_files::reading::Diagnostics;

/// Why there is no answer.
#[derive(Debug)]
pub enum Refused {
    /// Everything wrong with a job.
    Problems(Vec<Mistake>),
    /// Anything else, in a sentence.
    Error(String),
}

/// One mistake of a job.
#[derive(Debug, Serialize)]
pub struct Mistake {
    path: String,
    found: String,
    wanted: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    right: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    example: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    line: Option<usize>,
}

impl From<Problem> for Mistake {
    fn from(problem: Problem) -> Self {
        let Problem { path, found, wanted, hint } = problem;
        let (right, example) = hint.lines();
        let [right, example] = [right, example].map(|line| line.map(str::to_owned));
        Self { path, found, wanted, right, example, line: None }
    }
}

impl From<Diagnostics> for Refused {
    fn from(complaint: Diagnostics) -> Self {
        let with_line = complaint.problems.into_iter();
        Self::Problems(
            with_line.map(|found| Mistake { line: Some(found.line), ..found.problem.into() }).collect(),
        )
    }
}

impl From<Vec<Problem>> for Refused {
    fn from(problems: Vec<Problem>) -> Self {
        Self::Problems(problems.into_iter().map(Mistake::from).collect())
    }
}

/// A job's shape from JSON.
pub(super) fn shape(job: Value) -> Result<JobFile, Refused> {
    serde_json::from_value(job).map_err(|error| Refused::Error(format!("the job cannot be read: {error}")))
}

/// A checked job.
pub(super) fn built(file: &JobFile) -> Result<Job, Refused> {
    check(file).map_err(Refused::from)
}
