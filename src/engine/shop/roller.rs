//! Rollers or dies that bend a flange back.

use crate::input::findings::{Bounds, Findings, bounds};
use crate::straighten::plan::Roller;
use crate::units::{Force, Length};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

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

/// Rollers or dies that bend a flange back about the web.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RollerShape {
    /// Width of flange that bends, beside the web; 25 mm without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"25 mm")]
    pub bend: Option<Length>,
    /// Arm of the force from the web face; 70 mm without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"70 mm")]
    pub arm: Option<Length>,
    /// Length along the member that a roller or die bears on; 60 mm without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"60 mm")]
    pub contact: Option<Length>,
    /// Most force on one flange half; 200 kN without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"200 kN")]
    pub force: Option<Force>,
}

impl RollerShape {
    /// Checks it.
    pub(super) fn build(&self, findings: &mut Findings) -> Option<Roller> {
        let mut length = |key: &str, given: Option<Length>, usual: f64, bounds: &Bounds| match given {
            Some(given) => findings.length(format!("roller.{key}"), given, bounds),
            None => Some(usual),
        };
        let bend = length("bend", self.bend, BEND_MM, &BEND);
        let arm = length("arm", self.arm, ARM_MM, &ARM);
        let contact = length("contact", self.contact, CONTACT_MM, &CONTACT);
        let force = match self.force {
            Some(given) => findings.bounded("roller.force", given.value(), &FORCE),
            None => Some(MOST_N),
        };
        Some(Roller { bend_mm: bend?, arm_mm: arm?, contact_mm: contact?, most_n: force? })
    }
}
