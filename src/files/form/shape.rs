//! From a parsed table to the shape of a form, finding every slip of spelling, type and unit.
//!
//! The reader behind it stops at the first slip. So each slip is written down, mended in a copy with the
//! example from the schema, and the copy read again, until it reads or cannot be mended.

use serde_path_to_error::{Path, Segment, deserialize};
use std::marker::PhantomData;
use toml::de::{DeTable, Deserializer};
use toml::{Spanned, Table, Value};
use weldbow_engine::input::near::{listed, nearest, wanted as near_wanted};
use weldbow_engine::input::{Form, Problem, Step, as_toml, text_of};

/// Slips written down before giving up (a choice; each costs one more reading).
const MOST_SLIPS: usize = 40;

/// The shape in a parsed table.
pub fn shape<T: Form>(table: &Spanned<DeTable<'_>>) -> Result<T, Vec<Problem>> {
    let written: Table = deserialize(Deserializer::from(table.clone())).map_err(|error| {
        let path = text_of(&steps(error.path()));
        vec![Problem::new(path, "a number too large to hold", "a number of usual size")]
    })?;
    let mut mended = written.clone();
    let mut problems: Vec<Problem> = Vec::new();
    loop {
        let error = match deserialize(Value::Table(mended.clone())) {
            Ok(file) if problems.is_empty() => return Ok(file),
            Ok(_) => return Err(problems),
            Err(error) => error,
        };
        let slip = Slip::<T>::of(steps(error.path()), error.inner().message());
        let path = text_of(&slip.path);
        if problems.iter().any(|problem| problem.path == path) {
            return Err(problems);
        }
        problems.push(slip.problem(path, &written));
        if problems.len() >= MOST_SLIPS || !slip.mend(&mut mended) {
            return Err(problems);
        }
    }
}

fn steps(path: &Path) -> Vec<Step> {
    let step = |segment: &Segment| match segment {
        Segment::Seq { index } => Some(Step::Item(*index)),
        Segment::Map { key } | Segment::Enum { variant: key } => Some(Step::Key(key.clone())),
        Segment::Unknown => None,
    };
    path.iter().filter_map(step).collect()
}

/// What kind of slip it is, told from the reader's message.
enum Kind {
    UnknownKey(Vec<String>),
    Missing,
    WrongName(String, Vec<String>),
    WrongType(String, String),
    Told(String),
}

struct Slip<T> {
    path: Vec<Step>,
    kind: Kind,
    form: PhantomData<T>,
}

impl<T: Form> Slip<T> {
    fn of(mut path: Vec<Step>, message: &str) -> Self {
        let (head, expected) = message.split_once(", expected ").unwrap_or((message, ""));
        let mut names = quoted(head).into_iter();
        let name = names.next().unwrap_or_default();
        let kind = if head.starts_with("unknown field") {
            if path.last() != Some(&Step::Key(name.clone())) {
                path.push(Step::Key(name));
            }
            Kind::UnknownKey(quoted(expected))
        } else if head.starts_with("missing field") {
            path.push(Step::Key(name));
            Kind::Missing
        } else if head.starts_with("unknown variant") {
            Kind::WrongName(name, quoted(expected))
        } else if let Some(found) = head.strip_prefix("invalid ").filter(|_| !expected.is_empty()) {
            let found = found.split_once(": ").map_or(found, |(_, found)| found);
            Kind::WrongType(plain_found(found), plain(expected))
        } else {
            Kind::Told(message.to_owned())
        };
        Self { path, kind, form: PhantomData }
    }

    fn problem(&self, path: String, table: &Table) -> Problem {
        match &self.kind {
            Kind::UnknownKey(keys) => self.unknown_key(path, keys),
            Kind::Missing => {
                let what =
                    T::schema().meaning(&self.path).map(|text| format!(" ({text})")).unwrap_or_default();
                let key = quoted_last(&self.path);
                Problem::new(path, "nothing", format!("{key} is needed here{what}"))
            }
            Kind::WrongName(name, names) => {
                let names: Vec<&str> = names.iter().map(String::as_str).collect();
                Problem::new(path, format!("`{name}`"), near_wanted(name, &names))
            }
            Kind::WrongType(found, expected) => Problem::new(path, found, expected),
            Kind::Told(message) => {
                let found = value_at(table, &self.path).unwrap_or_else(|| "this value".to_owned());
                Problem::new(path, found, message)
            }
        }
    }

