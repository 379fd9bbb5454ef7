//! One mistake in a form.

use super::text;

/// Longest text repeated in a message, characters (a choice: a longer one buries what is wanted).
const LONGEST_FOUND: usize = 300;

/// What helps to mend a mistake, and how far it may be followed.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub enum Hint {
    /// The field's own example, to be shown as an example.
    #[default]
    Field,
    /// Nothing: what is wanted says all, and a line of another kind could be the wrong one.
    Nothing,
    /// A line as it might be, of another member perhaps.
    Example(String),
    /// The mended line, or what to do.
    Right(String),
    /// The right value, as TOML; whoever has the text makes the mended line of it.
    Value(String),
}

impl Hint {
    /// The mended line, and the line for an example: one of them or none.
    pub fn lines(&self) -> (Option<&str>, Option<&str>) {
        match self {
            Self::Right(line) | Self::Value(line) => (Some(line), None),
            Self::Example(line) => (None, Some(line)),
            Self::Field | Self::Nothing => (None, None),
        }
    }
}

/// What is wrong at one place of a form, and what would be right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// The field, as `member.inner_flange[1].to`; empty for the file as a whole. Items count from 0.
    pub path: String,
    /// What stands there, in one clean line.
    pub found: String,
    /// What would be right.
    pub wanted: String,
    /// What helps.
    pub hint: Hint,
}

impl Problem {
    /// A problem at that path.
    pub fn new(path: impl Into<String>, found: impl Into<String>, wanted: impl Into<String>) -> Self {
        let found = text::cut(&found.into(), LONGEST_FOUND);
        Self { path: path.into(), found, wanted: text::line(&wanted.into()).into_owned(), hint: Hint::Field }
    }

    /// The same with a line as it might be.
    #[must_use]
    pub fn example(self, example: impl Into<String>) -> Self {
        self.hint(Hint::Example(example.into()))
    }

    /// The same with the mended line, or what to do.
    #[must_use]
    pub fn right(self, right: impl Into<String>) -> Self {
        self.hint(Hint::Right(right.into()))
    }

    /// The same with that help.
    #[must_use]
    pub fn hint(mut self, hint: Hint) -> Self {
        self.hint = hint;
        self
    }
}
