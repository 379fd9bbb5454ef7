//! Files that a person fills in: TOML with quantities as text, and everything that can go wrong with it.
//!
//! A kind of file is a [`Form`]: a shape to be read into and its JSON Schema. `read` takes a file or a text; `shape`
//! turns the text into the shape and finds every slip of spelling and unit; `schema` supplies the examples in
//! complaints; `locate` finds the place of a path in the text; `problem` holds one mistake, `complaint` all of one
//! file; `findings` collects mistakes of sense while a form is checked; `near` finds the name that was probably meant; `text` cleans words that a
//! stranger may have written.

mod complaint;
pub mod findings;
mod locate;
pub mod near;
mod opened;
mod problem;
mod read;
mod schema;
mod shape;
pub mod text;

pub use complaint::{Complaint, Found};
pub use locate::{Step, steps_of, text_of};
pub use opened::was_read;
pub use problem::Problem;
pub use read::{LARGEST_BYTES, Paper, TextKind, paper_of_path, paper_of_text, text_of_path};
pub use schema::{Node, Schema, as_toml};

use serde::de::DeserializeOwned;

/// A kind of file.
pub trait Form: DeserializeOwned {
    /// What it describes, with its article: "a job".
    const WHAT: &'static str;
    /// Where to get a right one: "`weldbow new` writes one".
    const START: &'static str;

    /// Its JSON Schema.
    fn schema() -> &'static Schema;
}
