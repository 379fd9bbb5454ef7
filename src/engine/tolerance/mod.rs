//! Fabrication tolerances: the limits of each standard as data, and verdicts against them.
//!
//! A [`Set`] is what a job names. Each set is a table of [`Limit`]s, one row a quantity and a case; the size
//! of a row is a [`Rule`], which is data too. A new limit is a new row in a file of `sets`, with the text
//! that shows where it comes from and how well it is known.
//!
//! **To add a set**: a file in `sets/` with a `const` table of [`Limit`]s, one row a limit, and a variant of [`Set`].
//! `sets/walk_tests.rs` checks every row; the standard's own table goes into `reference-cases/`.

mod band;
mod facts;
mod judgement;
mod likely;
mod limit;
mod quantity;
mod rule;
mod sets;
mod verdict;

pub use crate::sources::Trust;
pub use band::Band;
pub use facts::{Facts, Stiffened, Use};
pub use judgement::{Judgement, judge};
pub use likely::{DrawnSize, Likely};
pub(crate) use limit::Applies;
pub use limit::Limit;
pub use quantity::{Quantities, Quantity};
pub use rule::{EntrySize, Rule};
pub use sets::Set;
pub use verdict::Verdict;
