//! "How does it change with …?": a job, what varies in it, what is collected, and the charts drawn from it.
//!
//! ```text
//! study file ─ definition ─ Study ─ case (grid, draws → edit → job → prediction → collect) ─ Row ─ rows ─ Table
//! ```
//!
//! * `file`: the shape of a study file; `place`: where in a job an axis acts; `measure`: numbers with units; `numbers`: those of an axis; `axis`: one
//!   checked axis; `usual`: the usual bias and scatter as axes; `bases`: the jobs; `sampling`: what is drawn; `collect`:
//!   names of results, `joint` those of a joint solved from first principles; `definition`: all of it.
//! * `grid`, `draws`: which values a case takes, from its number alone; `edit`: how they get into a job; `case`: one
//!   case; `typed`: the numbers
//!   of a checked job that axes set, the quick way; `run`: all of them on all cores, in order; `rows`: as CSV and JSON lines.
//! * `findings`: what drawn rows say, `ends` how far an input was moved for it; `fingerprint`: whether rows on disk belong to a study.
//! * `settings`: the level and how joints are solved, which may vary as well.
//! * `scattered`: drawn pieces of one job as a study; `warned`: what its cases warn of.
//! * `shown`: in the units people read; `table`: what a study brings back; `chart_spec`: what a chart shall show of it.

mod at_settings;
mod axis;
mod bases;
mod case;
mod chart_spec;
mod collect;
mod definition;
mod draws;
mod edit;
mod ends;
pub mod file;
mod findings;
mod fingerprint;
mod grid;
mod joint;
mod measure;
mod numbers;
mod place;
mod results;
mod rows;
mod run;
mod sampling;
mod scattered;
mod settings;
mod shown;
mod table;
mod typed;
#[cfg(test)]
mod typed_tests;
mod usual;
mod warned;

/// A study with a remark at every line, to start from.
pub const STARTER: &str = include_str!("starter.toml");

pub use case::{Cell, Row};
pub use chart_spec::{ChartKind, ChartSpec};
pub use collect::{Collected, NoResult, collected, names};
pub use definition::Study;
pub use edit::put;
pub use findings::{Chances, ResultShares, Spreads};
pub use fingerprint::BUILD;
pub use place::NoPlace;
pub use rows::{CASE, REASON, csv_lines};
pub use run::shard;
pub use scattered::{LimitChance, Moved, ResultSpread, Scattered};
pub use table::{Column, Table, Values};
pub use warned::{Warned, WarnedOf};
