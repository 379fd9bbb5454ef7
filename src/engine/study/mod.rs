//! "How does it change with …?": a job, what varies in it, what is collected, and the charts drawn from it.
//!
//! ```text
//! study file ─ definition ─ Study ─ case (grid, draws → edit → job → prediction → collect) ─ Row ─ rows ─ Table
//! ```
//!
//! * `file`: the shape of a study file and of its charts; `place`: where in a job an axis acts; `measure`: numbers with units; `numbers`: those of an axis; `axis`: one
//!   checked axis; `usual`: the usual bias and scatter as axes; `bases`: the jobs; `sampling`: what is drawn; `collect`:
//!   names of results, `joint` those of a joint solved from first principles; `definition`: all of it.
//! * `grid`, `draws`: which values a case takes, from its number alone; `edit`: how they get into a job; `case`: one
//!   case; `typed`: the numbers
//!   of a checked job that axes set, the quick way; `run`: all of them on all cores, in order; `rows`: as CSV and JSON lines.
//! * `findings`: what drawn rows say, `ends` how far an input was moved for it; `fingerprint`: whether rows on disk belong to a study.
//! * `settings`: the level and how joints are solved, which may vary as well.
//! * `scattered`: drawn pieces of one job as a study; `warned`: what its cases warn of.
//! * `shown`: in the units people read; `table`: what a study brings back.
//!
//! A study's row is a pure function of its case number: `grid` and `draws` say which values it takes, `typed` sets them in a job
//! that was checked once (`edit` and `job::check` go through the file where an axis is no number of the job, or a value is out of
//! range and the file's words are wanted), `predict_only` computes what is collected, `collect` reads. So threads, shards and
//! resumed runs cannot differ.
//!
//! **To add a result**: one line in a table of `results`; `weldbow study --results` and the error for a wrong name pick it up.
//! **A setting** that may vary: a variant of `Setting` in `settings` with its example. **A number that can be varied quickly**: a
//! variant of `prediction::Field` with its range and what follows from it, and its place in a file in `typed`; `typed_tests`
//! compares both ways to the last bit.
//!
//! **A study of a constant** is a file in `studies/referee/`, run like any other: it collects `section.…`, `formula.…` and, at
//! ten seconds a pass, `moving.…` side by side; `[section]` says how the joint is solved. Its test in `tests/laws/constants.rs`
//! says how far the constant may be from its study, and why; the constant's doc comment cites it.
//!
//! **A study of the course** is `studies/NN-name.toml`, numbered in teaching order: a `lesson` of two to five plain sentences
//! (what to see, why, what of it is model and what is known) and one to three charts that show it, over a range where every case
//! builds; drawn ones small, seeded and quick. Its trend test goes into `tests/course/`, with who published the trend beside it;
//! then `UPDATE_PLOTS=1 cargo test --test golden_charts`, look at the PNG, and add it to `plots/README.md`.
//! `tests/course/every.rs` holds all studies to this.

mod at_settings;
mod axis;
mod bases;
mod case;
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
mod warnings;

/// A study with a remark at every line, to start from.
pub const STARTER: &str = include_str!("starter.toml");

pub use case::{Cell, Row};
pub use collect::{Collected, NoResult, collected, names};
pub use definition::Study;
pub use edit::put;
pub use file::{ChartKind, ChartSpec};
pub use findings::{Chances, ResultShares, Spreads};
pub use fingerprint::BUILD;
pub use place::NoPlace;
pub use rows::{CASE, REASON, csv_lines};
pub use run::shard;
pub use scattered::{LimitChance, ResultMoved, ResultSpread, Scattered};
pub use table::{Column, Table, Values};
pub use warnings::{Warned, WarnedOf};
