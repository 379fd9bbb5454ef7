//! What the welds of the member must carry.

use crate::input::shape;
use crate::strength::{Code, Service};
use crate::units::{Force, ForcePerLength, Length, Moment, Stress};

shape! {
    /// What the web-to-flange welds must carry, for `weldbow choose`: shear and moment along the member as points, or end
    /// values with an even load, or the shear flow itself. Factored loads, but for "aisc-asd".
    pub struct DemandShape {
        /// Code for the strength: "en-1993-1-8", "aisc-lrfd" or "aisc-asd".
        pub code: Code as "en-1993-1-8",
        /// Shear: points [x, V], straight in between, from 0 to the length. Where V is positive the moment rises along x.
        pub shear: Option<Vec<(Length, Force)>> as [["0 m", "60 kN"], ["9.0 m", "-20 kN"]],
        /// Moment: points [x, M], straight in between, from 0 to the length. Without it the shear adds it up from
        /// `start_moment`.
        pub moment: Option<Vec<(Length, Moment)>> as [["0 m", "0 kN·m"], ["9.0 m", "180 kN·m"]],
        /// Shear at the start end, with `load`, instead of `shear`.
        pub start_shear: Option<Force> as "60 kN",
        /// Moment at the start end; none without it.
        pub start_moment: Option<Moment> as "0 kN·m",
        /// Even load across the member, which lowers the shear along x; none without it.
        pub load: Option<ForcePerLength> as "8 kN/m",
        /// Shear flow at either seam: points [x, q], straight in between, instead of shear and moment.
        pub shear_flow: Option<Vec<(Length, ForcePerLength)>> as [["0 m", "120 N/mm"], ["9.0 m", "60 N/mm"]],
        /// Load on the member: "static", "fluctuating", "corrosive" or "seismic"; static without it.
        #[serde(default)]
        pub service: Service as "static",
        /// Stretches [from, to] where both sides of the web must be welded: knee, end plate, crane bracket, stiffener.
        pub both_sides: Vec<(Length, Length)> = usual as [["8 m", "9 m"]],
        /// Rules for the smallest fillet, by name: "aisc-360", "en-1993-1-8", "root-of-thickness",
        /// "aws-d1.1" or "gb-51022"; the usual ones of the code without it; `[]` for strength alone, with a smallest leg of
        /// your own (`--least-leg`).
        pub minimums: Option<Vec<String>> as ["en-1993-1-8", "root-of-thickness"],
        /// Tensile strength of the filler metal (AISC); 70 ksi without it.
        pub filler: Option<Stress> as "70 ksi",
        /// Carbon equivalent CET of the plates by their certificate, %: C + (Mn + Mo)/10 + (Cr + Cu)/20 + Ni/40. With it preheat goes by
        /// EN 1011-2 method B, too.
        pub cet: Option<f64> as 0.31,
        /// Tensile strength of the weaker part joined (EN); the steel's own without it.
        pub ultimate: Option<Stress> as "470 MPa",
    }
}
