//! How well the shop measures a piece.

use crate::input::findings::{Bounds, Findings, Lines, bounds};
use crate::straighten::piece::Measuring;
use crate::units::Length;
use schemars::JsonSchema;
use serde::Deserialize;

const SD: Bounds = bounds("a standard measuring uncertainty", 0.0, 20.0, "nothing to 20 mm", "mm");

/// How well a piece is measured.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MeasuringShape {
    /// Standard uncertainty of a camber reading; 1 mm without it.
    #[schemars(example = &"1 mm")]
    pub camber: Option<Length>,
    /// Standard uncertainty of a sweep reading; 1 mm without it.
    #[schemars(example = &"1 mm")]
    pub sweep: Option<Length>,
    /// Standard uncertainty of a toe reading with square and gauge; 0.5 mm without it.
    #[schemars(example = &"0.5 mm")]
    pub toe: Option<Length>,
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
