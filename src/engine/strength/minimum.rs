//! Smallest fillets by thickness, as data.

use super::Origin;
use crate::tolerance::Trust;
use crate::units::{IN_MM, System};
use serde::Serialize;

/// Plates come a little over and under their name (choice).
pub(super) const SAME_PLATE: f64 = 1.003;

/// Which of the parts joined a rule looks at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Of {
    /// The thinner.
    Thinner,
    /// The thicker.
    Thicker,
    /// The web.
    Web,
}

/// One step of a table: up to that thickness, that leg; inches stand beside millimetres where the code prints both.
type Step = (f64, f64, f64, f64);

/// How a smallest leg follows from a thickness.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LegRule {
    /// (up to mm, leg mm, up to in, leg in), rising; none above the last.
    Table(&'static [Step]),
    /// Throat at least so many mm.
    Throat(f64),
    /// Throat at least √t − 0.5, t and throat in mm.
    ThroatRoot,
    /// Leg of the thickness.
    Thickness,
}

/// A rule for the smallest fillet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Minimum {
    /// Name in a job: "aisc-360".
    pub name: &'static str,
    /// Where it comes from.
    pub origin: Origin,
    /// The rule in words.
    pub words: &'static str,
    /// Thickness it looks at.
    pub of: Of,
    /// The rule.
    pub size: LegRule,
    /// Thinnest part it is for, mm; below it `THIN` is asked instead.
    pub from_mm: f64,
    /// Only for welds on one side of the web.
    one_sided_only: bool,
    /// What was read into it, other editions, doubts.
    pub note: &'static str,
}

/// To 1/4 in (6 mm) 1/8 in (3 mm), and so on. The metric column jumps at 6, 13 and 19 mm; 6.35 mm plate is a quarter
/// inch, and belongs to the first row.
const BY_THINNER: &[Step] = &[
    (6.4, 3.0, 0.25, 0.125),
    (13.0, 5.0, 0.5, 0.1875),
    (19.1, 6.0, 0.75, 0.25),
    (f64::INFINITY, 8.0, f64::INFINITY, 0.3125),
];

/// GB 51022-2015 Table 10.1.2 by web thickness; no row above 8 mm.
const ONE_SIDED_BY_WEB: &[Step] = &[
    (3.0, 3.0, 0.118, 0.118),
    (4.0, 4.0, 0.157, 0.157),
    (5.0, 5.0, 0.197, 0.197),
    (6.0, 5.5, 0.236, 0.217),
    (7.0, 6.0, 0.276, 0.236),
    (8.0, 6.5, 0.315, 0.256),
];

/// Every rule a job can name.
pub(crate) const MINIMUMS: &[Minimum] = &[
    Minimum {
        name: "aisc-360",
        origin: Origin::of("AISC 360", "22", "Table J2.4", Trust::Read),
        words: "by the thinner part: to 1/4 in 1/8 in, to 1/2 in 3/16 in, to 3/4 in 1/4 in, above 5/16 in",
        of: Of::Thinner,
        size: LegRule::Table(BY_THINNER),
        from_mm: 0.0,
        one_sided_only: false,
        note: "one printed copy has 1/6 and 1/16 for 1/8 and 3/16; the metric column settles it",
    },
    Minimum {
        name: "aws-d1.1",
        origin: Origin::of("AWS D1.1", "2020", "Table 7.7", Trust::MemorySure),
        words: "the same sizes, by the thinner part for submerged arc and low-hydrogen processes",
        of: Of::Thinner,
        size: LegRule::Table(BY_THINNER),
        from_mm: 0.0,
        one_sided_only: false,
        note: "need not exceed the thinner part; Table 5.7 in 2015; 3/16 in at least under cyclic load, not included",
    },
    Minimum {
        name: "en-1993-1-8",
        origin: Origin::of("EN 1993-1-8", "2005", "4.5.2", Trust::MemorySure),
        words: "throat at least 3 mm",
        of: Of::Thinner,
        size: LegRule::Throat(3.0),
        from_mm: 4.0,
        one_sided_only: false,
        note: "4.1(1): parent metal from 4 mm on; thinner is for EN 1993-1-3",
    },
    Minimum {
        name: "root-of-thickness",
        origin: Origin::of("DIN EN 1993-1-8/NA", "2010", "a ≥ √t − 0.5", Trust::MemoryCheck),
        words: "throat at least √t − 0.5 mm of the thicker part",
        of: Of::Thicker,
        size: LegRule::ThroatRoot,
        from_mm: 0.0,
        one_sided_only: false,
        note: "German national annex, formerly DIN 18800-1; for t in mm from 3 mm on",
    },
    Minimum {
        name: "gb-51022",
        origin: Origin::of("GB 51022", "2015", "Table 10.1.2", Trust::MemoryCheck),
        words: "one side only, by the web: 3/4/5/6/7/8 mm need legs of 3/4/5/5.5/6/6.5 mm",
        of: Of::Web,
        size: LegRule::Table(ONE_SIDED_BY_WEB),
        from_mm: 0.0,
        one_sided_only: true,
        note: "the clause was read, its table was an image and is recalled",
    },
];

