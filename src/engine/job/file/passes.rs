//! Passes and the steps they are laid in.

use super::StitchShape;
use super::text::written_as_text;
use crate::input::shape;
use crate::member::{Parts, Seam};
use crate::units::{HeatInput, Kind, Length, Time, read};
use crate::welding::{FlangeFit, Side};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize, Serializer};

shape! {
    /// One weld laid along a seam. Give a leg, a procedure, or both.
    pub struct PassShape {
        /// The seam: "outer" (straight side) or "inner" (tapered side).
        #[schemars(example = &"outer")]
        pub seam: Seam,
        /// The side of the web: "near" (faces up in the line) or "far".
        #[schemars(example = &"near")]
        pub side: Side,
        /// Fillet leg. Without a procedure its heat follows from the leg rule.
        #[schemars(example = &"6 mm")]
        pub leg: Option<Length>,
        /// Name of the procedure. Without a leg, the leg follows from the deposit.
        #[schemars(example = &"twin-6")]
        pub procedure: Option<String>,
        /// Number of the welding procedure specification; that of its procedure without it.
        #[schemars(example = &"W-12")]
        pub wps: Option<String>,
        /// Net heat input, if you know it better than any rule.
        #[schemars(example = &"1.0 kJ/mm")]
        pub heat_input: Option<HeatInput>,
        /// Gross heat input, as a welding procedure states it: current times voltage over travel speed. The arc's efficiency
        /// comes off it: that of the procedure, or the usual one of submerged arc.
        #[schemars(example = &"1.1 kJ/mm")]
        pub gross_heat_input: Option<HeatInput>,
        /// Step of the sequence; passes of the same step are laid together; 1 without it. (`order` in older files.)
        #[serde(rename = "step", alias = "order", default = "first")]
        #[schemars(example = &1)]
        pub order: u32,
        /// Runs that build up the leg, one on the other, each cold before the next; 1 without it. Heat and procedure are those of
        /// one run, the leg is that of all.
        #[schemars(example = &2)]
        pub runs: Option<u32>,
        /// Where it starts; the start end without it.
        #[schemars(example = &"0 m")]
        pub from: Option<Length>,
        /// Where it ends; the finish end without it.
        #[schemars(example = &"9.0 m")]
        pub to: Option<Length>,
        /// Stitch weld; continuous without it.
        #[schemars(example = &"200 mm weld, 100 mm gap")]
        pub intermittent: Option<StitchShape>,
        /// Shrinkage force of this pass over the computed one. Left out: 1.
        #[schemars(example = &1.05)]
        pub force_factor: Option<f64>,
    }

    /// One step of the sequence.
    pub struct OrderShape {
        /// Its number, as named by the passes.
        #[schemars(example = &2)]
        pub number: u32,
        /// Parts that act together when its passes cool; all three without it.
        #[schemars(example = serde_json::json!(["web", "outer_flange"]))]
        pub joined: Option<Vec<PartShape>>,
        /// Time from the step before it to this one at one station, or "cold"; cold without it.
        #[schemars(example = &"cold")]
        pub wait: Option<WaitShape>,
        /// Instead of `wait`: how far the heads of this step follow those of the step before it along the line. The wait is that over
        /// the travel speed of its procedure.
        #[schemars(example = &"600 mm")]
        pub head_spacing: Option<Length>,
        /// A flange newly joined here is clamped "straight" or "follows" the web as it is; straight without it.
        #[schemars(example = &"straight")]
        pub added_flange: Option<FlangeFit>,
    }
}

const fn first() -> u32 {
    1
}

/// One of the three plates.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum PartShape {
    /// The web.
    Web,
    /// The flange on the straight side.
    OuterFlange,
    /// The flange on the tapered side.
    InnerFlange,
}

impl PartShape {
    /// The part itself.
    pub const fn part(self) -> Parts {
        match self {
            Self::Web => Parts::WEB,
            Self::OuterFlange => Parts::OUTER_FLANGE,
            Self::InnerFlange => Parts::INNER_FLANGE,
        }
    }
}

/// "cold", or a time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum WaitShape {
    /// Long enough to be cold.
    Cold,
    /// A time at one station.
    Time(Time),
}

impl Serialize for WaitShape {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Cold => serializer.serialize_str("cold"),
            Self::Time(time) => time.serialize(serializer),
        }
    }
}

written_as_text!(WaitShape, "Wait", ["cold", "40 s"], "\"cold\", or a time with its unit, as \"40 s\"");

impl WaitShape {
    fn read(text: &str) -> Result<Self, String> {
        if text.trim().eq_ignore_ascii_case("cold") {
            return Ok(Self::Cold);
        }
        read(Kind::Time, text).map(|s| Self::Time(Time::new(s))).map_err(|error| error.to_string())
    }
}
