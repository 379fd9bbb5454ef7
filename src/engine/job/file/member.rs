//! Plates and shape of the member.

use super::SteelShape;
use crate::member::Preparation;
use crate::units::{HeatInput, Length};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Plates and shape of the member. x runs from the start end (0) to the finish end; the outer flange is on
/// the straight side, the inner flange on the tapered side.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MemberShape {
    /// Length from end to end.
    #[schemars(example = &"9.0 m")]
    pub length: Length,
    /// A grade by name, or strengths of your own: { yield = "50 ksi", tensile = "65 ksi" }.
    #[schemars(example = &"S355")]
    pub steel: SteelShape,
    /// Clear web depth between the flanges: points [x, depth], straight in between, from 0 to the length.
    #[schemars(example = serde_json::json!([["0 m", "400 mm"], ["9.0 m", "760 mm"]]))]
    pub depth: Vec<(Length, Length)>,
    /// Web plates from start to finish.
    #[schemars(example = example_web())]
    pub web: Vec<WebShape>,
    /// Outer flange plates from start to finish.
    #[schemars(example = example_flange())]
    pub outer_flange: Vec<FlangeShape>,
    /// Inner flange plates from start to finish.
    #[schemars(example = example_flange())]
    pub inner_flange: Vec<FlangeShape>,
    /// How the web edges were cut.
    #[serde(default)]
    #[schemars(example = &"sheared")]
    pub web_edges: WebEdges,
    /// Root gap left between web and flange by fit-up; none without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"1 mm")]
    pub fit_up_gap: Option<Length>,
}

/// A stretch of web plate of one thickness.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WebShape {
    /// Where it starts. May be left out; if given, it is where the piece before it ends.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"0 m")]
    pub from: Option<Length>,
    /// Where it ends. The last piece leaves it out and ends the member.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"5 m")]
    pub to: Option<Length>,
    /// Plate thickness.
    #[schemars(example = &"5 mm")]
    pub thickness: Length,
    /// Butt weld to the next piece.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub splice: Option<SpliceShape>,
}

/// A stretch of flange plate of one size.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FlangeShape {
    /// Where it starts. May be left out; if given, it is where the piece before it ends.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"0 m")]
    pub from: Option<Length>,
    /// Where it ends. The last piece leaves it out and ends the member.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"5 m")]
    pub to: Option<Length>,
    /// Full width of the plate.
    #[schemars(example = &"180 mm")]
    pub width: Length,
    /// Plate thickness.
    #[schemars(example = &"8 mm")]
    pub thickness: Length,
    /// Butt weld to the next piece.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub splice: Option<SpliceShape>,
}

/// Butt weld between a piece and the next one. Left out: square without gap up to 8 mm, above that a single V
/// with 2 mm gap.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SpliceShape {
    /// Edge preparation: "square", "single-v" or "double-v".
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"single-v")]
    pub preparation: Option<Preparation>,
    /// Root gap.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"2 mm")]
    pub gap: Option<Length>,
    /// Net heat of all its passes together.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"1.5 kJ/mm")]
    pub heat_input: Option<HeatInput>,
}

/// How the web edges were cut.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum WebEdges {
    /// Sheared, sawn or rolled: no heat before welding.
    #[default]
    Sheared,
    /// By flame or plasma: the edges already carry shrinkage.
    ThermallyCut,
}

fn example_web() -> serde_json::Value {
    serde_json::json!([{ "thickness": "5 mm" }])
}

fn example_flange() -> serde_json::Value {
    serde_json::json!([{ "width": "180 mm", "thickness": "8 mm" }])
}
