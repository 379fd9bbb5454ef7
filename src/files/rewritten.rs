//! A job's text with other values: what is unchanged stays as it was written, remarks and all.

use crate::job::file_of_text;
use crate::reading::Diagnostics;
use crate::written::Unwritable;
use serde_json::Value as Json;
use serde_json::value::Index;
use toml_edit::{Array, DocumentMut, InlineTable, Item, Table, TableLike, Value};
use weldbow_engine::input::old_word;
use weldbow_engine::job::file::JobFile;

/// Why a text could not be written with other values.
#[derive(Debug, thiserror::Error)]
pub enum NotRewritten {
    /// The text it starts from is no job.
    #[error(transparent)]
    Text(#[from] Diagnostics),
    /// The new values are no job.
    #[error("the job cannot be read: {0}")]
    Shape(String),
    /// TOML cannot hold it.
    #[error(transparent)]
    Unwritable(#[from] Unwritable),
}

/// What a place had, what it shall have, and how the user wrote that.
#[derive(Clone, Copy)]
struct Change<'a> {
    old: &'a Json,
    new: &'a Json,
    said: Option<&'a Json>,
}

impl<'a> Change<'a> {
    /// What becomes of a key or an item of it.
    fn at(&self, at: impl Index + Copy) -> Option<Self> {
        Some(Self { old: self.old.get(at)?, new: self.new.get(at)?, said: self.said.and_then(|s| s.get(at)) })
    }

    /// The new value in the user's own words where there are any.
    fn words(&self) -> &'a Json {
        self.said.filter(|said| !said.is_null()).unwrap_or(self.new)
    }
}

/// The text of a job with the values of `job`, a job's shape as JSON. Values that are the same keep their writing; others
/// are written as `job` has them.
///
/// # Errors
/// [`NotRewritten`].
pub fn rewritten(text: &str, job: &Json) -> Result<String, NotRewritten> {
    let shape = |e: serde_json::Error| NotRewritten::Shape(e.to_string());
    let old = serde_json::to_value(file_of_text("job.toml", text)?).map_err(shape)?;
    let file: JobFile = serde_json::from_value(job.clone()).map_err(shape)?;
    let mut new = serde_json::to_value(file).map_err(shape)?;
    // the file of what was learned is named, not written out
    if let (Some(named), Some(held)) = (old.get("learned"), new.get_mut("learned")) {
        held.clone_from(named);
    }
    let mut document: DocumentMut =
        text.parse().map_err(|e: toml_edit::TomlError| Unwritable::NotToml(e.message().to_owned()))?;
    table(document.as_table_mut(), Change { old: &old, new: &new, said: Some(job) }, true);
    Ok(document.to_string())
}

fn table(place: &mut dyn TableLike, change: Change<'_>, blocks: bool) {
    let (Some(old), Some(new)) = (change.old.as_object(), change.new.as_object()) else { return };
    for key in old.keys().filter(|key| !new.contains_key(*key)) {
        let written = as_written(place, key);
        place.remove(written);
    }
    for (key, value) in new {
        let written = as_written(place, key);
        match (old.get(key), place.get_mut(written)) {
            (Some(before), _) if before == value => {}
            (Some(_), Some(found)) => {
                if let Some(change) = change.at(key.as_str()) {
                    item(found, change);
                }
            }
            (before, _) => {
                let said = change.said.and_then(|said| said.get(key));
                let whole = Change { old: before.unwrap_or(&Json::Null), new: value, said };
                if let Some(fresh) = fresh(whole.words(), blocks) {
                    place.insert(written, fresh);
                }
            }
        }
    }
}

/// The key as it stands there: a file may have its old word.
fn as_written<'k>(place: &dyn TableLike, key: &'k str) -> &'k str {
    let old = old_word(key).filter(|old| !place.contains_key(key) && place.contains_key(old));
    old.unwrap_or(key)
}

fn item(place: &mut Item, change: Change<'_>) {
    match (place, change.new) {
        (Item::Value(found), _) => value(found, change),
        (Item::Table(found), Json::Object(_)) => table(found, change, true),
        (Item::ArrayOfTables(found), Json::Array(new)) => {
            while found.len() > new.len() {
                found.remove(found.len() - 1);
            }
            for (at, own) in found.iter_mut().enumerate() {
                if let Some(change) = change.at(at) {
                    table(own, change, false);
                }
            }
            for (at, more) in new.iter().enumerate().skip(found.len()) {
                let said = change.said.and_then(|said| said.get(at)).unwrap_or(more);
                found.push(block(said));
            }
        }
        (place, _) => {
            if let Some(other) = fresh(change.words(), false) {
                *place = other;
            }
        }
    }
}