/// Sheet thinner than a rule is for. EN 1993-1-3 8.5 covers it and names no smallest fillet that was seen: a leg of the sheet's own
/// thickness is a choice of ours, since more only burns through.
pub(crate) const THIN: Minimum = Minimum {
    name: "thin-sheet",
    origin: Origin::of("EN 1993-1-3", "2006", "8.5, below 4 mm: leg of the sheet's thickness", Trust::Choice),
    words: "leg of the thinner part's thickness",
    of: Of::Thinner,
    size: LegRule::Thickness,
    from_mm: 0.0,
    one_sided_only: false,
    note: "a choice; EN 1993-1-8 4.1(1) ends at 4 mm",
};

/// Smallest leg and the rule that asks for it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Needed {
    /// Leg, mm.
    pub(crate) leg_mm: f64,
    /// The rule.
    pub(crate) rule: &'static Minimum,
}

/// Rule of that name.
pub fn minimum(name: &str) -> Option<&'static Minimum> {
    MINIMUMS.iter().find(|rule| rule.name == name)
}

impl Minimum {
    /// Thickness it looks at, of a web and a flange, mm.
    pub(crate) fn part_mm(&self, (web_mm, flange_mm): (f64, f64)) -> f64 {
        match self.of {
            Of::Thinner => web_mm.min(flange_mm),
            Of::Thicker => web_mm.max(flange_mm),
            Of::Web => web_mm,
        }
    }

    /// Leg asked for where web and flange are so thick, mm; `None` if the rule has nothing for it.
    ///
    /// In US units a table of inches is read by inches: a quarter-inch plate asks for 1/8 in, which is 3.2 mm.
    pub fn leg_mm(&self, web_mm: f64, flange_mm: f64, system: System) -> Option<f64> {
        let t = self.part_mm((web_mm, flange_mm));
        match (self.size, system) {
            (LegRule::Table(rows), System::Si) => rows.iter().find(|r| t <= r.0 * SAME_PLATE).map(|r| r.1),
            (LegRule::Table(rows), System::Us) => {
                rows.iter().find(|r| t <= IN_MM * r.2 * SAME_PLATE).map(|r| IN_MM * r.3)
            }
            (LegRule::Throat(throat), _) => Some(std::f64::consts::SQRT_2 * throat),
            (LegRule::Thickness, _) => Some(t),
            (LegRule::ThroatRoot, _) => Some(std::f64::consts::SQRT_2 * (t.sqrt() - 0.5).max(0.0)),
        }
    }
}

/// Largest of the legs that several rules ask for, or the rule that has nothing for these plates.
///
/// # Errors
/// The first rule without an entry for this thickness.
pub(crate) fn needed_leg(
    rules: &[&'static Minimum],
    (web_mm, flange_mm): (f64, f64),
    one_sided: bool,
    system: System,
) -> Result<Option<Needed>, &'static Minimum> {
    let mut most: Option<Needed> = None;
    for rule in rules.iter().copied().filter(|r| one_sided || !r.one_sided_only) {
        let rule = if web_mm.min(flange_mm) < rule.from_mm { &THIN } else { rule };
        let leg_mm = rule.leg_mm(web_mm, flange_mm, system).ok_or(rule)?;
        if most.is_none_or(|m| leg_mm > m.leg_mm) {
            most = Some(Needed { leg_mm, rule });
        }
    }
    Ok(most)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_rule_has_its_own_name_and_rises_with_the_thickness() {
        for (at, rule) in MINIMUMS.iter().enumerate() {
            assert!(MINIMUMS[..at].iter().all(|other| other.name != rule.name), "{}", rule.name);
            let legs: Vec<f64> =
                (3..=40).filter_map(|t| rule.leg_mm(f64::from(t), f64::from(t), System::Si)).collect();
            assert!(legs.windows(2).all(|w| w[0] <= w[1]), "{}: {legs:?}", rule.name);
            assert!(!rule.words.is_empty() && !rule.origin.standard.is_empty());
        }
    }

    #[test]
    fn sheet_thinner_than_a_rule_is_for_needs_its_own_thickness() {
        let rules = [minimum("en-1993-1-8").unwrap()];
        let needed = |web| needed_leg(&rules, (web, 6.0), true, System::Si).unwrap().unwrap();
        assert!((needed(3.0).leg_mm - 3.0).abs() < 1e-12 && needed(3.0).rule.name == "thin-sheet");
        assert!((needed(4.0).leg_mm - 18.0_f64.sqrt()).abs() < 1e-12, "a throat of 3 mm from 4 mm on");
    }

    #[test]
    fn a_table_that_ends_has_nothing_to_say_beyond_and_says_so() {
        let rules = [minimum("gb-51022").unwrap()];
        assert!(needed_leg(&rules, (10.0, 12.0), true, System::Si).is_err());
        assert_eq!(needed_leg(&rules, (10.0, 12.0), false, System::Si), Ok(None));
    }
}
