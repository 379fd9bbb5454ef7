//! What assembly adds to the scatter of pieces.

use crate::units::Length;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What pieces differ by because of assembly, one standard deviation each, beside welds and plates. A shop's record takes their
/// place.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AssemblyShape {
    /// Web edges off their line, as cut and as set: in the camber at mid-length. 1 mm without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"0.5 mm")]
    pub web_edge: Option<Length>,
    /// Flanges set off their line: in the sweep at mid-length. 1 mm without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"0.5 mm")]
    pub fit_up: Option<Length>,
    /// Length as cut. 1 mm without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"1 mm")]
    pub length: Option<Length>,
    /// Flange toes by plates that come crowned, both toes alike. 0.2 mm without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"0.2 mm")]
    pub flange_cup: Option<Length>,
    /// Flange toes by flanges set out of square, one toe against the other. 0.3 mm without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"0.3 mm")]
    pub flange_tilt: Option<Length>,
}

impl AssemblyShape {
    /// Whether nothing is said.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}
