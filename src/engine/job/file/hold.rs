//! What holds the joint.

use crate::angular::hold::Tacks;
use crate::input::shape;

shape! {
    /// What holds the flanges square to the web while the seams are welded and cool. It decides how far a flange tilts.
    pub struct HoldShape {
        /// Where web and flanges are tacked: "leading-end", "along" the seam every few hundred millimetres, or "none".
        #[serde(default)]
        pub tacks: Tacks as "along",
        /// Whether rolls of the line press the flanges to the web around the arc.
        #[serde(default = "pressed")]
        pub rolls: bool as true,
        /// Whether the flanges are held square to the web until they are cold.
        #[serde(default)]
        pub square_until_cold: bool as false,
    }
}

const fn pressed() -> bool {
    true
}
