//! How well a number is known, so that a reader can check the doubtful ones first.

use serde::Serialize;

/// How a limit, a rule or a constant is known.
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
    /// Follows from other numbers by a formula that stands beside it.
    Derived,
    /// Our own calculation, with the script or study that repeats it; no measurement.
    OwnCalculation,
    /// What shops do; nobody published it in a form that we could name.
    Practice,
    /// A judgement or a choice of ours.
    Choice,
}

impl Trust {
    /// The mark and what it means.
    const fn said(self) -> [&'static str; 2] {
        match self {
            Self::Read => ["", "read in the document"],
            Self::SecondHand => ["2nd hand", "read in another's account of the document"],
            Self::MemorySure => ["memory", "from memory, well established"],
            Self::MemoryCheck => ["check", "from memory, to be checked against the document"],
            Self::Inferred => ["inferred", "inferred: the document was not seen to say this in words"],
            Self::Derived => ["derived", "derived from other numbers"],
            Self::OwnCalculation => ["own calc.", "own calculation, not compared with a measurement"],
            Self::Practice => ["practice", "common practice, no source"],
            Self::Choice => ["choice", "a judgement or choice of ours"],
        }
    }

    /// Short mark for a table; empty for what was read.
    pub const fn mark(self) -> &'static str {
        self.said()[0]
    }

    /// A clause or a source with the mark behind it; alone if it was read.
    ///
    /// ```
    /// use weldbow_engine::sources::Trust;
    /// assert_eq!(Trust::SecondHand.beside("B.6-3"), "B.6-3, 2nd hand");
    /// assert_eq!(Trust::Read.beside("B.6-3"), "B.6-3");
    /// ```
    pub fn beside(self, clause: &str) -> String {
        match self.mark() {
            "" => clause.to_owned(),
            mark => format!("{clause}, {mark}"),
        }
    }

    /// What the mark means.
    pub const fn words(self) -> &'static str {
        self.said()[1]
    }
}
