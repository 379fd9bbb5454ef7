//! A limit: a length, or a part of the member's length.

use crate::units::Length;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{Error, IntoDeserializer, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::borrow::Cow;
use std::fmt::{Formatter, Result as Written};

/// "10 mm", or "L/500".
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LimitShape {
    /// A length.
    Length(Length),
    /// The member's length divided by this number.
    PartOfLength(f64),
}

impl LimitShape {
    /// Size for a member of that length, mm.
    pub(crate) fn size_mm(self, length_mm: f64) -> f64 {
        match self {
            Self::Length(length) => length.value(),
            Self::PartOfLength(divisor) => length_mm / divisor,
        }
    }

    /// Divisor of the member's length, if it is given as one.
    pub(crate) const fn part_of_length(self) -> Option<f64> {
        match self {
            Self::Length(_) => None,
            Self::PartOfLength(divisor) => Some(divisor),
        }
    }
}

impl Serialize for LimitShape {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Length(length) => length.serialize(serializer),
            Self::PartOfLength(divisor) => serializer.collect_str(&format_args!("L/{divisor}")),
        }
    }
}

impl<'de> Deserialize<'de> for LimitShape {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_str(LimitVisitor)
    }
}

struct LimitVisitor;

impl Visitor<'_> for LimitVisitor {
    type Value = LimitShape;

    fn expecting(&self, f: &mut Formatter<'_>) -> Written {
        f.write_str("a length with its unit, as \"10 mm\", or a part of the member's length, as \"L/500\"")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<LimitShape, E> {
        let Some(part) = text.trim().strip_prefix(['L', 'l']) else {
            return Length::deserialize(text.into_deserializer()).map(LimitShape::Length);
        };
        let divisor = part.trim().strip_prefix('/').and_then(|d| d.trim().parse::<f64>().ok());
        match divisor {
            Some(divisor) if divisor.is_finite() && divisor > 0.0 => Ok(LimitShape::PartOfLength(divisor)),
            _ => Err(E::custom("after `L` comes `/` and a number above zero, as \"L/500\"")),
        }
    }
}

impl JsonSchema for LimitShape {
    fn schema_name() -> Cow<'static, str> {
        "Limit".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "string", "examples": ["10 mm", "L/500"] })
    }
}
