//! Rules for stitch welds, as data.

use super::Origin;
use crate::tolerance::Trust;

/// Shortest stitch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct StitchRule {
    /// Where it comes from.
    pub(crate) origin: Origin,
    /// In words.
    pub(crate) words: &'static str,
    /// Over the leg.
    pub(crate) legs: f64,
    /// At least, mm.
    least_mm: f64,
}

/// Every rule. EN counts in throats, 6·a, which are 4.24 legs.
pub(crate) const STITCHES: &[StitchRule] = &[
    StitchRule {
        origin: Origin::of("AISC 360", "22", "J2.2b", Trust::Read),
        words: "each stitch at least 4 legs and 1-1/2 in (38 mm)",
        legs: 4.0,
        least_mm: 38.0,
    },
    StitchRule {
        origin: Origin::of("EN 1993-1-8", "2005", "4.5.1", Trust::MemorySure),
        words: "each stitch at least 6 throats and 30 mm",
        legs: 6.0 / std::f64::consts::SQRT_2,
        least_mm: 30.0,
    },
];

/// The rule that a stitch of that length and leg breaks, if any of those of a standard.
pub(crate) fn stitch_blocks(standard: &str, stitch_mm: f64, leg_mm: f64) -> Option<&'static StitchRule> {
    STITCHES
        .iter()
        .find(|r| r.origin.standard == standard && stitch_mm < (r.legs * leg_mm).max(r.least_mm) - 1e-9)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_short_stitch_breaks_the_rule_of_its_standard() {
        assert!(stitch_blocks("AISC 360", 38.0, 8.0).is_none());
        assert!(stitch_blocks("AISC 360", 37.0, 6.0).is_some());
        assert!(stitch_blocks("EN 1993-1-8", 33.0, 8.0).is_some(), "6 throats of 8 mm are 33.9 mm");
    }
}
