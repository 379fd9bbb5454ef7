//! How well a limit is known, so that a reader can check the doubtful ones first.

use serde::Serialize;

/// How a limit is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Trust {
    /// Its wording was read, on a page of the document itself or a plain copy of one.
    Read,
    /// Read where somebody else retells the document.
    SecondHand,
    /// Recalled, and the same in every retelling.
    MemorySure,
    /// Recalled with some doubt: check it against the document before relying on it.
    MemoryCheck,
    /// The document does not say it for this case in words that were seen; read into it.
    Inferred,
}

impl Trust {
    /// Short mark for a table; empty for what was read.
    pub const fn mark(self) -> &'static str {
        match self {
            Self::Read => "",
            Self::SecondHand => "2nd hand",
            Self::MemorySure => "memory",
            Self::MemoryCheck => "check",
            Self::Inferred => "inferred",
        }
    }

    /// What the mark means.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Read => "read in the document",
            Self::SecondHand => "read in another's account of the document",
            Self::MemorySure => "from memory, well established",
            Self::MemoryCheck => "from memory, to be checked against the document",
            Self::Inferred => "inferred: the document was not seen to say this in words",
        }
    }
}
