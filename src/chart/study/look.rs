//! How lines of one plot are told apart.

use crate::ramp::class_ink;
use crate::theme::{STEEL, Stroke, series};

/// How lines are told apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Look {
    /// By colour, dashes and mark.
    Series,
    /// So many values of one number: from pale to dark, so that their order is seen.
    Shaded(usize),
    /// One that is meant, and others beside it in grey.
    OneOfMany,
}

impl Look {
    /// How the line of that rank is drawn.
    pub(super) fn stroke(self, rank: usize) -> Stroke {
        let own = series(rank);
        match self {
            Self::Series => own,
            Self::Shaded(of) => Stroke { ink: class_ink(rank, of), ..own },
            Self::OneOfMany if rank == 0 => Stroke { width: 3.2, ..own },
            Self::OneOfMany => Stroke { ink: STEEL, width: 1.4, dash: own.dash },
        }
    }
}
