//! AWS D1.1/D1.1M, dimensional tolerances of welded members: clause 7.22 of 2020, 5.22 of 2015, 5.23 of 2010.
//!
//! The flange limit (.8) and the number of the sweep clause (.5) were read on copies of the 2010 and 2015
//! pages; the rest is recalled and well established. The 2020 pages were not seen: only that the clause moved
//! to 7.22 is known.
//!
//! A job does not say whether a member is a column, so .2 (beams) stands for .1 (columns) too: both are
//! 1 mm per metre up to 9 m, beyond which .1 is the stricter (10 mm from 9 to 15 m, then 1 mm more per metre).

use super::super::{Applies, Limit, Quantity, Rule, Trust};

const fn limit(clause: &'static str, quantity: Quantity, words: &'static str, rule: Rule) -> Limit {
    Limit {
        standard: "AWS D1.1/D1.1M",
        edition: "2020",
        clause,
        quantity,
        words,
        applies: Applies::Always,
        rule,
        trust: Trust::MemorySure,
        source: "",
    }
}

/// 1 mm per metre, 1/8 in for each 10 ft.
const STRAIGHT: Rule = Rule::EachSystem {
    si: &Rule::Length { over: 1000.0, at_least: 0.0 },
    us: &Rule::Length { over: 960.0, at_least: 0.0 },
};

/// Limits of clause 7.22.
pub(super) const LIMITS: &[Limit] = &[
    Limit {
        applies: Applies::NoCamberWanted,
        source: "7.22.2 of 2020, 5.22.2 of 2015, 5.23.2 of 2010; recalled",
        ..limit("7.22.2", Quantity::Camber, "1 mm per m (US: 1/8 in per 10 ft)", STRAIGHT)
    },
    Limit {
        applies: Applies::CamberWanted,
        source: "7.22.3 of 2020, 5.22.3 of 2015, 5.23.3 of 2010; recalled; the length stands for the span",
        ..limit(
            "7.22.3",
            Quantity::Camber,
            "−0 / +20 mm at mid-length, +40 mm from 30 m on (US: −0 / +3/4 in, +1-1/2 in from 100 ft on)",
            Rule::EachSystem {
                si: &Rule::CamberCurve { split_mm: 30_000.0, short_mm: 20.0, long_mm: 40.0 },
                us: &Rule::CamberCurve {
                    split_mm: 100.0 * 304.8,
                    short_mm: 0.75 * 25.4,
                    long_mm: 1.5 * 25.4,
                },
            },
        )
    },
    Limit {
        source: "7.22.5 of 2020, 5.22.5 of 2015, 5.23.5 of 2010; clause number read, size recalled",
        ..limit("7.22.5", Quantity::Sweep, "1 mm per m (US: 1/8 in per 10 ft)", STRAIGHT)
    },
    Limit {
        trust: Trust::SecondHand,
        source: "7.22.8 of 2020, 5.22.8 of 2015, 5.23.8 of 2010; size read on copies of 2010 and 2015, the pages of 2020 not seen",
        ..limit(
            "7.22.8",
            Quantity::FlangeToe,
            "b/100, at least 6 mm (US: b/100, at least 1/4 in)",
            Rule::EachSystem {
                si: &Rule::Width { over: 100.0, at_least: 6.0 },
                us: &Rule::Width { over: 100.0, at_least: 0.25 * 25.4 },
            },
        )
    },
];
