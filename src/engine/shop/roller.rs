//! Rollers or dies that bend a flange back.

use crate::input::findings::{Bounds, Findings, Lines, bounds};
use crate::input::shape;
use crate::straighten::plan::Roller;
use crate::units::{Force, Length};

const BEND: Bounds = bounds("a width of flange that bends", 2.0, 500.0, "2 mm to 500 mm", "mm");
const ARM: Bounds = bounds("an arm from the web face", 5.0, 1000.0, "5 mm to 1 m", "mm");
const CONTACT: Bounds = bounds("a contact length along the member", 1.0, 5000.0, "1 mm to 5 m", "mm");
const FORCE: Bounds = bounds("a force on one flange half", 1e3, 50e6, "1 kN to 50 MN", "N");

/// What stands in for a line left out, here and below (choice, no source).
const BEND_MM: f64 = 25.0;
/// Choice, no source.
const ARM_MM: f64 = 70.0;
/// Choice, no source.
const CONTACT_MM: f64 = 60.0;
/// Choice, no source.
const MOST_N: f64 = 200e3;

shape! {
    /// Rollers or dies that bend a flange back about the web.
    #[derive(Default)]
    pub struct RollerShape {
        /// Width of flange that bends, beside the web; 25 mm without it.
        pub bend: Option<Length> as "25 mm",
        /// Arm of the force from the web face; 70 mm without it.
        pub arm: Option<Length> as "70 mm",
        /// Length along the member that a roller or die bears on; 60 mm without it.
        pub contact: Option<Length> as "60 mm",
        /// Most force on one flange half; 200 kN without it.
        pub force: Option<Force> as "200 kN",
    }
}

impl RollerShape {
    /// Checks it.
    pub(super) fn build(&self, findings: &mut Findings) -> Roller {
        let mut lines = Lines::of("roller", findings);
        Roller {
            bend_mm: lines.one("bend", self.bend, BEND_MM, &BEND),
            arm_mm: lines.one("arm", self.arm, ARM_MM, &ARM),
            contact_mm: lines.one("contact", self.contact, CONTACT_MM, &CONTACT),
            most_n: lines.one("force", self.force, MOST_N, &FORCE),
        }
    }
}
