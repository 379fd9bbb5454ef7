//! Memory that a run may take.

use std::fmt::Display;

/// Most that rows or drawn pieces are held in, bytes (a choice).
const MOST: f64 = 1.5e9;

/// What to say of work that would take more bytes than that.
pub(super) fn too_much(work: impl Display, bytes: f64) -> Option<String> {
    (bytes > MOST).then(|| {
        format!(
            "{work} take about {:.1} GB of memory, and {:.1} GB are used at most",
            bytes / 1e9,
            MOST / 1e9
        )
    })
}
