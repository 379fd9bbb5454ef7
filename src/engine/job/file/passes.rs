//! Passes and the steps they are laid in.
//!
//! A stitch weld: so much weld, so much gap, over and over.
//!
//! What is welded across the member.

use super::text::written_as_text;
use crate::input::shape;
use crate::member::{Parts, Seam};
use crate::units::{HeatInput, Kind, Length, Time, read};
use crate::welding::{AttachmentKind, FlangeFit, Side, Stitch};
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
        /// Time from the step before it to this one at one station, or "cold"; cold without it.
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

    /// Both.
    pub(crate) fn stitch(&self) -> Stitch {
        Stitch { weld_mm: self.weld_mm(), gap_mm: self.gap_mm() }
    }

    fn read(text: &str) -> Result<Self, String> {
        let parts = text.split_once(',').and_then(|(weld, gap)| {
            Some((weld.trim().strip_suffix("weld")?.trim(), gap.trim().strip_suffix("gap")?.trim()))
        });
        let Some((weld, gap)) = parts else {
            return Err("write it as \"200 mm weld, 100 mm gap\"".to_owned());
        };
        let length = |text| read(Kind::Length, text).map(Length::new).map_err(|error| error.to_string());
        Ok(Self { text: text.to_owned(), weld: length(weld)?, gap: length(gap)? })
    }
}

impl Serialize for StitchShape {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text)
    }
}

written_as_text!(
    StitchShape,
    "Stitch",
    ["200 mm weld, 100 mm gap"],
    "the length of weld and of gap, as \"200 mm weld, 100 mm gap\""
);

shape! {
    /// One kind of attachment, at one place or several.
    pub struct AttachmentShape {
        /// "stiffener-pair", "stiffener", "cleat" (on the outside of a flange, welded across it), "end-plate" or "base-plate".
        pub kind: AttachmentKind as "stiffener-pair",
        /// Places along the member. An end or base plate stands at 0 m or at the member's length.
        pub at: Vec<Length> as ["3.0 m", "6.0 m"],
        /// Parts it is welded to: web, outer_flange, inner_flange. All three without it; a cleat names its flange.
        pub to: Option<Vec<PartShape>> as ["web", "outer_flange"],
        /// Side of the web on which a single stiffener stands; a cleat has one if it sits at an edge of its flange.
        pub side: Option<Side> as "near",
        /// Fillet leg.
        pub leg: Length as "5 mm",
        /// Net heat of one fillet; by the leg rule without it.
        pub heat_input: Option<HeatInput> as "0.8 kJ/mm",
        /// Gross heat of one fillet, as a welding procedure states it; the efficiency of the procedure or of gas-shielded wire comes off.
        pub gross_heat_input: Option<HeatInput> as "0.95 kJ/mm",
        /// Name of the procedure its heat follows from.
        pub procedure: Option<String> as "wire-5",
        /// Fillets along each edge: 2, one on each face of the attached plate, without it.
        pub fillets: Option<u32> as 2,
        /// Length of weld across the flange of one stiffener or cleat; as wide as there is flange without it.
        pub width: Option<Length> as "80 mm",
        /// Thickness of the attached plate; 10 mm without it, 20 mm of an end or base plate.
        pub thickness: Option<Length> as "10 mm",
    }
}
