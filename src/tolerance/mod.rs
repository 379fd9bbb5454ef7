//! Fabrication tolerances: the limits of each standard as data, and verdicts against them.

mod limit;
pub mod sets;
mod verdict;

pub use limit::{Facts, Limit, Quantity, Rule, Trust};
pub use sets::Set;
pub use verdict::{Judgement, Verdict, judge};