    /// The key probably meant by an unknown one.
    fn meant(&self) -> Option<&str> {
        match (&self.kind, self.path.last()) {
            (Kind::UnknownKey(keys), Some(Step::Key(key))) => nearest(key, keys.iter().map(String::as_str)),
            _ => None,
        }
    }

    fn unknown_key(&self, path: String, keys: &[String]) -> Problem {
        let key = quoted_last(&self.path);
        let all = listed(keys.iter().map(String::as_str));
        let near = self.meant();
        let wanted = match near {
            Some(near) => format!("did you mean `{near}`? Keys here: {all}"),
            None if keys.is_empty() => "no key of that name".to_owned(),
            None => format!("one of the keys {all}"),
        };
        let problem = Problem::new(path, format!("unknown key {key}"), wanted);
        let mut right = self.path.clone();
        right.pop();
        right.push(Step::Key(near.unwrap_or_default().to_owned()));
        match (near, T::schema().example(&right)) {
            (Some(near), Some(value)) => problem.example(format!("{near} = {}", as_toml(&value))),
            _ => problem.example(format!("leave {key} out, or put # before it to make it a remark")),
        }
    }

    /// Puts the copy right at this place; false if it cannot be done.
    fn mend(&self, root: &mut Table) -> bool {
        let Some((last, parents)) = self.path.split_last() else { return false };
        let mut whole = Value::Table(std::mem::take(root));
        let parent = parents.iter().try_fold(&mut whole, |here, step| child(here, step));
        let right = T::schema().example(&self.path).and_then(|value| Value::try_from(value).ok());
        let done = match (parent, last, right) {
            (Some(Value::Table(inner)), Step::Key(key), _) if matches!(self.kind, Kind::UnknownKey(_)) => {
                let value = inner.remove(key);
                // What was probably meant is read as meant, so that it is not also called missing.
                if let (Some(value), Some(near)) = (value.clone(), self.meant()) {
                    inner.entry(near).or_insert(value);
                }
                value.is_some()
            }
            (Some(Value::Table(inner)), Step::Key(key), Some(value)) => {
                inner.insert(key.clone(), value);
                true
            }
            (Some(Value::Array(items)), Step::Item(index), Some(value)) => {
                items.get_mut(*index).map(|item| *item = value).is_some()
            }
            _ => false,
        };
        if let Value::Table(mended) = whole {
            *root = mended;
        }
        done
    }
}

fn child<'v>(here: &'v mut Value, step: &Step) -> Option<&'v mut Value> {
    match step {
        Step::Key(key) => here.get_mut(key.as_str()),
        Step::Item(index) => here.get_mut(*index),
    }
}

/// Words between back-quotes.
fn quoted(text: &str) -> Vec<String> {
    text.split('`').skip(1).step_by(2).map(str::to_owned).collect()
}

fn quoted_last(path: &[Step]) -> String {
    match path.last() {
        Some(Step::Key(key)) => format!("`{key}`"),
        _ => "an item".to_owned(),
    }
}

/// The reader's words for a type in the words of the trade.
fn plain(expected: &str) -> String {
    match expected {
        "u32" => "a whole number, as 2".to_owned(),
        "f64" => "a plain number, as 0.9".to_owned(),
        "a string" => "text in quotes".to_owned(),
        "a sequence" => "a list in [ ]".to_owned(),
        "a map" => "a table".to_owned(),
        "a tuple of size 2" | "fewer elements in array" => "a pair [place, depth]".to_owned(),
        shape if shape.starts_with("struct ") => "a table { key = value, … }".to_owned(),
        other => other.to_owned(),
    }
}

/// The reader's words for what stands there, without its names of types.
fn plain_found(found: &str) -> String {
    match found.split_once(' ') {
        Some(("integer" | "string", value)) => value.to_owned(),
        Some(("floating", value)) => value.trim_start_matches("point ").to_owned(),
        Some(("length", count)) => format!("{count} in a list"),
        None if found == "map" => "a table".to_owned(),
        None if found == "sequence" => "a list".to_owned(),
        _ => found.to_owned(),
    }
}

/// The value as written, if it is a single one.
fn value_at(table: &Table, steps: &[Step]) -> Option<String> {
    let mut steps = steps.iter();
    let Some(Step::Key(first)) = steps.next() else { return None };
    let value = steps.try_fold(table.get(first)?, |here, step| match step {
        Step::Key(key) => here.get(key.as_str()),
        Step::Item(index) => here.get(*index),
    })?;
    value.as_str().map(|text| format!("{text:?}"))
}