fn value(place: &mut Value, change: Change<'_>) {
    match (place, change.new) {
        (Value::InlineTable(found), Json::Object(_)) if change.old.is_object() => table(found, change, false),
        (Value::Array(found), Json::Array(new)) if change.old.is_array() => {
            while found.len() > new.len() {
                found.remove(found.len() - 1);
            }
            for (at, own) in found.iter_mut().enumerate() {
                if let Some(change) = change.at(at).filter(|c| c.old != c.new) {
                    value(own, change);
                }
            }
            for (at, more) in new.iter().enumerate().skip(found.len()) {
                let said = change.said.and_then(|said| said.get(at)).unwrap_or(more);
                found.extend(plain(said));
            }
        }
        (place, _) => {
            if let Some(mut other) = plain(change.words()) {
                *other.decor_mut() = place.decor().clone();
                *place = other;
            }
        }
    }
}

/// A value that was not there: a list of tables as `[[…]]` blocks where those may stand.
fn fresh(json: &Json, blocks: bool) -> Option<Item> {
    match json {
        Json::Array(items) if blocks && !items.is_empty() && items.iter().all(Json::is_object) => {
            Some(Item::ArrayOfTables(items.iter().map(block).collect()))
        }
        Json::Object(_) if blocks => Some(Item::Table(block(json))),
        other => plain(other).map(Item::Value),
    }
}

fn block(json: &Json) -> Table {
    let entries = json.as_object().into_iter().flatten();
    entries.filter_map(|(key, json)| Some((key.as_str(), Item::Value(plain(json)?)))).collect()
}

fn plain(json: &Json) -> Option<Value> {
    Some(match json {
        Json::Null => return None,
        Json::Bool(yes) => Value::from(*yes),
        Json::Number(number) => match (number.as_i64(), number.as_f64()) {
            (Some(whole), _) => Value::from(whole),
            (None, Some(real)) => Value::from(real),
            (None, None) => return None,
        },
        Json::String(text) => Value::from(text.as_str()),
        Json::Array(items) => Value::Array(items.iter().filter_map(plain).collect::<Array>()),
        Json::Object(entries) => Value::InlineTable(
            entries
                .iter()
                .filter_map(|(key, json)| Some((key.as_str(), plain(json)?)))
                .collect::<InlineTable>(),
        ),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;
    use weldbow_engine::job::{STARTER, STARTER_US};

    fn shape(text: &str) -> Json {
        serde_json::to_value(file_of_text("job.toml", text).unwrap()).unwrap()
    }

    #[test]
    fn the_same_values_give_the_same_text() {
        for text in [STARTER, STARTER_US] {
            assert_eq!(rewritten(text, &shape(text)).unwrap(), text);
        }
    }

    #[test]
    fn only_what_changes_is_written_anew_and_in_the_words_given() {
        let mut job = shape(STARTER);
        job["pass"][0]["leg"] = json!("5/16 in");
        job["member"]["inner_flange"][1]["thickness"] = json!("16 mm");
        let text = rewritten(STARTER, &job).unwrap();
        let changed: Vec<&str> =
            text.lines().zip(STARTER.lines()).filter(|(a, b)| a != b).map(|(a, _)| a).collect();
        assert_eq!(changed.len(), 2, "{changed:?}");
        assert!(changed[0].contains("thickness = \"16 mm\""), "{changed:?}");
        assert!(changed[1].contains("leg = \"5/16 in\""), "{changed:?}");
    }

    #[test]
    fn passes_and_orders_come_and_go() {
        let mut job = shape(STARTER);
        job["pass"].as_array_mut().unwrap().remove(1);
        job["pass"]
            .as_array_mut()
            .unwrap()
            .push(json!({ "seam": "inner", "side": "far", "leg": "5 mm", "step": 2 }));
        job["step"] = json!([{ "number": 2, "wait": "40 s", "joined": ["web", "inner_flange"] }]);
        let text = rewritten(STARTER, &job).unwrap();
        let back = file_of_text("job.toml", &text).unwrap_or_else(|c| panic!("{c}\n{text}"));
        let wanted: JobFile = serde_json::from_value(job).unwrap();
        assert_eq!(back, wanted, "{text}");
    }

    #[test]
    fn no_job_is_refused() {
        assert!(matches!(rewritten("title = 3", &json!({})), Err(NotRewritten::Text(_))));
        assert!(matches!(rewritten(STARTER, &json!({})), Err(NotRewritten::Shape(_))));
    }
}
