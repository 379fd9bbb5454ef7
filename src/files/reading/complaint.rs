//! All mistakes of one file, each with its place in the text.

use super::locate::{Lines, child, range_of, value_at};
use std::fmt::{Display, Formatter, Result as Written};
use std::ops::Range;
use toml::de::DeTable;
use toml::{Table, Value};
use weldbow_engine::input::{Form, Hint, PathStep, Problem, as_toml, steps_of, text};

/// Problems of one file that are kept, with their places; a file with more has one cause, mostly (a choice).
const MOST_KEPT: usize = 100;

/// Longest mended line shown, characters (a choice: a longer one buries what was mended).
const LONGEST_LINE: usize = 200;

/// A problem and its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Diagnostic {
    /// The problem; its hint is a line wherever one is known.
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
        let written: Table = text.parse().unwrap_or_default();
        for found in &mut complaint.problems {
            let problem = &mut found.problem;
            let steps = steps_of(&problem.path);
            problem.hint = match std::mem::take(&mut problem.hint) {
                Hint::Field => example::<T>(&steps).map_or(Hint::Nothing, Hint::Example),
                Hint::Value(value) => Hint::Right(mended(&written, &steps, &value)),
                known => known,
            };
        }
        complaint
    }
}

/// The field's own example: a line, or what stands at that place of a list's. The kind of a value has examples, too, but of any field.
fn example<T: Form>(steps: &[PathStep]) -> Option<String> {
    let key = steps.iter().rposition(|step| matches!(step, PathStep::Key(_)));
    let (line, items) = steps.split_at(key? + 1);
    let whole = T::schema().example(line);
    if let [.., PathStep::Key(key)] = steps {
        return whole.map(|value| format!("{key} = {}", as_toml(&value)));
    }
    let inside = items.iter().try_fold(whole?, |value, step| match (value, step) {
        (serde_json::Value::Array(list), PathStep::Item(at)) => {
            list.get(*at).or_else(|| list.last()).cloned()
        }
        _ => None,
    });
    inside.or_else(|| T::schema().example(steps)).map(|value| as_toml(&value))
}

/// The line as it would be with that value (TOML) at the place; of a long list only the item.
fn mended(written: &Table, steps: &[PathStep], value: &str) -> String {
    let at = steps.iter().rposition(|step| matches!(step, PathStep::Key(_)));
    let Some((Some(PathStep::Key(key)), at)) = at.map(|at| (steps.get(at), at)) else {
        return value.to_owned();
    };
    let (to_key, items) = steps.split_at(at + 1);
    let whole = || {
        let new: Table = format!("v = {value}").parse().ok()?;
        let mut list = value_at(written, to_key)?.clone();
        let place = items.iter().try_fold(&mut list, |here, step| child(here, step))?;
        *place = new.get("v")?.clone();
        Some(in_line(&list))
    };
    let line = if items.is_empty() { Some(value.to_owned()) } else { whole() };
    let line = line.map(|line| format!("{key} = {line}"));
    line.filter(|line| line.chars().count() <= LONGEST_LINE).unwrap_or_else(|| value.to_owned())
}

/// A value in one line, as TOML.
pub(super) fn in_line(value: &Value) -> String {
    serde_json::to_value(value).map_or_else(|_| value.to_string(), |value| as_toml(&value))
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
