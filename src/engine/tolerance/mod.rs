//! Fabrication tolerances: the limits of each standard as data, and verdicts against them.
//!
//! A [`Set`] is what a job names. Each set is a table of [`Limit`]s, one row a quantity and a case; the size
//! of a row is a [`Rule`], which is data too. A new limit is a new row in a file of [`sets`], with the text
//! that shows where it comes from and how well it is known.

mod band;
mod facts;
mod limit;
mod quantity;
mod rule;
pub mod sets;
mod trust;
mod verdict;

pub use band::Band;
pub use facts::Facts;
pub use limit::{Applies, Limit};
pub use quantity::Quantity;
pub use rule::{Rule, Size};
pub use sets::Set;
pub use trust::Trust;
pub use verdict::{Judgement, Verdict, judge};
