//! Jobs from a right text, for tests.

use super::file::JobFile;
use super::{Job, build};

/// The shape of a job.
pub fn file_of_text(_: &str, text: &str) -> Result<JobFile, String> {
    toml::from_str(text).map_err(|error| error.to_string())
}

/// A checked job.
pub fn read_text(name: &str, text: &str) -> Result<Job, String> {
    build(&file_of_text(name, text)?).map_err(|problems| format!("{problems:?}"))
}
