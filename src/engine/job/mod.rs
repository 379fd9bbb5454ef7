//! The job file: what a person writes in, a [`Job`] the engine can trust out.
//!
//! `file` is the shape of the text and nothing else; `read` takes a file or a text; `check` checks what the shape
//! says and finds every slip of sense. What every file has in common (places, slips, complaints) is in
//! [`input`](crate::input).
//!
//! **To add a field**: `file/` (the doc comment becomes the schema's text), its checks in `check/`, a bad file in
//! `tests/bad_input/`, then `UPDATE_SCHEMA=1 cargo test --lib cli::schema` and `UPDATE_MESSAGES=1 cargo test --test bad_files`;
//! read what changed. A word of the trade for a name of ours is a row of `SAME` in `input/near.rs`; a slip with an answer of its
//! own an arm in `file/slips.rs`; each goes into the table of `tests/bad_input/everyday.rs`. A problem carries a `Hint`: call
//! something right only if it is.

pub(crate) mod arc_limits;
mod check;
pub mod file;

pub use check::check;
pub(crate) use check::{check_placed, check_traced, procedures_used};

use crate::prediction::Job;

/// Starter in SI units, the text that `weldbow new` writes: a whole job with a remark at every line.
pub const STARTER: &str = include_str!("starter/si.toml");

/// Starter in US units.
pub const STARTER_US: &str = include_str!("starter/us.toml");

#[cfg(test)]
mod reading;
#[cfg(test)]
pub use reading::{file_of_text, read_text};
