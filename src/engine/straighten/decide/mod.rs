//! Whether to act: one piece against its limit, what may not be advised, and what a family of pieces says.

mod family;
mod piece;
mod refuse;

pub use family::{Advice, Capability, Family, FamilyError};
pub use piece::{Action, Limits, MeasuredValue, reaction_mm};
pub(crate) use refuse::refusals;
pub use refuse::{Delivery, InService, Refusal, Situation};
