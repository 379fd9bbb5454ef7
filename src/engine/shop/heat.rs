//! Torches for vee heats and lines of heat.

use crate::input::findings::{Bounds, Findings, Lines, bounds};
use crate::input::shape;
use crate::straighten::flange::Torch;
use crate::straighten::heat::VeeTurn;
use crate::straighten::plan::HeatTools;
use crate::units::{Angle, Force, HeatInput, Length};

const TURN: Bounds = bounds("a turn of one heat", 1e-5, 0.05, "0.01 mrad to 50 mrad", "rad");
const LINE: Bounds = bounds("a net heat of a line", 20.0, 20_000.0, "0.02 kJ/mm to 20 kJ/mm", "J/mm");
const CONTRACTION: Bounds = bounds("a contraction left by a line of heat", 1e-4, 0.02, "0.0001 to 0.02", "");
const SPAN: Bounds = bounds("a distance of supports of the jack", 300.0, 40_000.0, "300 mm to 40 m", "mm");
const FORCE: Bounds = bounds("a force of the jack", 0.0, 50e6, "nothing to 50 MN", "N");
const PLACES: Bounds = bounds("a number of places", 1.0, 20.0, "1 to 20", "places");

shape! {
    /// Torches.
    #[derive(Default)]
    pub struct HeatShape {
        /// Turn of one vee heat as measured in the shop on this kind of member; the recalled formula without it.
        pub turn_of_one_heat: Option<Angle> as "1.9 mrad",
        /// Distance of the supports that the jack works between; 4 m without it.
        pub jack_span: Option<Length> as "4 m",
        /// Most force of the jack; 200 kN without it.
        pub jack_force: Option<Force> as "200 kN",
        /// Net heat of a line along a flange; 0.5 kJ/mm without it.
        pub line_heat: Option<HeatInput> as "0.5 kJ/mm",
        /// Contraction (strain) a line of heat leaves, if one pass has been measured; 0.004 without it.
        pub line_contraction: Option<f64> as 0.004,
        /// Places heated in turn while others cool; 2 without it.
        pub places_in_turn: Option<u32> as 2,
    }
}

impl HeatShape {
    /// Checks it.
    pub(super) fn build(&self, findings: &mut Findings) -> HeatTools {
        let mut lines = Lines::of("heat", findings);
        let usual = HeatTools::USUAL;
        let torch = usual.torch;
        lines.given("places_in_turn", self.places_in_turn, &PLACES);
        HeatTools {
            response: lines
                .given("turn_of_one_heat", self.turn_of_one_heat, &TURN)
                .map_or(usual.response, VeeTurn::Measured),
            jack_span_mm: lines.one("jack_span", self.jack_span, usual.jack_span_mm, &SPAN),
            jack_most_n: lines.one("jack_force", self.jack_force, usual.jack_most_n, &FORCE),
            torch: Torch {
                heat_j_per_mm: lines.one("line_heat", self.line_heat, torch.heat_j_per_mm, &LINE),
                inherent: lines.one("line_contraction", self.line_contraction, torch.inherent, &CONTRACTION),
            },
            interleaved: self.places_in_turn.unwrap_or(usual.interleaved),
        }
    }
}
