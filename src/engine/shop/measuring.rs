//! How well the shop measures a piece.

use crate::input::findings::{Bounds, Findings, Lines, bounds};
use crate::input::shape;
use crate::straighten::piece::Measuring;
use crate::units::Length;

const SD: Bounds = bounds("a standard measuring uncertainty", 0.0, 20.0, "nothing to 20 mm", "mm");

shape! {
    /// How well a piece is measured.
    #[derive(Default)]
    pub struct MeasuringShape {
        /// Standard uncertainty of a camber reading; 1 mm without it.
        pub camber: Option<Length> as "1 mm",
        /// Standard uncertainty of a sweep reading; 1 mm without it.
        pub sweep: Option<Length> as "1 mm",
        /// Standard uncertainty of a toe reading with square and gauge; 0.5 mm without it.
        pub toe: Option<Length> as "0.5 mm",
    }
}

impl MeasuringShape {
    /// Checks it.
    pub(super) fn build(&self, findings: &mut Findings) -> Measuring {
        let mut lines = Lines::of("measuring", findings);
        let usual = Measuring::USUAL;
        Measuring {
            camber_mm: lines.one("camber", self.camber, usual.camber_mm, &SD),
            sweep_mm: lines.one("sweep", self.sweep, usual.sweep_mm, &SD),
            toe_mm: lines.one("toe", self.toe, usual.toe_mm, &SD),
        }
    }
}
