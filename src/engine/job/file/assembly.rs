//! What assembly adds to the scatter of pieces.

use crate::input::shape;
use crate::units::Length;

shape! {
    /// What pieces differ by because of assembly, one standard deviation each, beside welds and plates. A shop's record takes their
    /// place.
    #[derive(Default)]
    pub struct AssemblyShape {
        /// Web edges off their line, as cut and as set: in the camber at mid-length. 1 mm without it.
        pub web_edge: Option<Length> as "0.5 mm",
        /// Flanges set off their line: in the sweep at mid-length. 1 mm without it.
        pub fit_up: Option<Length> as "0.5 mm",
        /// Length as cut. 0.5 mm without it.
        pub length: Option<Length> as "1 mm",
        /// Flange toes by plates that come crowned, both toes alike. 0.2 mm without it.
        pub flange_cup: Option<Length> as "0.2 mm",
        /// Flange toes by flanges set out of square, one toe against the other. 0.3 mm without it.
        pub flange_tilt: Option<Length> as "0.3 mm",
    }
}
