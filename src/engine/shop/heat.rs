//! Torches for vee heats and lines of heat.

use crate::input::findings::{Bounds, Findings, bounds};
use crate::straighten::flange::Torch;
use crate::straighten::heat::VeeTurn;
use crate::straighten::plan::HeatTools;
use crate::units::{Angle, Force, HeatInput, Length};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

const TURN: Bounds = bounds("a turn of one heat", 1e-5, 0.05, "0.01 mrad to 50 mrad", "rad");
const LINE: Bounds = bounds("a net heat of a line", 20.0, 20_000.0, "0.02 kJ/mm to 20 kJ/mm", "J/mm");
const CONTRACTION: Bounds = bounds("a contraction left by a line of heat", 1e-4, 0.02, "0.0001 to 0.02", "");
const SPAN: Bounds = bounds("a distance of supports of the jack", 300.0, 40_000.0, "300 mm to 40 m", "mm");
const FORCE: Bounds = bounds("a force of the jack", 0.0, 50e6, "nothing to 50 MN", "N");
const PLACES: Bounds = bounds("a number of places", 1.0, 20.0, "1 to 20", "places");

/// Torches.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct HeatShape {
    /// Turn of one vee heat as measured in the shop on this kind of member; the recalled formula without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"1.9 mrad")]
    pub turn_of_one_heat: Option<Angle>,
    /// Distance of the supports that the jack works between; 4 m without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"4 m")]
    pub jack_span: Option<Length>,
    /// Most force of the jack; 200 kN without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"200 kN")]
    pub jack_force: Option<Force>,
    /// Net heat of a line along a flange; 0.5 kJ/mm without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"0.5 kJ/mm")]
    pub line_heat: Option<HeatInput>,
    /// Contraction (strain) a line of heat leaves, if one pass has been measured; 0.004 without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &0.004)]
    pub line_contraction: Option<f64>,
    /// Places heated in turn while others cool; 2 without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &2)]
    pub places_in_turn: Option<u32>,
}

impl HeatShape {
    /// Checks it.
    pub(super) fn build(&self, findings: &mut Findings) -> Option<HeatTools> {
        let usual = HeatTools::USUAL;
        let mut one = |key: &str, given: Option<f64>, usual: f64, bounds: &Bounds| match given {
            Some(given) => findings.bounded(format!("heat.{key}"), given, bounds),
            None => Some(usual),
        };
        let span = one("jack_span", self.jack_span.map(Length::value), usual.jack_span_mm, &SPAN);
        let force = one("jack_force", self.jack_force.map(Force::value), usual.jack_most_n, &FORCE);
        let line = one("line_heat", self.line_heat.map(HeatInput::value), usual.torch.heat_j_per_mm, &LINE);
        let contraction = one("line_contraction", self.line_contraction, usual.torch.inherent, &CONTRACTION);
        let places =
            one("places_in_turn", self.places_in_turn.map(f64::from), f64::from(usual.interleaved), &PLACES);
        let turn = self.turn_of_one_heat.map(|t| findings.bounded("heat.turn_of_one_heat", t.value(), &TURN));
        Some(HeatTools {
            response: match turn {
                Some(measured) => VeeTurn::Measured(measured?),
                None => usual.response,
            },
            jack_span_mm: span?,
            jack_most_n: force?,
            torch: Torch { heat_j_per_mm: line?, inherent: contraction? },
            interleaved: places.map(|_| self.places_in_turn.unwrap_or(usual.interleaved))?,
        })
    }
}
