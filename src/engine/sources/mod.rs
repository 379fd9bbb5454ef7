//! Where numbers come from: how well each is known, and the record of a constant.
//!
//! A constant stands as a plain number beside the formula that uses it; its [`Constant`] record stands below it in the table
//! `CONSTANTS` of the same file, made by `record!`. [`prediction::constants`](crate::prediction::constants) lists all that a prediction rests on.

mod constant;
mod trust;

pub use constant::Constant;
pub(crate) use constant::record;
pub use trust::Trust;
