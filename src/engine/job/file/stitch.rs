//! A stitch weld: so much weld, so much gap, over and over.

use crate::units::Length;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{Error, IntoDeserializer, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::borrow::Cow;
use std::fmt::{Formatter, Result as Written};

/// "200 mm weld, 100 mm gap".
#[derive(Debug, Clone, PartialEq)]
pub struct StitchShape {
    text: String,
    weld: Length,
    gap: Length,
}

impl StitchShape {
    /// Length of each stitch, mm.
    pub(crate) fn weld_mm(&self) -> f64 {
        self.weld.value()
    }

    /// Clear length between stitches, mm.
    pub(crate) fn gap_mm(&self) -> f64 {
        self.gap.value()
    }

    /// Welded length over total length.
    pub(crate) fn welded_fraction(&self) -> f64 {
        self.weld_mm() / (self.weld_mm() + self.gap_mm())
    }
}

impl Serialize for StitchShape {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text)
    }
}

impl<'de> Deserialize<'de> for StitchShape {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_str(StitchVisitor)
    }
}

struct StitchVisitor;

impl Visitor<'_> for StitchVisitor {
    type Value = StitchShape;

    fn expecting(&self, f: &mut Formatter<'_>) -> Written {
        f.write_str("the length of weld and of gap, as \"200 mm weld, 100 mm gap\"")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<StitchShape, E> {
        let parts = text.split_once(',').and_then(|(weld, gap)| {
            Some((weld.trim().strip_suffix("weld")?.trim(), gap.trim().strip_suffix("gap")?.trim()))
        });
        let Some((weld, gap)) = parts else {
            return Err(E::custom("write it as \"200 mm weld, 100 mm gap\""));
        };
        Ok(StitchShape {
            text: text.to_owned(),
            weld: Length::deserialize(weld.into_deserializer())?,
            gap: Length::deserialize(gap.into_deserializer())?,
        })
    }
}

impl JsonSchema for StitchShape {
    fn schema_name() -> Cow<'static, str> {
        "Stitch".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "string", "examples": ["200 mm weld, 100 mm gap"] })
    }
}
