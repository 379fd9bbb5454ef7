//! Rules for stitch welds, as data: how short a stitch may be, how far the next one, and what lies at the ends of the member.

use super::Origin;
use crate::steel::E_MPA;
use crate::tolerance::Trust;
use crate::welding::Stitch;
use crate::welding::fillet::throat_mm;

/// Stitches by one standard.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct StitchRule {
    /// Where the shortest stitch comes from.
    pub(crate) origin: Origin,
    /// The shortest stitch in words.
    pub(crate) words: &'static str,
    /// Over the leg.
    legs: f64,
    /// At least, mm.
    least_mm: f64,
    /// Throats that its two ends together take off what carries.
    ends_throats: f64,
    /// Where the longest gap comes from.
    pub(crate) gap_origin: Origin,
    /// The longest gap in words.
    pub(crate) gap_words: &'static str,
    gap_over: GapOver,
    /// At most, mm.
    pub(crate) most_gap_mm: f64,
    /// Continuous weld at the ends of a member built up with stitches, over the width of the flange.
    pub(crate) end_widths: f64,
    /// The same in words.
    pub(crate) ends: &'static str,
}

/// Longest gap over the thickness of the thinner plate.
#[derive(Debug, Clone, Copy, PartialEq)]
enum GapOver {
    /// So much.
    Plain(f64),
    /// So much of √(E/f_y).
    Yield(f64),
}

/// Every rule. EN counts in throats, 6·a, which are 4.24 legs, of the effective length: without 2·a for the ends. Gaps are those of members in compression: one flange always is.
const STITCHES: &[StitchRule] = &[
    StitchRule {
        origin: Origin::of("AISC 360", "22", "J2.2b", Trust::Read),
        words: "each stitch at least 4 legs and 1-1/2 in (38 mm)",
        legs: 4.0,
        least_mm: 38.0,
        ends_throats: 0.0,
        gap_origin: Origin::of("AISC 360", "22", "E6.2", Trust::MemoryCheck),
        gap_words: "at most 0.75·√(E/Fy) of the thinner plate and 12 in (300 mm)",
        gap_over: GapOver::Yield(0.75),
        most_gap_mm: 300.0,
        end_widths: 1.0,
        ends: "Stitches, and too little weld at an end of the member: AISC 360-22 E6.2 (memory) wants the plates of a built-up compression member joined \
               there by continuous weld, no shorter than the member is wide. Lay it as passes of their own.",
    },
    StitchRule {
        origin: Origin::of("EN 1993-1-8", "2005", "4.5.1", Trust::MemorySure),
        words: "each stitch at least 6 throats and 30 mm without a throat at either end, where it is not full",
        legs: 6.0 / std::f64::consts::SQRT_2,
        least_mm: 30.0,
        ends_throats: 2.0,
        gap_origin: Origin::of("EN 1993-1-8", "2005", "4.3.2.2", Trust::MemoryCheck),
        gap_words: "at most 12 times the thinner plate and 200 mm",
        gap_over: GapOver::Plain(12.0),
        most_gap_mm: 200.0,
        end_widths: 0.75,
        ends: "Stitches, and too little weld at an end of the member: EN 1993-1-8:2005 4.3.2.2 (memory) wants continuous weld there, at least three \
               quarters of the width of the narrower plate. Lay it as passes of their own.",
    },
];

/// The rule of a standard; that of EN where it has none.
pub(crate) fn stitch_rule(standard: &str) -> &'static StitchRule {
    STITCHES.iter().find(|rule| rule.origin.standard == standard).unwrap_or(&STITCHES[1])
}

impl StitchRule {
    /// Whether a stitch is too short for a fillet of that leg.
    pub(crate) fn too_short(&self, stitch: &Stitch, leg_mm: f64) -> bool {
        self.effective_mm(stitch, leg_mm) < (self.legs * leg_mm).max(self.least_mm) - 1e-9
    }

    /// What is left of a stitch to carry: its length without its ends, ℓ − n·z/√2, n throats of a leg z, mm. Nobody says of a job that
    /// its craters are filled, so they are taken as not full.
    fn effective_mm(&self, stitch: &Stitch, leg_mm: f64) -> f64 {
        (stitch.weld_mm - self.ends_throats * throat_mm(leg_mm)).max(0.0)
    }

