//! The job file: what a person writes in, a [`Job`] the engine can trust out.
//!
//! `file` is the shape of the text and nothing else; `read` takes a file or a text; `check` checks what the shape
//! says and finds every slip of sense. What every file has in common (places, slips, complaints) is in
//! [`input`](crate::input).

pub mod arc_limits;
mod check;
pub mod file;
mod starter;

pub use check::{check, check_placed};
pub use starter::{STARTER, STARTER_US};

use crate::prediction::Job;

#[cfg(test)]
mod reading;
#[cfg(test)]
pub use reading::{file_of_text, read_text};
