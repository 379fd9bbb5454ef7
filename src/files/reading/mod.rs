//! Files that a person fills in: TOML with quantities as text, and everything that can go wrong with it.
//!
//! A kind of file is a [`Form`]: a shape to be read into and its JSON Schema (see [`input`](weldbow_engine::input)). `read` takes a
//! file or a text; `shape` turns the text into the shape and finds every slip of spelling and unit; `locate` finds the place of
//! a path in the text; `complaint` holds all mistakes of one file; `learned` opens the file of what was learned beside one; `opened` opens files, pipes too, and remembers which.

mod complaint;
mod learned;
mod locate;
mod opened;
mod read;
mod shape;

pub use complaint::{Diagnostic, Diagnostics};
pub use learned::read_file;
pub use opened::was_read;
pub use read::{InputFile, TextKind, read_text_as, text_of_path};
pub(crate) use read::{LARGEST_BYTES, bytes_of_path, utf8};
pub use weldbow_engine::input::{
    Form, Hint, KnownSlip, Node, PathStep, Problem, Schema, as_toml, counted, findings, near, steps_of, text,
};
