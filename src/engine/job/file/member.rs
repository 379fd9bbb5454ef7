//! Plates and shape of the member.

use super::SteelShape;
use crate::input::{is_usual, shape};
use crate::member::{Edges, Preparation, Seam};
use crate::tolerance::Use;
use crate::units::{HeatInput, Length, Straightness};
use crate::welding::Side;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

shape! {
    /// Plates and shape of the member. x runs from the start end (0) to the finish end; the outer flange is on
    /// the straight side, the inner flange on the tapered side.
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
        #[schemars(example = &"1 mm")]
        pub fit_up_gap: Option<Length>,
        /// What it is built in as, "beam" or "column": AWS D1.1 asks more of columns over 9 m; a beam without it.
        #[serde(rename = "use")]
        #[schemars(example = &"column")]
        pub used_as: Option<Use>,
        /// Ends at which thick end plates or box stiffeners keep both flanges from turning sideways against each other while the
        /// seams are welded, "start" or "finish": they hold the twist back. None without it.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        #[schemars(example = serde_json::json!(["start"]))]
        pub held_ends: Vec<End>,
    }

    /// A stretch of web plate of one thickness.
    pub struct WebShape {
        /// Where it starts. May be left out; if given, it is where the piece before it ends.
        #[schemars(example = &"0 m")]
        pub from: Option<Length>,
        /// Where it ends. The last piece leaves it out and ends the member.
        #[schemars(example = &"5 m")]
        pub to: Option<Length>,
        /// Plate thickness.
        #[schemars(example = &"5 mm")]
        pub thickness: Length,
        /// Butt weld to the next piece.
        pub splice: Option<SpliceShape>,
        /// How far both edges of the plate, cut free, lie off the line that they were cut to, before welding: offset at its middle over its
        /// length. None without it. A bow that the cutting takes away is none.
        #[schemars(example = &"0.5 mm/m")]
        pub bow: Option<Straightness>,
        /// The flange that the middle of the plate lies toward: "outer" or "inner".
        #[schemars(example = &"outer")]
        pub bow_toward: Option<Seam>,
        /// Standard deviation of that bow from piece to piece. Without it none but that of `assembly.web_edge` and, where `web_edges`
        /// are thermally cut, of what two hot edges differ by.
        #[schemars(example = &"0.3 mm/m")]
        pub bow_scatter: Option<Straightness>,
        /// How far the middle of the plate stands off a straightedge laid across its depth, before welding, to whichever side. Flat
        /// without it.
        #[schemars(example = &"2 mm")]
        pub waves: Option<Length>,
        /// Standard deviation of those waves from piece to piece. Without it a third of what EN 10029 lets plate of its
        /// thickness stand off a metre, as a bow of the same curvature over the depth.
        #[schemars(example = &"1 mm")]
        pub waves_scatter: Option<Length>,
    }

    /// A stretch of flange plate of one size.
    pub struct FlangeShape {
        /// Where it starts. May be left out; if given, it is where the piece before it ends.
        #[schemars(example = &"0 m")]
        pub from: Option<Length>,
        /// Where it ends. The last piece leaves it out and ends the member.
        #[schemars(example = &"5 m")]
        pub to: Option<Length>,
        /// Full width of the plate.
        #[schemars(example = &"180 mm")]
        pub width: Length,
        /// Plate thickness.
        #[schemars(example = &"8 mm")]
        pub thickness: Length,
        /// Butt weld to the next piece.
        pub splice: Option<SpliceShape>,
        /// How the long edges of the strip were made, before it is fitted: "as-rolled", "sheared", "slit", "thermally-cut" (both edges
        /// at once), "thermally-cut-near", "thermally-cut-far" or "thermally-cut-one-edge". It says how much strips differ; one hot
        /// edge bows the strip, hot edges leave it pressed in the middle, where the fillet then shrinks more.
        #[serde(default, skip_serializing_if = "is_usual")]
        #[schemars(example = &"thermally-cut")]
        pub edges: Edges,
        /// How far the strip is out of straight as it lies on the floor: sideways offset at its middle over its length. By its edges
        /// without it. What was straightened after cutting is "0 mm/m".
        #[schemars(example = &"1.2 mm/m")]
        pub bow: Option<Straightness>,
        /// The side that the middle of the strip lies toward: "near" or "far".
        #[schemars(example = &"near")]
        pub bow_toward: Option<Side>,
        /// Standard deviation of that bow from piece to piece. By its edges without it. Strips of one size in one flange are taken to be of one
        /// plate and to come bowed alike: give less where they are mixed.
        #[schemars(example = &"0.5 mm/m")]
        pub bow_scatter: Option<Straightness>,
    }

    /// Butt weld between a piece and the next one, as thick as the thinner, to which the thicker is tapered down. Left out: square
    /// without gap up to 8 mm, above that a single V with 2 mm gap.
    #[derive(Default)]
    pub struct SpliceShape {
        /// Edge preparation: "square", "single-v", "double-v", or "square-backed" (a gap over a backing strip, filled from one side).
        #[schemars(example = &"single-v")]
        pub preparation: Option<Preparation>,
        /// Root gap.
        #[schemars(example = &"2 mm")]
        pub gap: Option<Length>,
        /// Net heat of all its passes together.
        #[schemars(example = &"1.5 kJ/mm")]
        pub heat_input: Option<HeatInput>,
        /// When it is welded: "before-assembly" (the plate is flat and straight by then) or "after-assembly", which shortens and
        /// kinks the member; before without it.
        #[schemars(example = &"after-assembly")]
        pub made: Option<MadeShape>,
        /// Seam left unwelded to each side of a splice made after assembly until it is cold; 300 mm without it.
        #[schemars(example = &"300 mm")]
        pub open: Option<Length>,
    }
}

/// An end of the member.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum End {
    /// x = 0.
    Start,
    /// x = L.
    Finish,
}

/// When a splice is welded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum MadeShape {
    /// On loose plates.
    BeforeAssembly,
    /// In the member, its seams welded.
    AfterAssembly,
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
