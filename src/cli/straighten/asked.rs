//! A job that was judged and planned for, and what its push log says.

use crate::prediction::Job;
use crate::shop::{Assessed, Shop};
use crate::straighten::plan::Next;
use crate::straighten::press::Range;
use serde::Serialize;
use std::path::PathBuf;

/// A job that could be planned for.
pub(super) struct Asked {
    pub file: PathBuf,
    pub job: Job,
    pub shop: Shop,
    pub(crate) own_shop: bool,
    /// The measured file; None if the shape is the predicted one.
    pub measured: Option<PathBuf>,
    pub found: Assessed,
    /// What the push log says.
    pub(crate) logged: Vec<Logged>,
    /// Name of the piece, if its file or an option tells it.
    pub piece: Option<String>,
    /// Fingerprint of the measured file.
    pub hash: Option<String>,
    /// Day of the plan.
    pub date: String,
}

/// What to do at one place.
#[derive(Debug, Clone, Serialize)]
pub(crate) struct Logged {
    /// Step of the plan.
    pub(crate) step: usize,
    /// Pushes made.
    pub(crate) pushes: usize,
    /// Yield strength that explains them, MPa, with and without stress in the seams.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) yield_mpa: Option<Range>,
    /// What next.
    pub(crate) next: Next,
}
