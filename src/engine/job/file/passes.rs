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
        pub seam: Seam as "outer",
        /// The side of the web: "near" (faces up in the line) or "far".
        pub side: Side as "near",
        /// Fillet leg. Without a procedure its heat follows from the leg rule.
        pub leg: Option<Length> as "6 mm",
        /// Name of the procedure. Without a leg, the leg follows from the deposit.
        pub procedure: Option<String> as "twin-6",
        /// Number of the welding procedure specification; that of its procedure without it.
        pub wps: Option<String> as "W-12",
        /// Net heat input, if you know it better than any rule.
        pub heat_input: Option<HeatInput> as "1.0 kJ/mm",
        /// Gross heat input, as a welding procedure states it: current times voltage over travel speed. The arc's efficiency
        /// comes off it: that of the procedure, or the usual one of submerged arc.
        pub gross_heat_input: Option<HeatInput> as "1.1 kJ/mm",
        /// Step of the sequence; passes of the same step are laid together; 1 without it. (`order` in older files.)
        #[serde(rename = "step", alias = "order", default = "first")]
        pub order: u32 as 1,
        /// Runs that build up the leg, one on the other, each cold before the next; 1 without it. Heat and procedure are those of
        /// one run, the leg is that of all.
        pub runs: Option<u32> as 2,
        /// Where it starts; the start end without it.
        pub from: Option<Length> as "0 m",
        /// Where it ends; the finish end without it.
        pub to: Option<Length> as "9.0 m",
        /// Stitch weld; continuous without it.
        pub intermittent: Option<StitchShape> as "200 mm weld, 100 mm gap",
        /// Shrinkage force of this pass over the computed one. Left out: 1.
        pub force_factor: Option<f64> as 1.05,
    }

    /// One step of the sequence.
    pub struct OrderShape {
        /// Its number, as named by the passes.
        pub number: u32 as 2,
        /// Parts that act together when its passes cool; all three without it.
        pub joined: Option<Vec<PartShape>> as ["web", "outer_flange"],
        /// Time from the step before it to this one at one station, or "cold"; cold without it. A flange that joins sooner is bent by what
        /// the others still shrink.
        pub wait: Option<WaitShape> as "cold",
        /// Instead of `wait`: how far the heads of this step follow those of the step before it along the line. The wait is that over
        /// the travel speed of its procedure.
        pub head_spacing: Option<Length> as "600 mm",
        /// A flange newly joined here is clamped "straight" or "follows" the web as it is; straight without it.
        pub added_flange: Option<FlangeFit> as "straight",
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
    /// Those named together; all three where none is.
    pub(crate) fn all(named: Option<&[Self]>) -> Parts {
        named.map_or(Parts::ALL, |named| named.iter().fold(Parts::NONE, |all, part| all.with(part.part())))
    }

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
