//! From a parsed table to the shape of a form, finding every slip of spelling, type and unit.
//!
//! The reader behind it stops at the first slip. So each slip is written down, mended in a copy with the
//! example from the schema, and the copy read again, until it reads or cannot be mended.

use super::complaint::in_line;
use super::locate::{child, value_at};
use serde_path_to_error::{Path, Segment, deserialize};
use std::marker::PhantomData;
use toml::de::{DeTable, Deserializer};
use toml::{Spanned, Table, Value};
use weldbow_engine::input::near::{self, listed, meant, nearest, wanted as near_wanted};
use weldbow_engine::input::{
    Form, KnownSlip, Node, PathStep, Problem, Schema, as_toml, old_word, text, text_of,
};

/// Longest value repeated in a mended line, characters (a choice).
const LONGEST_VALUE: usize = 100;

/// Slips written down before giving up (a choice; each costs one more reading).
const MOST_SLIPS: usize = 40;

/// The shape in a parsed table.
pub(super) fn shape<T: Form>(table: &Spanned<DeTable<'_>>) -> Result<T, Vec<Problem>> {
    let written: Table = deserialize(Deserializer::from(table.clone())).map_err(|error| {
        let path = text_of(&steps_of_today(T::schema(), steps(error.path())));
        vec![Problem::new(path, "a number too large to hold", "a number of usual size")]
    })?;
    let mut written = Value::Table(clean_table(written));
    in_words_of_today(T::schema(), &mut Vec::new(), &mut written);
    let Value::Table(written) = written else { return Err(Vec::new()) };
    let mut mended = written.clone();
    let mut problems: Vec<Problem> = Vec::new();
    brackets(T::schema(), &mut Vec::new(), &mut mended, &mut problems);
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

/// What a list of two is, in the words of the trade.
const A_PAIR: &str = "a pair";

/// Fields that name something: no longer than a line.
const NAMES: [&str; 4] = ["title", "labels", "words", "name"];

/// How deep a key may lie whose word was another in older files.
const OLD_WORDS_DEEP: usize = 2;

/// Words of older files put into those of today.
fn in_words_of_today(schema: &Schema, path: &mut Vec<PathStep>, value: &mut Value) {
    match value {
        Value::Table(table) => {
            if let Some(Node::Table(keys)) = schema.node(path) {
                for key in keys {
                    let old = old_word(key).filter(|_| !table.contains_key(key));
                    if let Some(own) = old.and_then(|old| table.remove(old)) {
                        table.insert(key.to_owned(), own);
                    }
                }
            }
            if path.len() >= OLD_WORDS_DEEP {
                return;
            }
            for (key, inner) in table.iter_mut() {
                path.push(PathStep::Key(key.clone()));
                in_words_of_today(schema, path, inner);
                path.pop();
            }
        }
        Value::Array(items) if path.len() < OLD_WORDS_DEEP => {
            for (at, item) in items.iter_mut().enumerate() {
                path.push(PathStep::Item(at));
                in_words_of_today(schema, path, item);
                path.pop();
            }
        }
        _ => {}
    }
}

/// A path in words of today.
fn steps_of_today(schema: &Schema, mut path: Vec<PathStep>) -> Vec<PathStep> {
    for at in 0..path.len() {
        let (PathStep::Key(key), Some(Node::Table(keys))) = (&path[at], schema.node(&path[..at])) else {
            continue;
        };
        if let Some(new) = keys.into_iter().find(|new| old_word(new) == Some(key.as_str())) {
            path[at] = PathStep::Key(new.to_owned());
        }
    }
    path
}

/// Without words of older files: they are understood, not offered.
fn words_of_today(keys: Vec<String>) -> Vec<String> {
    let old: Vec<&'static str> = keys.iter().filter_map(|key| old_word(key)).collect();
    keys.into_iter().filter(|key| !old.contains(&key.as_str())).collect()
}

/// What a stranger may have written, fit to be shown: every text in one line without characters that move or hide, names short.
fn clean_table(table: Table) -> Table {
    let clean = |(key, mut value): (String, Value)| {
        let short = NAMES.contains(&key.as_str());
        clean_value(&mut value, short);
        (text::short(&key).into_owned(), value)
    };
    table.into_iter().map(clean).collect()
}

fn clean_value(value: &mut Value, short: bool) {
    match value {
        Value::String(words) => {
            let clean = if short { text::short(words) } else { text::line(words) };
            *words = clean.into_owned();
        }
        Value::Array(items) => items.iter_mut().for_each(|item| clean_value(item, short)),
        Value::Table(table) => *table = clean_table(std::mem::take(table)),
        _ => {}
    }
}

fn steps(path: &Path) -> Vec<PathStep> {
    let step = |segment: &Segment| match segment {
        Segment::Seq { index } => Some(PathStep::Item(*index)),
        Segment::Map { key } | Segment::Enum { variant: key } => Some(PathStep::Key(key.clone())),
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
    path: Vec<PathStep>,
    kind: Kind,
    form: PhantomData<T>,
}

impl<T: Form> Slip<T> {
    fn of(mut path: Vec<PathStep>, message: &str) -> Self {
        let (head, expected) = message.split_once(", expected ").unwrap_or((message, ""));
        let mut names = quoted(head).into_iter();
        let name = names.next().unwrap_or_default();
        let kind = if head.starts_with("unknown field") {
            if path.last() != Some(&PathStep::Key(name.clone())) {
                path.push(PathStep::Key(name));
            }
            Kind::UnknownKey(words_of_today(quoted(expected)))
        } else if head.starts_with("missing field") {
            path.push(PathStep::Key(name));
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
            Kind::UnknownKey(keys) => self.unknown_key(path, keys, table),
            Kind::Missing => {
                let what =
                    T::schema().meaning(&self.path).map(|text| format!(" ({text})")).unwrap_or_default();
                let key = quoted_last(&self.path);
                Problem::new(path, "nothing", format!("{key} is needed here{what}"))
            }
            Kind::WrongName(name, names) => {
                let names: Vec<&str> = names.iter().map(String::as_str).collect();
                match self.known(name, table) {
                    Some(slip) => Problem::new(path, format!("`{name}`"), slip.wanted).hint(slip.hint),
                    None => Problem::new(path, format!("`{name}`"), near_wanted(name, &names))
                        .hint(near::hint(name, &names)),
                }
            }
            Kind::WrongType(found, expected) if expected == A_PAIR => Problem::new(path, found, self.pair()),
            Kind::WrongType(found, expected) => Problem::new(path, found, expected),
            Kind::Told(message) => {
                let found = value_at(table, &self.path).and_then(Value::as_str);
                let found = found.map_or_else(|| "this value".to_owned(), |text| format!("{text:?}"));
                Problem::new(path, found, message)
            }
        }
    }

    /// What the two places of a pair hold, as the field's own remark has them in brackets; a remark without is one of a range.
    fn pair(&self) -> String {
        let keys = self.path.iter().rposition(|step| matches!(step, PathStep::Key(_))).map_or(0, |at| at + 1);
        let meaning = self.path.get(..keys).and_then(|key| T::schema().meaning(key)).unwrap_or_default();
        let places = meaning.find('[').zip(meaning.find(']')).and_then(|(from, to)| meaning.get(from..=to));
        format!("{A_PAIR} {}", places.unwrap_or("[least, most]"))
    }

    /// The key probably meant by an unknown one.
    fn meant(&self) -> Option<&str> {
        match (&self.kind, self.path.last()) {
            (Kind::UnknownKey(keys), Some(PathStep::Key(key))) => {
                let keys: Vec<&str> = keys.iter().map(String::as_str).collect();
                meant(key, &keys).or_else(|| nearest(key, keys))
            }
            _ => None,
        }
    }

    /// What this kind of input knows of the slip.
    fn known(&self, found: &str, table: &Table) -> Option<KnownSlip> {
        let (_, parent) = self.path.split_last()?;
        let keys = self.path.iter().filter_map(|step| match step {
            PathStep::Key(key) => Some(key.as_str()),
            PathStep::Item(_) => None,
        });
        let place = keys.collect::<Vec<_>>().join(".");
        let beside = if parent.is_empty() {
            serde_json::to_value(table)
        } else {
            serde_json::to_value(value_at(table, parent)?)
        };
        T::known_slip(&place, found, &beside.ok()?)
    }

    fn unknown_key(&self, path: String, keys: &[String], table: &Table) -> Problem {
        let key = quoted_last(&self.path);
        if let Some(slip) = self.known(key.trim_matches('`'), table) {
            return Problem::new(path, format!("unknown key {key}"), slip.wanted).hint(slip.hint);
        }
        let all = listed(keys.iter().map(String::as_str));
        let near = self.meant();
        let wanted = match near {
            Some(near) => format!("did you mean `{near}`? Keys here: {all}"),
            None if keys.is_empty() => "no key of that name".to_owned(),
            None => format!("one of the keys {all}"),
        };
        let problem = Problem::new(path, format!("unknown key {key}"), wanted);
        let names: Vec<&str> = keys.iter().map(String::as_str).collect();
        let written = value_at(table, &self.path).filter(|value| !matches!(value, Value::Table(_)));
        if let (Some(sure), Some(value)) = (meant(key.trim_matches('`'), &names), written) {
            return problem.right(format!("{sure} = {}", text::cut(&in_line(value), LONGEST_VALUE)));
        }
        let mut right = self.path.clone();
        right.pop();
        right.push(PathStep::Key(near.unwrap_or_default().to_owned()));
        match (near, T::schema().example(&right)) {
            (Some(near), Some(value)) => problem.example(format!("{near} = {}", as_toml(&value))),
            _ => problem.right(format!("leave {key} out, or put # before it to make it a remark")),
        }
    }

    /// Puts the copy right at this place; false if it cannot be done.
    fn mend(&self, root: &mut Table) -> bool {
        let Some((last, parents)) = self.path.split_last() else { return false };
        let mut whole = Value::Table(std::mem::take(root));
        let parent = parents.iter().try_fold(&mut whole, |here, step| child(here, step));
        let right = T::schema().example(&self.path).and_then(|value| Value::try_from(value).ok());
        let done = match (parent, last, right) {
            (Some(Value::Table(inner)), PathStep::Key(key), _)
                if matches!(self.kind, Kind::UnknownKey(_)) =>
            {
                let value = inner.remove(key);
                // What was probably meant is read as meant, so that it is not also called missing.
                if let (Some(value), Some(near)) = (value.clone(), self.meant()) {
                    inner.entry(near).or_insert(value);
                }
                value.is_some()
            }
            (Some(Value::Table(inner)), PathStep::Key(key), Some(value)) => {
                inner.insert(key.clone(), value);
                true
            }
            (Some(Value::Array(items)), PathStep::Item(index), Some(value)) => {
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

/// Finds tables written in the wrong brackets, and puts them right: `[pass]` where there may be several, `[[member]]` where there
/// is one.
fn brackets(schema: &Schema, here: &mut Vec<PathStep>, table: &mut Table, problems: &mut Vec<Problem>) {
    for (key, value) in table.iter_mut() {
        here.push(PathStep::Key(key.clone()));
        let node = schema.node(here);
        here.push(PathStep::Item(0));
        let of_tables = matches!(schema.node(here), Some(Node::Table(_)));
        here.pop();
        let name = text_of(here);
        match (node, &*value) {
            (Some(Node::List), Value::Table(_)) if of_tables => {
                let wanted = "double brackets: there may be several, each under a line of its own";
                problems.push(
                    Problem::new(&name, format!("one table `[{name}]`"), wanted).right(format!("[[{name}]]")),
                );
                *value = Value::Array(vec![value.clone()]);
            }
            (Some(Node::Table(_) | Node::Named), Value::Array(items))
                if !items.is_empty() && items.iter().all(Value::is_table) =>
            {
                let wanted = "single brackets: there is one, with all of it";
                problems
                    .push(Problem::new(&name, format!("`[[{name}]]`"), wanted).right(format!("[{name}]")));
                *value = items.first().cloned().unwrap_or_else(|| Value::Table(Table::new()));
            }
            _ => {}
        }
        match value {
            Value::Table(inner) => brackets(schema, here, inner, problems),
            Value::Array(items) => {
                for (index, item) in items.iter_mut().enumerate() {
                    if let Value::Table(inner) = item {
                        here.push(PathStep::Item(index));
                        brackets(schema, here, inner, problems);
                        here.pop();
                    }
                }
            }
            _ => {}
        }
        here.pop();
    }
}

/// Words between back-quotes.
fn quoted(text: &str) -> Vec<String> {
    text.split('`').skip(1).step_by(2).map(str::to_owned).collect()
}

fn quoted_last(path: &[PathStep]) -> String {
    match path.last() {
        Some(PathStep::Key(key)) => format!("`{key}`"),
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
        "a tuple of size 2" | "fewer elements in array" => A_PAIR.to_owned(),
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
