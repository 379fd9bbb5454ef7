//! The job file: what a person writes in, a [`Job`] the engine can trust out.
//!
//! `file` is the shape of the text and nothing else; `read` takes a file or a text; `build` checks what the shape
//! says and finds every slip of sense. What every file has in common (places, slips, complaints) is in
//! [`form`](crate::form).

pub mod arc_limits;
mod build;
pub mod file;
mod starter;

pub use build::build;
pub use starter::{STARTER, STARTER_US};

use crate::prediction::Job;

#[cfg(test)]
mod reading;
#[cfg(test)]
pub use reading::{file_of_text, read_text};
