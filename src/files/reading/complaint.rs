//! All mistakes of one file, each with its place in the text.

use super::locate::{Lines, range_of};
use std::fmt::{Display, Formatter, Result as Written};
use std::ops::Range;
use toml::de::DeTable;
use weldbow_engine::input::{Form, Problem, Step, as_toml, steps_of, text};

/// Problems of one file that are kept, with their places; a file with more has one cause, mostly (a choice).
const MOST_KEPT: usize = 100;

/// A problem and its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Diagnostic {
    /// The problem; its example is filled in wherever one is known.
    pub problem: Problem,
    /// Byte range in the text; `None` for the file as a whole.
    pub range: Option<Range<usize>>,
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
}

/// Everything wrong with one file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Diagnostics {
    /// Name of the file as the user gave it.
    pub file: String,
    /// Its text; empty if it could not be read.
    pub text: String,
    /// The first problems, in the order of the text; never empty.
    pub problems: Vec<Diagnostic>,
    /// Problems beyond these.
    pub more: usize,
}

impl Diagnostics {
    /// A complaint about the file as a whole.
    pub fn whole(file: &str, problem: Problem) -> Self {
        let found = Diagnostic { problem, range: None, line: 1, column: 1 };
        Self { file: text::line(file).into_owned(), text: String::new(), problems: vec![found], more: 0 }
    }

    /// A complaint about places that are known already: problems of the writing itself.
    pub fn placed(file: &str, text: &str, problems: Vec<(Problem, Option<Range<usize>>)>) -> Self {
        let lines = Lines::of(text);
        let more = problems.len().saturating_sub(MOST_KEPT);
        let problems = problems
            .into_iter()
            .take(MOST_KEPT)
            .map(|(problem, range)| {
                let (line, column) = lines.place(range.as_ref().map_or(0, |r| r.start));
                Diagnostic { problem, range, line, column }
            })
            .collect();
        Self { file: text::line(file).into_owned(), text: text.to_owned(), problems, more }
    }

    /// How many problems there are.
    pub const fn count(&self) -> usize {
        self.problems.len() + self.more
    }

    /// A complaint about fields, each looked up in the text by its path.
    pub(super) fn of_fields<T: Form>(
        file: &str,
        text: &str,
        table: &DeTable<'_>,
        problems: Vec<Problem>,
    ) -> Self {
        let placed = problems.into_iter().map(|problem| {
            let at_key = problem.found.starts_with("unknown key");
            let range = range_of(table, &problem.path, at_key);
            (problem, range)
        });
        let mut placed: Vec<_> = placed.collect();
        placed.sort_by_key(|(_, range)| range.as_ref().map_or(0, |range| range.start));
        let mut complaint = Self::placed(file, text, placed);
        for found in &mut complaint.problems {
            found.problem = with_example::<T>(found.problem.clone());
        }
        complaint
    }
}

/// The field's own example, unless the problem brings one.
fn with_example<T: Form>(mut problem: Problem) -> Problem {
    if problem.example.is_none() {
        let mut steps = steps_of(&problem.path);
        // One item of a list says little: the whole list is shown.
        while let Some(Step::Item(_)) = steps.last() {
            steps.pop();
        }
        if let (Some(Step::Key(key)), Some(value)) = (steps.last(), T::schema().example(&steps)) {
            problem.example = Some(format!("{key} = {}", as_toml(&value)));
        }
    }
    problem
}

impl Display for Diagnostics {
    /// One line a problem, as "file:line:column: path: found …; wanted …".
    fn fmt(&self, f: &mut Formatter<'_>) -> Written {
        for (at, found) in self.problems.iter().enumerate() {
            let Diagnostic { problem, line, column, .. } = found;
            let end = if at == 0 { "" } else { "\n" };
            let dot = if problem.path.is_empty() { "" } else { ": " };
            write!(f, "{end}{}:{line}:{column}: {}{dot}", self.file, problem.path)?;
            write!(f, "found {}; wanted: {}", problem.found, problem.wanted)?;
        }
        Ok(())
    }
}

impl std::error::Error for Diagnostics {}
