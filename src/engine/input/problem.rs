//! One mistake in a form.

use super::text;

/// Longest text repeated in a message, characters (a choice: a longer one buries what is wanted).
const LONGEST_FOUND: usize = 300;

/// What is wrong at one place of a form, and what would be right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// The field, as `member.inner_flange[1].to`; empty for the file as a whole. Items count from 0.
    pub path: String,
    /// What stands there, in one clean line.
    pub found: String,
    /// What would be right.
    pub wanted: String,
    /// A right line to write, if the field's own example is not the one to show.
    pub example: Option<String>,
}

impl Problem {
    /// A problem at that path.
    pub fn new(path: impl Into<String>, found: impl Into<String>, wanted: impl Into<String>) -> Self {
        let found = text::cut(&found.into(), LONGEST_FOUND);
        Self { path: path.into(), found, wanted: text::line(&wanted.into()).into_owned(), example: None }
    }

    /// The same with a right line to write.
    #[must_use]
    pub fn example(mut self, example: impl Into<String>) -> Self {
        self.example = Some(example.into());
        self
    }
}
