//! A steel: the name of a grade, or strengths of one's own.

use crate::input::shape;
use crate::units::Stress;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::value::MapAccessDeserializer;
use serde::de::{Error, MapAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize};
use std::borrow::Cow;
use std::fmt::{Formatter, Result as Written};

/// A grade by name, or strengths.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum SteelShape {
    /// Name of a grade.
    Grade(String),
    /// Strengths of the user's own.
    Own(OwnSteel),
}

shape! {
    /// Strengths of a steel that has no name here.
    pub struct OwnSteel {
        /// Yield strength.
        #[serde(rename = "yield")]
        pub yield_strength: Stress as "50 ksi",
        /// Tensile strength.
        pub tensile: Stress as "65 ksi",
        /// Young's modulus; the usual value without it.
        pub elastic: Option<Stress> as "205 GPa",
    }
}

impl<'de> Deserialize<'de> for SteelShape {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(SteelVisitor)
    }
}

struct SteelVisitor;

impl<'de> Visitor<'de> for SteelVisitor {
    type Value = SteelShape;

    fn expecting(&self, f: &mut Formatter<'_>) -> Written {
        f.write_str("a grade, as \"S355\", or { yield = \"50 ksi\", tensile = \"65 ksi\" }")
    }

    fn visit_str<E: Error>(self, name: &str) -> Result<SteelShape, E> {
        Ok(SteelShape::Grade(name.to_owned()))
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<SteelShape, A::Error> {
        OwnSteel::deserialize(MapAccessDeserializer::new(map)).map(SteelShape::Own)
    }
}

impl JsonSchema for SteelShape {
    fn schema_name() -> Cow<'static, str> {
        "Steel".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let own = generator.subschema_for::<OwnSteel>();
        json_schema!({ "anyOf": [{ "type": "string", "examples": ["S355"] }, own] })
    }
}
