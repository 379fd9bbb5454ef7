//! The JSON Schema of a job file, and what it knows about one field.

use super::file::JobFile;
use super::locate::Step;
use serde_json::{Map, Value, json};
use std::sync::LazyLock;

static SCHEMA: LazyLock<Value> = LazyLock::new(|| {
    let mut schema = schemars::schema_for!(JobFile).to_value();
    without_null(&mut schema);
    schema
});

/// The JSON Schema of a job file.
pub fn schema() -> &'static Value {
    &SCHEMA
}

/// TOML has no null, so an optional field is its type and nothing else.
fn without_null(node: &mut Value) {
    if let Value::Object(fields) = node {
        fields.retain(|key, value| !(key == "default" && value.is_null()));
        if let Some(Value::Array(types)) = fields.get_mut("type") {
            types.retain(|t| t != "null");
            if let [only] = types.as_slice() {
                let only = only.clone();
                fields.insert("type".to_owned(), only);
            }
        }
        if let Some(Value::Array(any)) = fields.get_mut("anyOf") {
            any.retain(|one| *one != json!({ "type": "null" }));
            if let [Value::Object(only)] = any.as_slice() {
                let only = only.clone();
                fields.remove("anyOf");
                fields.extend(only);
            }
        }
        fields.values_mut().for_each(without_null);
    } else if let Value::Array(items) = node {
        items.iter_mut().for_each(without_null);
    }
}

/// The part of the schema for a path: the field's own remarks, its type behind them.
fn field(steps: &[Step]) -> Option<&'static Value> {
    let mut node = schema();
    for step in steps {
        node = alternatives(node).into_iter().find_map(|kind| match step {
            Step::Key(key) => {
                kind.get("properties").and_then(|p| p.get(key)).or_else(|| kind.get("additionalProperties"))
            }
            Step::Item(index) => {
                kind.get("prefixItems").and_then(|p| p.get(index)).or_else(|| kind.get("items"))
            }
        })?;
    }
    node.is_object().then_some(node)
}

/// The type of a node: itself, what it refers to, and what it may be.
fn alternatives(node: &'static Value) -> Vec<&'static Value> {
    let mut all = vec![node];
    if let Some(name) = node.get("$ref").and_then(Value::as_str) {
        all.extend(schema().pointer(name.trim_start_matches('#')));
    }
    let choices: Vec<_> = all.iter().filter_map(|n| n.get("anyOf")?.as_array()).flatten().collect();
    all.extend(choices.into_iter().flat_map(alternatives));
    all
}

/// A right value for the field at a path.
pub fn example(steps: &[Step]) -> Option<Value> {
    example_of(field(steps)?)
}

fn example_of(node: &'static Value) -> Option<Value> {
    let kinds = alternatives(node);
    kinds.iter().find_map(|kind| {
        let first = |key: &str| kind.get(key)?.get(0).cloned();
        first("examples")
            .or_else(|| first("enum"))
            .or_else(|| kind.get("oneOf")?.get(0)?.get("const").cloned())
            .or_else(|| match kind.get("type")?.as_str()? {
                "array" => match kind.get("prefixItems").and_then(Value::as_array) {
                    Some(items) => items.iter().map(example_of).collect(),
                    None => Some(json!([example_of(kind.get("items")?)?])),
                },
                "object" => Some(Value::Object(required(kind)?)),
                _ => None,
            })
    })
}

fn required(kind: &'static Value) -> Option<Map<String, Value>> {
    let names = kind.get("required").and_then(Value::as_array).map(Vec::as_slice).unwrap_or_default();
    names
        .iter()
        .map(|name| {
            let name = name.as_str()?;
            Some((name.to_owned(), example_of(kind.get("properties")?.get(name)?)?))
        })
        .collect()
}

/// What the field at a path is, in the first sentence of its description.
pub fn meaning(steps: &[Step]) -> Option<&'static str> {
    let text = alternatives(field(steps)?).into_iter().find_map(|kind| kind.get("description")?.as_str())?;
    Some(text.split_once(". ").map_or(text, |(first, _)| first).trim_end_matches('.'))
}

/// A value as TOML writes it in one line.
pub fn as_toml(value: &Value) -> String {
    match value {
        Value::Array(items) => format!("[{}]", items.iter().map(as_toml).collect::<Vec<_>>().join(", ")),
        Value::Object(fields) => {
            let fields: Vec<_> =
                fields.iter().map(|(key, value)| format!("{key} = {}", as_toml(value))).collect();
            format!("{{ {} }}", fields.join(", "))
        }
        plain => plain.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::super::locate::steps_of;
    use super::*;

    fn example_at(path: &str) -> String {
        as_toml(&example(&steps_of(path)).unwrap_or(Value::Null))
    }

    #[test]
    fn every_kind_of_field_has_an_example() {
        assert_eq!(example_at("member.length"), "\"9.0 m\"");
        assert_eq!(example_at("member.web"), "[{ thickness = \"5 mm\" }]");
        assert_eq!(example_at("member.web[3].thickness"), "\"5 mm\"");
        assert_eq!(example_at("member.depth[1][0]"), "\"8 mm\"");
        assert_eq!(example_at("member.depth[1]"), "[\"8 mm\", \"8 mm\"]");
        assert_eq!(example_at("member.steel.yield"), "\"50 ksi\"");
        assert_eq!(example_at("procedure.any.arcs[0].voltage"), "\"30 V\"");
        assert_eq!(example_at("pass[0].side"), "\"near\"");
        assert_eq!(example_at("order[0].wait"), "\"cold\"");
    }

    #[test]
    fn a_field_can_say_what_it_is() {
        assert_eq!(meaning(&steps_of("member.length")), Some("Length from end to end"));
        assert_eq!(meaning(&steps_of("member.nonsense")), None);
    }

    #[test]
    fn the_schema_speaks_of_no_null() {
        assert!(!schema().to_string().contains("null"), "TOML has no null");
    }
}
