//! Values of ours that a file has as text.

use serde::de::{Error, Visitor};
use std::fmt::{Formatter, Result as Written};

/// Reads such a value; `wanted` is said to whoever wrote something else.
pub(super) struct FromText<T> {
    pub(super) wanted: &'static str,
    pub(super) read: fn(&str) -> Result<T, String>,
}

impl<T> Visitor<'_> for FromText<T> {
    type Value = T;

    fn expecting(&self, f: &mut Formatter<'_>) -> Written {
        f.write_str(self.wanted)
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<T, E> {
        (self.read)(text).map_err(E::custom)
    }
}

/// Lets a file have a value as text: its name in the schema, its examples there, and what is wanted.
macro_rules! written_as_text {
    ($value:ident, $name:literal, $examples:tt, $wanted:literal) => {
        impl<'de> serde::Deserialize<'de> for $value {
            fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                from.deserialize_str(super::text::FromText { wanted: $wanted, read: Self::read })
            }
        }

        impl schemars::JsonSchema for $value {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                $name.into()
            }

            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!({ "type": "string", "examples": $examples })
            }
        }
    };
}

pub(super) use written_as_text;
