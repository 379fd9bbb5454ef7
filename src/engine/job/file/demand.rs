//! What the welds of the member must carry.

use crate::input::shape;
use crate::strength::{Code, Service};
use crate::units::{Force, ForcePerLength, Length, Moment, Stress};

shape! {
    /// What the web-to-flange welds must carry, for `weldbow choose`: shear and moment along the member as points, or end
    /// values with an even load, or the shear flow itself. Factored loads, but for "aisc-asd".
    pub struct DemandShape {
        /// Code for the strength: "en-1993-1-8", "aisc-lrfd" or "aisc-asd".
        #[schemars(example = &"en-1993-1-8")]
        pub code: Code,
        /// Shear: points [x, V], straight in between, from 0 to the length. Where V is positive the moment rises along x.
        #[schemars(example = serde_json::json!([["0 m", "60 kN"], ["9.0 m", "-20 kN"]]))]
        pub shear: Option<Vec<(Length, Force)>>,
        /// Moment: points [x, M], straight in between, from 0 to the length. Without it the shear adds it up from
        /// `start_moment`.
        #[schemars(example = serde_json::json!([["0 m", "0 kN·m"], ["9.0 m", "180 kN·m"]]))]
        pub moment: Option<Vec<(Length, Moment)>>,
        /// Shear at the start end, with `load`, instead of `shear`.
        #[schemars(example = &"60 kN")]
        pub start_shear: Option<Force>,
        /// Moment at the start end; none without it.
        #[schemars(example = &"0 kN·m")]
        pub start_moment: Option<Moment>,
        /// Even load across the member, which lowers the shear along x; none without it.
        #[schemars(example = &"8 kN/m")]
        pub load: Option<ForcePerLength>,
        /// Shear flow at either seam: points [x, q], straight in between, instead of shear and moment.
        #[schemars(example = serde_json::json!([["0 m", "120 N/mm"], ["9.0 m", "60 N/mm"]]))]
        pub shear_flow: Option<Vec<(Length, ForcePerLength)>>,
        /// Load on the member: "static", "fluctuating", "corrosive" or "seismic"; static without it.
        #[serde(default)]
        #[schemars(example = &"static")]
        pub service: Service,
        /// Stretches [from, to] where both sides of the web must be welded: knee, end plate, crane bracket, stiffener.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        #[schemars(example = serde_json::json!([["8 m", "9 m"]]))]
        pub both_sides: Vec<(Length, Length)>,
        /// Rules for the smallest fillet, by name: "aisc-360", "en-1993-1-8", "root-of-thickness",
        /// "aws-d1.1" or "gb-51022"; the usual ones of the code without it; `[]` for strength alone, with a smallest leg of
        /// your own (`--least-leg`).
        #[schemars(example = serde_json::json!(["en-1993-1-8", "root-of-thickness"]))]
        pub minimums: Option<Vec<String>>,
        /// Tensile strength of the filler metal (AISC); 70 ksi without it.
        #[schemars(example = &"70 ksi")]
        pub filler: Option<Stress>,
        /// Carbon equivalent CET of the plates by their certificate, %: C + (Mn + Mo)/10 + (Cr + Cu)/20 + Ni/40. With it preheat goes by
        /// EN 1011-2 method B, too.
        #[schemars(example = &0.31)]
        pub cet: Option<f64>,
        /// Tensile strength of the weaker part joined (EN); the steel's own without it.
        #[schemars(example = &"470 MPa")]
        pub ultimate: Option<Stress>,
    }
}
