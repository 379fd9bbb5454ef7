//! The JSON Schema of a form, and what it knows about one field.

use super::PathStep;
use schemars::JsonSchema;
use serde_json::{Map, Value, json};

/// What may stand at a place of a form.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Node<'s> {
    /// A table with these keys.
    Table(Vec<&'s str>),
    /// Tables under names of the user's own.
    Named,
    /// A list.
    List,
    /// A single value.
    Leaf,
}

/// A JSON Schema.
#[derive(Debug)]
pub struct Schema(Value);

/// The schema of a form, made once.
macro_rules! kept_schema {
    ($form:ty) => {
        fn schema() -> &'static $crate::input::Schema {
            static SCHEMA: std::sync::LazyLock<$crate::input::Schema> =
                std::sync::LazyLock::new($crate::input::Schema::of::<$form>);
            &SCHEMA
        }
    };
}
pub(crate) use kept_schema;

impl Schema {
    /// The schema of a shape, without the null that TOML does not have.
    pub fn of<T: JsonSchema>() -> Self {
        let mut schema = schemars::schema_for!(T).to_value();
        without_null(&mut schema);
        Self(schema)
    }

    /// The schema itself.
    pub fn value(&self) -> &Value {
        &self.0
    }

    /// The part of the schema for a path: the field's own remarks, its type behind them.
    fn field(&self, steps: &[PathStep]) -> Option<&Value> {
        let mut node = self.value();
        for step in steps {
            node = self.alternatives(node).into_iter().find_map(|kind| match step {
                PathStep::Key(key) => kind
                    .get("properties")
                    .and_then(|p| p.get(key))
                    .or_else(|| kind.get("additionalProperties")),
                PathStep::Item(index) => {
                    kind.get("prefixItems").and_then(|p| p.get(index)).or_else(|| kind.get("items"))
                }
            })?;
        }
        node.is_object().then_some(node)
    }

    /// The type of a node: itself, what it refers to, and what it may be.
    fn alternatives<'s>(&'s self, node: &'s Value) -> Vec<&'s Value> {
        let mut all = vec![node];
        if let Some(name) = node.get("$ref").and_then(Value::as_str) {
            all.extend(self.value().pointer(name.trim_start_matches('#')));
        }
        let choices: Vec<_> = all.iter().filter_map(|n| n.get("anyOf")?.as_array()).flatten().collect();
        all.extend(choices.into_iter().flat_map(|choice| self.alternatives(choice)));
        all
    }

    /// A right value for the field at a path.
    pub fn example(&self, steps: &[PathStep]) -> Option<Value> {
        self.example_of(self.field(steps)?)
    }

    fn example_of(&self, node: &Value) -> Option<Value> {
        let kinds = self.alternatives(node);
        kinds.iter().find_map(|kind| {
            let first = |key: &str| kind.get(key)?.get(0).cloned();
            first("examples")
                .or_else(|| first("enum"))
                .or_else(|| kind.get("oneOf")?.get(0)?.get("const").cloned())
                .or_else(|| match kind.get("type")?.as_str()? {
                    "array" => match kind.get("prefixItems").and_then(Value::as_array) {
                        Some(items) => items.iter().map(|item| self.example_of(item)).collect(),
                        None => Some(json!([self.example_of(kind.get("items")?)?])),
                    },
                    "object" => Some(Value::Object(self.required(kind)?)),
                    _ => None,
                })
        })
    }

    fn required(&self, kind: &Value) -> Option<Map<String, Value>> {
        let names = kind.get("required").and_then(Value::as_array).map(Vec::as_slice).unwrap_or_default();
        names
            .iter()
            .map(|name| {
                let name = name.as_str()?;
                Some((name.to_owned(), self.example_of(kind.get("properties")?.get(name)?)?))
            })
            .collect()
    }

    /// What stands at a path.
    pub fn node(&self, steps: &[PathStep]) -> Option<Node<'_>> {
        let kinds = self.alternatives(self.field(steps)?);
        let of = |key: &str| kinds.iter().find_map(|kind| kind.get(key));
        Some(if let Some(Value::Object(fields)) = of("properties") {
            Node::Table(fields.keys().map(String::as_str).collect())
        } else if of("additionalProperties").is_some_and(Value::is_object) {
            Node::Named
        } else if of("items").or_else(|| of("prefixItems")).is_some() {
            Node::List
        } else {
            Node::Leaf
        })
    }

    /// What the field at a path is, in the first sentence of its description.
    pub fn meaning(&self, steps: &[PathStep]) -> Option<&str> {
        let text = self
            .alternatives(self.field(steps)?)
            .into_iter()
            .find_map(|kind| kind.get("description")?.as_str())?;
        Some(text.split_once(". ").map_or(text, |(first, _)| first).trim_end_matches('.'))
    }
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
