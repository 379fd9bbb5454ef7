//! AWS D1.1/D1.1M, dimensional tolerances of welded members: clause 7.22 of 2020, 5.22 of 2015, 5.23 of 2010.
//!
//! The flange limit (.8) and the number of the sweep clause (.5) were read on copies of the 2010 and 2015
//! pages; the rest is recalled and well established. The 2020 pages were not seen: only that the clause moved
//! to 7.22 is known.
//!
//! Columns (.1) and beams (.2) are both 1 mm per metre up to 9 m; beyond it columns are the stricter: 10 mm from 9 to 15 m, then 1 mm more
//! per metre. Web flatness (.6) is that of statically loaded girders, for which the code's own commentary calls it no matter of strength.

use super::super::{Applies, Limit, Quantity, Rule, Stiffened, Trust};
use crate::units::{FT_MM, IN_MM};

const fn limit(clause: &'static str, quantity: Quantity, words: &'static str, rule: Rule) -> Limit {
    Limit::of(["AWS D1.1/D1.1M", "2020"], clause, quantity, words, rule).known(Trust::MemorySure, "")
}

/// 1 mm per metre, 1/8 in for each 10 ft.
const STRAIGHT: Rule = Rule::EachSystem {
    si: &Rule::Length { over: 1000.0, at_least: 0.0 },
    us: &Rule::Length { over: 960.0, at_least: 0.0 },
};

/// The same up to 9 m; 10 mm to 15 m, then 1 mm more per metre (3/8 in from 30 to 45 ft, then 1/8 in per 10 ft).
const COLUMN: Rule = Rule::EachSystem {
    si: &Rule::LengthSteps { over: 1000.0, from_mm: 9000.0, until_mm: 15_000.0, flat_mm: 10.0 },
    us: &Rule::LengthSteps {
        over: 960.0,
        from_mm: 30.0 * FT_MM,
        until_mm: 45.0 * FT_MM,
        flat_mm: 0.375 * IN_MM,
    },
};
const COLUMN_WORDS: &str =
    "1 mm per m to 9 m, 10 mm to 15 m, then 1 mm per m (US: 1/8 in per 10 ft to 30 ft, 3/8 in to 45 ft)";
const COLUMN_SOURCE: &str = "7.22.1 of 2020, 5.22.1 of 2015, 5.23.1 of 2010; recalled";
const WEB_SOURCE: &str = "7.22.6.2 of 2020, 5.23.6.2 of 2010, statically loaded; size read on a copy of 2010, the pages of 2020 not seen";

const fn web(stiffened: Stiffened, words: &'static str, rule: Rule) -> Limit {
    limit("7.22.6.2", Quantity::WebFlatness, words, rule)
        .when(Applies::Web(stiffened))
        .known(Trust::SecondHand, WEB_SOURCE)
}

/// Limits of clause 7.22.
pub(super) const LIMITS: &[Limit] = &[
    limit("7.22.1", Quantity::Camber, COLUMN_WORDS, COLUMN)
        .when(Applies::StraightColumn)
        .known(Trust::MemorySure, COLUMN_SOURCE),
    Limit {
        applies: Applies::StraightBeam,
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
                    split_mm: 100.0 * FT_MM,
                    short_mm: 0.75 * IN_MM,
                    long_mm: 1.5 * IN_MM,
                },
            },
        )
    },
    limit("7.22.1", Quantity::Sweep, COLUMN_WORDS, COLUMN)
        .when(Applies::Column)
        .known(Trust::MemorySure, COLUMN_SOURCE),
    Limit {
        applies: Applies::Beam,
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
                us: &Rule::Width { over: 100.0, at_least: 0.25 * IN_MM },
            },
        )
    },
    web(Stiffened::Bare, "D/150, no stiffeners", Rule::Panel { split: 0.0, under: 150.0, above: 150.0 }),
    web(
        Stiffened::OneSide,
        "panel/100 below D/t 100, /67 from it on, stiffeners on one side",
        Rule::Panel { split: 100.0, under: 100.0, above: 67.0 },
    ),
    web(
        Stiffened::BothSides,
        "panel/100 below D/t 150, /80 from it on, stiffeners on both sides",
        Rule::Panel { split: 150.0, under: 100.0, above: 80.0 },
    ),
];
