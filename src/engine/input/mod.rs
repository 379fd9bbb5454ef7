//! What a person fills in, whatever it is written in: the shape, its JSON Schema, and the mistakes found in it.
//!
//! A kind of input is a [`Form`]: a shape and its schema. `problem` holds one mistake, `path` names its field, `findings`
//! collects mistakes of sense while a form is checked; `near` finds the name that was probably meant; `schema` supplies
//! examples and meanings; `shape` says what all tables have in common. Nothing here reads a file: that is for the files crate.

mod day;
pub mod findings;
pub mod near;
mod path;
mod problem;
mod schema;
mod shape;
pub mod text;

pub use day::{day_number, day_text};
pub use path::{PathStep, counted, steps_of, text_of};
pub use problem::{Hint, Problem};
pub(crate) use schema::kept_schema;
pub use schema::{Node, Schema, as_toml};
pub(crate) use shape::{is_usual, shape};

use serde::de::DeserializeOwned;
use serde_json::Value;

/// A kind of input.
pub trait Form: DeserializeOwned {
    /// What it describes, with its article: "a job".
    const WHAT: &'static str;
    /// Where to get a right one: "`weldbow new` writes one".
    const START: &'static str;

    /// Its JSON Schema.
    fn schema() -> &'static Schema;

    /// What to say of a slip that is known of this kind of input: an unknown key, or a name that is none of those known, at
    /// a place written without numbers of items (`pass.seam`). `beside` is the table it stands in.
    fn known_slip(_place: &str, _found: &str, _beside: &Value) -> Option<KnownSlip> {
        None
    }

    /// Takes in the files it names; `read` gives what one holds.
    ///
    /// # Errors
    /// A file that cannot be taken in.
    fn beside(&mut self, read: &mut Beside<'_>) -> Result<(), Problem> {
        let _ = read;
        Ok(())
    }
}

/// The word of older files for a word of today: both are understood wherever it is a key of a job.
pub fn old_word(word: &str) -> Option<&'static str> {
    (word == "step").then_some("order")
}

/// A slip that many make.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KnownSlip {
    /// What is wanted in its place.
    pub wanted: String,
    /// What helps.
    pub hint: Hint,
}

/// Reads a file that a form names.
pub type Beside<'r> = dyn FnMut(&str) -> Result<Value, Problem> + 'r;
