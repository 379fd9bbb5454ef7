//! Plates and shape of the member.

use super::SteelShape;
use crate::input::shape;
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
        pub length: Length as "9.0 m",
        /// A grade by name, or strengths of your own: { yield = "50 ksi", tensile = "65 ksi" }.
        pub steel: SteelShape as "S355",
        /// Clear web depth between the flanges: points [x, depth], straight in between, from 0 to the length.
        pub depth: Vec<(Length, Length)> as [["0 m", "400 mm"], ["9.0 m", "760 mm"]],
        /// Web plates from start to finish.
        pub web: Vec<WebShape> as [{ "thickness": "5 mm" }],
        /// Outer flange plates from start to finish.
        pub outer_flange: Vec<FlangeShape> as [{ "width": "180 mm", "thickness": "8 mm" }],
        /// Inner flange plates from start to finish.
        pub inner_flange: Vec<FlangeShape> as [{ "width": "180 mm", "thickness": "8 mm" }],
        /// How the web edges were cut.
        #[serde(default)]
        pub web_edges: WebEdges as "sheared",
        /// Root gap left between web and flange by fit-up; none without it.
        pub fit_up_gap: Option<Length> as "1 mm",
        /// What it is built in as, "beam" or "column": AWS D1.1 asks more of columns over 9 m; a beam without it.
        #[serde(rename = "use")]
        pub used_as: Option<Use> as "column",
        /// Ends at which thick end plates or box stiffeners keep both flanges from turning sideways against each other while the
        /// seams are welded, "start" or "finish": they hold the twist back. None without it.
        pub held_ends: Vec<End> = usual as ["start"],
    }

    /// A stretch of web plate of one thickness.
    pub struct WebShape {
        /// Where it starts. May be left out; if given, it is where the piece before it ends.
        pub from: Option<Length> as "0 m",
        /// Where it ends. The last piece leaves it out and ends the member.
        pub to: Option<Length> as "5 m",
        /// Plate thickness.
        pub thickness: Length as "5 mm",
        /// Butt weld to the next piece.
        pub splice: Option<SpliceShape>,
        /// How far both edges of the plate, cut free, lie off the line that they were cut to, before welding: offset at its middle over its
        /// length. None without it. A bow that the cutting takes away is none.
        pub bow: Option<Straightness> as "0.5 mm/m",
        /// The flange that the middle of the plate lies toward: "outer" or "inner".
        pub bow_toward: Option<Seam> as "outer",
        /// Standard deviation of that bow from piece to piece. Without it none but that of `assembly.web_edge` and, where `web_edges`
        /// are thermally cut, of what two hot edges differ by.
        pub bow_scatter: Option<Straightness> as "0.3 mm/m",
        /// How far the middle of the plate stands off a straightedge laid across its depth, before welding, to whichever side. Flat
        /// without it.
        pub waves: Option<Length> as "2 mm",
        /// Standard deviation of those waves from piece to piece. Without it a third of what EN 10029 lets plate of its
        /// thickness stand off a metre, as a bow of the same curvature over the depth.
        pub waves_scatter: Option<Length> as "1 mm",
    }

    /// A stretch of flange plate of one size.
    pub struct FlangeShape {
        /// Where it starts. May be left out; if given, it is where the piece before it ends.
        pub from: Option<Length> as "0 m",
        /// Where it ends. The last piece leaves it out and ends the member.
        pub to: Option<Length> as "5 m",
        /// Full width of the plate.
        pub width: Length as "180 mm",
        /// Plate thickness.
        pub thickness: Length as "8 mm",
        /// Butt weld to the next piece.
        pub splice: Option<SpliceShape>,
        /// How the long edges of the strip were made, before it is fitted: "as-rolled", "sheared", "slit", "thermally-cut" (both edges
        /// at once), "thermally-cut-near", "thermally-cut-far" or "thermally-cut-one-edge". It says how much strips differ; one hot
        /// edge bows the strip, hot edges leave it pressed in the middle, where the fillet then shrinks more.
        pub edges: Edges = usual as "thermally-cut",
        /// How far the strip is out of straight as it lies on the floor: sideways offset at its middle over its length. By its edges
        /// without it. What was straightened after cutting is "0 mm/m".
        pub bow: Option<Straightness> as "1.2 mm/m",
        /// The side that the middle of the strip lies toward: "near" or "far".
        pub bow_toward: Option<Side> as "near",
        /// Standard deviation of that bow from piece to piece. By its edges without it. Strips of one size in one flange are taken to be of one
        /// plate and to come bowed alike: give less where they are mixed.
        pub bow_scatter: Option<Straightness> as "0.5 mm/m",
    }

    /// Butt weld between a piece and the next one, as thick as the thinner, to which the thicker is tapered down. Left out: square
    /// without gap up to 8 mm, above that a single V with 2 mm gap.
    #[derive(Default)]
    pub struct SpliceShape {
        /// Edge preparation: "square", "single-v", "double-v", or "square-backed" (a gap over a backing strip, filled from one side).
        pub preparation: Option<Preparation> as "single-v",
        /// Root gap.
        pub gap: Option<Length> as "2 mm",
        /// Net heat of all its passes together.
        pub heat_input: Option<HeatInput> as "1.5 kJ/mm",
        /// When it is welded: "before-assembly" (the plate is flat and straight by then) or "after-assembly", which shortens and
        /// kinks the member; before without it.
        pub made: Option<MadeShape> as "after-assembly",
        /// Seam left unwelded to each side of a splice made after assembly until it is cold; 300 mm without it.
        pub open: Option<Length> as "300 mm",
    }

    /// How the web edges were cut.
    pub enum WebEdges {
        /// Sheared, sawn or rolled: no heat before welding.
        #[default]
        Sheared,
        /// By flame or plasma: the edges already carry shrinkage.
        ThermallyCut,
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
