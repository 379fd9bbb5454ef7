//! Cold pressing: what a push does, how far it may go, how many are needed and where.
//!
//! `stack` is the section beyond yield, `span` one push, `bent` what it does, `range` what may be met instead, `second` the push after the
//! measuring push, `local` and `check` what the plates under ram and supports stand, `kinks` how many pushes and where,
//! `along` curves to look at.

mod along;
mod bent;
mod check;
mod error;
mod kinks;
mod layout;
pub mod local;
mod nnls;
mod points;
mod range;
mod second;
mod section;
mod span;
#[cfg(test)]
mod span_tests;
mod stack;

pub use along::{Loop, PadUse, load_stroke, moment_curvature, pad_use};
pub use bent::Bent;
pub use check::{Check, Pads, Slender, checks, not_compact};
pub use error::PressError;
pub use kinks::{Kinks, best, equal_kinks, fit, kink_offset_mm};
pub use layout::{Layout, Rams};
pub use local::shortest_span_mm;
pub use nnls::nnls;
pub use range::{Range, Ranged, YIELD_SPREAD, ranged};
pub use second::{Second, second_push};
pub use section::{PushFrom, WeldStress};
pub use span::PressSpan;
pub use stack::{Stack, StackError, State, Strip};
