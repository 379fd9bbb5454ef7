//! Cold pressing: what a push does, how far it may go, how many are needed and where.
//!
//! `stack` is the section beyond yield, `span` one push, `hinge` the load that folds the member, `bent` what it does, `range` what may be met instead, `local`
//! and `check` what the plates under ram and supports stand, `kinks` how many pushes and where,
//! `along` curves to look at. `sideways` is the load at which a member pushed about its strong axis goes sideways, `stability` where side
//! guides keep it from that.

mod along;
mod banded;
mod bent;
mod check;
mod error;
mod hinge;
mod kinks;
mod layout;
pub mod local;
mod nnls;
mod points;
mod range;
mod section;
mod shear_centre;
mod sideways;
mod span;
#[cfg(test)]
mod span_tests;
mod stability;
mod stack;
mod stiffener;

pub use along::{Loop, PadUse, load_stroke, moment_curvature, pad_use};
pub use bent::Bent;
pub(crate) use check::not_compact;
pub use check::{Bears, ForceCheck, Pads, Slender, checks};
pub use error::PressError;
pub(crate) use kinks::best;
pub use kinks::{Kinks, fit, kink_offset_mm};
pub use layout::{PressLayout, Rams};
pub(crate) use range::YIELD_SPREAD;
pub use range::{Range, Ranged, ranged};
pub use section::{PushFrom, WeldStress, plastic_n_mm};
pub use shear_centre::shares;
pub(crate) use shear_centre::{UNEVEN, flange_use, shear_centre_mm};
pub use sideways::{Height, Sideways};
pub use span::PressSpan;
pub use stability::{Guides, Stability, sidesway_n};
pub(crate) use stability::{Unstable, held_straight};
pub use stack::{LayeredSection, PlateLayer, StackError, State};
pub use stiffener::Stiffener;
