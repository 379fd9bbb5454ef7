//! One mistake in a form.

/// What is wrong at one place of a form, and what would be right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// The field, as `member.inner_flange[1].to`; empty for the file as a whole. Items count from 0.
    pub path: String,
    /// What stands there.
    pub found: String,
    /// What would be right.
    pub wanted: String,
    /// A right line to write, if the field's own example is not the one to show.
    pub example: Option<String>,
}

impl Problem {
    /// A problem at that path.
    pub fn new(path: impl Into<String>, found: impl Into<String>, wanted: impl Into<String>) -> Self {
        Self { path: path.into(), found: found.into(), wanted: wanted.into(), example: None }
    }

    /// The same with a right line to write.
    #[must_use]
    pub fn example(mut self, example: impl Into<String>) -> Self {
        self.example = Some(example.into());
        self
    }
}
