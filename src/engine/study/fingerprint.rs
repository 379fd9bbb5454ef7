//! Whether rows on disk belong to a study: a number made of everything that decides what its rows hold.

use super::file::StudyFile;
use crate::job::file::JobFile;
use crate::scatter::fnv_1a;

/// This build: changes with everything that decides what is computed.
pub const BUILD: &str = env!("WELDBOW_BUILD");

/// Changes with what a row holds: the study without its words and charts, its jobs, and this build.
pub(super) fn fingerprint(file: &StudyFile, jobs: &[&JobFile]) -> u64 {
    let bare = StudyFile { title: String::new(), lesson: None, charts: Vec::new(), ..file.clone() };
    let parts = [serde_json::to_string(&bare), serde_json::to_string(jobs)];
    let text = parts
        .into_iter()
        .map(Result::unwrap_or_default)
        .chain([BUILD.to_owned()])
        .collect::<Vec<_>>()
        .join("\n");
    fnv_1a(text.as_bytes())
}
