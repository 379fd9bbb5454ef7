//! The job file and the checked job: a text a shop person writes in, a [`Job`] the engine can trust out.
//!
//! `file` is the shape of the text and nothing else; `schema` describes that shape to editors and supplies
//! the examples in complaints; `read` takes a file or a text; `shape` turns the text into the shape and
//! finds every slip of spelling and unit; `build` checks what the shape says and finds every slip of
//! sense; `locate` finds the place of a path in the text; `problem` holds one mistake, `complaint` all of
//! one file.

mod build;
mod complaint;
pub mod file;
mod locate;
pub(crate) mod near;
mod problem;
mod read;
mod schema;
mod shape;
mod starter;

pub use build::build;
pub use complaint::{Complaint, Found};
pub use problem::Problem;
pub use read::{file_of_text, read_path, read_text};
pub use schema::schema;
pub use starter::{STARTER, STARTER_US};

use crate::prediction::Job;