    /// Part of a stitched seam that carries, of a continuous bead all.
    pub(crate) fn carrying_part(&self, stitch: Option<&Stitch>, leg_mm: f64) -> f64 {
        stitch.map_or(1.0, |s| self.effective_mm(s, leg_mm) / (s.weld_mm + s.gap_mm))
    }

    /// Leg z of stitches that carry as much as a continuous bead of leg s, mm, the way back from [`Self::carrying_part`]:
    /// z·(ℓ − n·z/√2) = s·(ℓ + g) with its smaller root z = 2·s·(ℓ + g)/(ℓ + √(ℓ² − 4·(n/√2)·s·(ℓ + g))). Infinite where none does.
    pub(crate) fn stitched_leg_mm(&self, stitch: Option<&Stitch>, leg_mm: f64) -> f64 {
        let Some(s) = stitch else { return leg_mm };
        let wanted_mm2 = leg_mm * (s.weld_mm + s.gap_mm);
        let under_root = s.weld_mm * s.weld_mm - 4.0 * throat_mm(self.ends_throats) * wanted_mm2;
        if under_root < 0.0 { f64::INFINITY } else { 2.0 * wanted_mm2 / (s.weld_mm + under_root.sqrt()) }
    }

    /// Longest clear length between stitches on a plate of that thickness and yield strength (MPa), mm.
    pub(crate) fn longest_gap_mm(&self, thinner_mm: f64, yield_mpa: f64) -> f64 {
        let over = match self.gap_over {
            GapOver::Plain(times) => times,
            GapOver::Yield(times) => times * (E_MPA / yield_mpa).sqrt(),
        };
        (over * thinner_mm).min(self.most_gap_mm)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_short_stitch_breaks_the_rule_of_its_standard() {
        let short =
            |standard, weld_mm, leg| stitch_rule(standard).too_short(&Stitch { weld_mm, gap_mm: 100.0 }, leg);
        assert!(!short("AISC 360", 38.0, 8.0));
        assert!(short("AISC 360", 37.0, 6.0));
        assert!(short("EN 1993-1-8", 45.0, 8.0), "6 throats of 8 mm are 33.9 mm, with its ends 45.3 mm");
        assert!(!short("EN 1993-1-8", 45.5, 8.0));
        assert!(short("EN 1993-1-8", 34.0, 3.0), "30 mm and two throats of 2.12 mm");
    }

    /// 40 mm weld, 60 mm gap, leg 4.5 mm: (40 − 2·3.18)/100 = 0.336 by EN, 0.4 by AISC. What that carries is a bead of 1.514 mm, 1.8 mm.
    #[test]
    fn the_ends_of_a_stitch_carry_nothing_by_en() {
        let stitch = Stitch { weld_mm: 40.0, gap_mm: 60.0 };
        for (standard, wanted) in [("EN 1993-1-8", 0.33636), ("AISC 360", 0.4)] {
            let rule = stitch_rule(standard);
            let found = rule.carrying_part(Some(&stitch), 4.5);
            assert!((found - wanted).abs() < 1e-5, "{standard}: {found}, by hand {wanted}");
            let back = rule.stitched_leg_mm(Some(&stitch), 4.5 * found);
            assert!((back - 4.5).abs() < 1e-9, "{standard}: {back} mm back");
        }
        assert!(stitch_rule("EN 1993-1-8").stitched_leg_mm(Some(&stitch), 20.0).is_infinite());
    }

    /// 12 · 4 = 48 mm, 12 · 20 = 240 mm; 0.75·√(206 000/345) = 18.33 plates, 73 mm of 4 mm.
    #[test]
    fn a_gap_goes_with_the_thinner_plate_and_has_an_end() {
        let gap = |standard, mm| stitch_rule(standard).longest_gap_mm(mm, 345.0);
        for (standard, mm, wanted) in [
            ("EN 1993-1-8", 4.0, 48.0),
            ("EN 1993-1-8", 20.0, 200.0),
            ("AISC 360", 4.0, 73.3),
            ("AISC 360", 20.0, 300.0),
        ] {
            let found = gap(standard, mm);
            assert!((found - wanted).abs() < 0.05, "{standard} on {mm} mm: {found} mm, by hand {wanted} mm");
        }
    }
}
