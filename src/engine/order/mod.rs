//! A whole order: how many pieces of each mark will need straightening, how many hours that loads on the shop, and which
//! family to fix first.
//!
//! ```text
//! list ─ WorkOrder ─ drawn (pieces of a mark, decided) ─ what_if (the same with prevention) ─ curve (work against size, from a
//! few full plans) ─ mark ─ tally (draw by draw of the bias) ─ run: marks, families, weeks, total
//! ```
//!
//! * `list`: a list of marks as text → lines, or every slip with its place; `week`: when a mark is wanted;
//!   `level`: what to pull forward where a week is short of press or torch.
//! * `drawn`, `case`: drawn pieces and what is decided of each; `work`: a full plan of one quantity; `load`: what it asks
//!   of the shop; `curve`: the work on every piece from a few plans.
//! * `mark`: all of it for one mark; `what_if`: prevention; `family`: which marks belong together; `advice`: prevention
//!   in words.
//! * `run`: the whole order; `result`: what it brings back.
//!
//! Pieces of all marks share their draws of the model bias, so the range of a sum is that of the model being wrong for
//! all of them in the same way. A piece is taken as measured without error, once.
//!
//! A mark's pieces come from `scatter::Pieces`, each judged and planned as `straighten::piece` does; `curve` reads the work of
//! all of them off a few full plans. Everything is kept draw by draw of the bias until `sums` adds it up.
//!
//! **To add a measure of prevention**: a variant of `Measure` in `what_if` with what it does to a piece, its number in `advice`,
//! its sentence in `cli/order/words`.

mod advice;
mod basis;
mod case;
mod curve;
mod drawn;
mod family;
mod level;
mod list;
mod load;
mod mark;
mod result;
mod run;
mod sums;
mod tally;
mod week;
mod what_if;
mod work;

pub use crate::scatter::Draws;
pub use crate::tolerance::Likely;
pub use advice::Fix;
pub use drawn::DRAWS;
pub use level::{Hours, Levelled, Lot, PulledForward, Short, level};
pub use list::{Line, WorkOrder};
pub use load::Load;
pub use result::{Blocking, FamilyResult, MarkResult, OrderResult, QuantityChance, Totals, WeekResult};
pub use run::run;
pub use tally::ExpectedRange;
pub use week::{Week, spread_over_weeks};
pub use what_if::Measure;
