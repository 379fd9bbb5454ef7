//! What assembly adds to the scatter of pieces.

use crate::input::shape;
use crate::units::Length;

shape! {
    /// What pieces differ by because of assembly, one standard deviation each, beside welds and plates. A shop's record takes their
    /// place.
    #[derive(Default)]
    pub struct AssemblyShape {
        /// Web edges off their line, as cut and as set: in the camber at mid-length. 1 mm without it.
        #[schemars(example = &"0.5 mm")]
        pub web_edge: Option<Length>,
        /// Flanges set off their line: in the sweep at mid-length. 1 mm without it.
        #[schemars(example = &"0.5 mm")]
        pub fit_up: Option<Length>,
        /// Length as cut. 0.5 mm without it.
        #[schemars(example = &"1 mm")]
        pub length: Option<Length>,
        /// Flange toes by plates that come crowned, both toes alike. 0.2 mm without it.
        #[schemars(example = &"0.2 mm")]
        pub flange_cup: Option<Length>,
        /// Flange toes by flanges set out of square, one toe against the other. 0.3 mm without it.
        #[schemars(example = &"0.3 mm")]
        pub flange_tilt: Option<Length>,
    }
}
