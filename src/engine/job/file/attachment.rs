//! What is welded across the member.

use super::PartShape;
use crate::input::shape;
use crate::units::{HeatInput, Length};
use crate::welding::{AttachmentKind, Side};

shape! {
    /// One kind of attachment, at one place or several.
    pub struct AttachmentShape {
        /// "stiffener-pair", "stiffener", "cleat" (on the outside of a flange, welded across it), "end-plate" or "base-plate".
        #[schemars(example = &"stiffener-pair")]
        pub kind: AttachmentKind,
        /// Places along the member. An end or base plate stands at 0 m or at the member's length.
        #[schemars(example = serde_json::json!(["3.0 m", "6.0 m"]))]
        pub at: Vec<Length>,
        /// Parts it is welded to: web, outer_flange, inner_flange. All three without it; a cleat names its flange.
        #[schemars(example = serde_json::json!(["web", "outer_flange"]))]
        pub to: Option<Vec<PartShape>>,
        /// Side of the web on which a single stiffener stands; a cleat has one if it sits at an edge of its flange.
        #[schemars(example = &"near")]
        pub side: Option<Side>,
        /// Fillet leg.
        #[schemars(example = &"5 mm")]
        pub leg: Length,
        /// Net heat of one fillet; by the leg rule without it.
        #[schemars(example = &"0.8 kJ/mm")]
        pub heat_input: Option<HeatInput>,
        /// Gross heat of one fillet, as a welding procedure states it; the efficiency of the procedure or of gas-shielded wire comes off.
        #[schemars(example = &"0.95 kJ/mm")]
        pub gross_heat_input: Option<HeatInput>,
        /// Name of the procedure its heat follows from.
        #[schemars(example = &"wire-5")]
        pub procedure: Option<String>,
        /// Fillets along each edge: 2, one on each face of the attached plate, without it.
        #[schemars(example = &2)]
        pub fillets: Option<u32>,
        /// Length of weld across the flange of one stiffener or cleat; as wide as there is flange without it.
        #[schemars(example = &"80 mm")]
        pub width: Option<Length>,
        /// Thickness of the attached plate; 10 mm without it, 20 mm of an end or base plate.
        #[schemars(example = &"10 mm")]
        pub thickness: Option<Length>,
    }
}
