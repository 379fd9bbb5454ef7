//! What is welded across the member.

use super::PartShape;
use crate::input::shape;
use crate::units::{HeatInput, Length};
use crate::welding::{AttachmentKind, Side};

shape! {
    /// One kind of attachment, at one place or several.
    pub struct AttachmentShape {
        /// "stiffener-pair", "stiffener", "cleat" (on the outside of a flange, welded across it), "end-plate" or "base-plate".
        pub kind: AttachmentKind as "stiffener-pair",
        /// Places along the member. An end or base plate stands at 0 m or at the member's length.
        pub at: Vec<Length> as ["3.0 m", "6.0 m"],
        /// Parts it is welded to: web, outer_flange, inner_flange. All three without it; a cleat names its flange.
        pub to: Option<Vec<PartShape>> as ["web", "outer_flange"],
        /// Side of the web on which a single stiffener stands; a cleat has one if it sits at an edge of its flange.
        pub side: Option<Side> as "near",
        /// Fillet leg.
        pub leg: Length as "5 mm",
        /// Net heat of one fillet; by the leg rule without it.
        pub heat_input: Option<HeatInput> as "0.8 kJ/mm",
        /// Gross heat of one fillet, as a welding procedure states it; the efficiency of the procedure or of gas-shielded wire comes off.
        pub gross_heat_input: Option<HeatInput> as "0.95 kJ/mm",
        /// Name of the procedure its heat follows from.
        pub procedure: Option<String> as "wire-5",
        /// Fillets along each edge: 2, one on each face of the attached plate, without it.
        pub fillets: Option<u32> as 2,
        /// Length of weld across the flange of one stiffener or cleat; as wide as there is flange without it.
        pub width: Option<Length> as "80 mm",
        /// Thickness of the attached plate; 10 mm without it, 20 mm of an end or base plate.
        pub thickness: Option<Length> as "10 mm",
    }
}
