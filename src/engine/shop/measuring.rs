//! How well the shop measures a piece.

use crate::input::findings::{Bounds, Findings, bounds};
use crate::straighten::piece::Measuring;
use crate::units::Length;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

const SD: Bounds = bounds("a standard measuring uncertainty", 0.0, 20.0, "nothing to 20 mm", "mm");

/// How well a piece is measured.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MeasuringShape {
    /// Standard uncertainty of a camber reading; 1 mm without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"1 mm")]
    pub camber: Option<Length>,
    /// Standard uncertainty of a sweep reading; 1 mm without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"1 mm")]
    pub sweep: Option<Length>,
    /// Standard uncertainty of a toe reading with square and gauge; 0.5 mm without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"0.5 mm")]
    pub toe: Option<Length>,
}

impl MeasuringShape {
    /// Checks it.
    pub(super) fn build(&self, findings: &mut Findings) -> Option<Measuring> {
        let mut one = |key: &str, given: Option<Length>, usual: f64| match given {
            Some(given) => findings.length(format!("measuring.{key}"), given, &SD),
            None => Some(usual),
        };
        let usual = Measuring::USUAL;
        let camber = one("camber", self.camber, usual.camber_mm);
        let sweep = one("sweep", self.sweep, usual.sweep_mm);
        let toe = one("toe", self.toe, usual.toe_mm);
        Some(Measuring { camber_mm: camber?, sweep_mm: sweep?, toe_mm: toe? })
    }
}
