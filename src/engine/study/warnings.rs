//! Warnings of a study's cases, counted.

use crate::prediction::{Warning, WarningCode};

/// Warnings of one kind.
#[derive(Debug, Clone, PartialEq)]
pub struct WarnedOf {
    /// What they are about.
    pub code: WarningCode,
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
    /// Those of them that carry one that not all do, what all carry is the job's own; none where every case has some of its own.
    pub which: Vec<u64>,
    /// Kinds of warnings, the commonest first.
    pub of: Vec<WarnedOf>,
}

impl Warned {
    /// How many cases carry a warning, for the line under a chart; nothing if none does.
    pub fn said(&self) -> Option<String> {
        let (carry, of) = (self.which.len(), self.looked_at);
        match (self.of.is_empty(), carry) {
            (true, _) => None,
            (false, 0) => Some("Every case carries a warning".to_owned()),
            (false, 1) => Some(format!("1 of {of} cases carries a warning that the others do not")),
            (false, _) => Some(format!("{carry} of {of} cases carry a warning that the others do not")),
        }
    }

    /// Whether a case carries a warning, of a study all of whose cases were looked at: half of them marked would say that the
    /// others are sound.
    pub fn marks(&self, case: u64) -> bool {
        self.looked_at == self.cases && self.which.binary_search(&case).is_ok()
    }
}
