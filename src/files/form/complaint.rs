//! All mistakes of one file, each with its place in the text.

use super::locate::{line_and_column, range_of};
use std::fmt::{Display, Formatter, Result as Written};
use std::ops::Range;
use toml::de::DeTable;
use weldbow_engine::input::{Form, Problem, Step, as_toml, steps_of};

/// A problem and its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Found {
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
pub struct Complaint {
    /// Name of the file as the user gave it.
    pub file: String,
    /// Its text; empty if it could not be read.
    pub text: String,
    /// The problems, in the order of the text; never empty.
    pub problems: Vec<Found>,
}

impl Complaint {
    /// A complaint about the file as a whole.
    pub fn whole(file: &str, problem: Problem) -> Self {
        let found = Found { problem, range: None, line: 1, column: 1 };
        Self { file: file.to_owned(), text: String::new(), problems: vec![found] }
    }

    /// A complaint about places that are known already: problems of the writing itself.
    pub fn placed(file: &str, text: &str, problems: Vec<(Problem, Option<Range<usize>>)>) -> Self {
        let problems = problems
            .into_iter()
            .map(|(problem, range)| {
                let (line, column) = line_and_column(text, range.as_ref().map_or(0, |r| r.start));
                Found { problem, range, line, column }
            })
            .collect();
        Self { file: file.to_owned(), text: text.to_owned(), problems }
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
            (with_example::<T>(problem), range)
        });
        let mut complaint = Self::placed(file, text, placed.collect());
        complaint.problems.sort_by_key(|found| found.range.as_ref().map_or(0, |range| range.start));
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

impl Display for Complaint {
    /// One line a problem, as "file:line:column: path: found …; wanted …".
    fn fmt(&self, f: &mut Formatter<'_>) -> Written {
        for (at, found) in self.problems.iter().enumerate() {
            let Found { problem, line, column, .. } = found;
            let end = if at == 0 { "" } else { "\n" };
            let dot = if problem.path.is_empty() { "" } else { ": " };
            write!(f, "{end}{}:{line}:{column}: {}{dot}", self.file, problem.path)?;
            write!(f, "found {}; wanted: {}", problem.found, problem.wanted)?;
        }
        Ok(())
    }
}

impl std::error::Error for Complaint {}
