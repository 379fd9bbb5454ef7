//! EN 1090-2:2018, Annex B, functional manufacturing tolerances. The amendment of 2024 was not seen.
//!
//! Tables B.6-1 and B.6-3 were read in others' accounts. Tables B.1-4 and B.1-5 are recalled and well
//! established; B.6-4 is recalled and should be checked. The standard and its figures were not seen: that
//! squareness and flatness are measured at the flange toe is read into the tables.
//!
//! L/750 is often quoted beside B.6-3. It is the essential *erection* tolerance of unrestrained members
//! (table B.25), not a limit on what leaves the shop, and is left out here.

use super::super::{Applies, Limit, Quantity, Rule, Trust};

const B_1: &str = "Annex B, table B.1; recalled; figure not seen, taken as the offset at the flange toe";
const B_6: &str = "Annex B, table B.6; read in an account of the standard";
const B_6_CAMBER: &str = "Annex B, table B.6; recalled, to be checked";

const fn limit(clause: &'static str, quantity: Quantity, words: &'static str, rule: Rule) -> Limit {
    Limit {
        standard: "EN 1090-2",
        edition: "2018",
        clause,
        quantity,
        words,
        applies: Applies::Always,
        rule,
        trust: Trust::SecondHand,
        source: B_6,
    }
}

/// Limits of functional class 1.
pub(super) const CLASS_1: &[Limit] = &[
    Limit {
        applies: Applies::NoCamberWanted,
        ..limit(
            "B.6-3",
            Quantity::Camber,
            "L/1000, at least 5 mm",
            Rule::Length { over: 1000.0, at_least: 5.0 },
        )
    },
    Limit {
        applies: Applies::CamberWanted,
        trust: Trust::MemoryCheck,
        source: B_6_CAMBER,
        ..limit(
            "B.6-4",
            Quantity::Camber,
            "L/500, at least 6 mm",
            Rule::Length { over: 500.0, at_least: 6.0 },
        )
    },
    limit("B.6-3", Quantity::Sweep, "L/1000, at least 5 mm", Rule::Length { over: 1000.0, at_least: 5.0 }),
    Limit {
        trust: Trust::MemorySure,
        source: B_1,
        ..limit(
            "B.1-4",
            Quantity::FlangeTilt,
            "b/100, at least 5 mm",
            Rule::Width { over: 100.0, at_least: 5.0 },
        )
    },
    Limit {
        trust: Trust::MemorySure,
        source: B_1,
        ..limit(
            "B.1-5",
            Quantity::FlangeCup,
            "b/150, at least 3 mm",
            Rule::Width { over: 150.0, at_least: 3.0 },
        )
    },
    limit("B.6-1", Quantity::Length, "L/5000 + 2 mm", Rule::LengthPlus { over: 5000.0, plus: 2.0 }),
];

/// Limits of functional class 2.
pub(super) const CLASS_2: &[Limit] = &[
    Limit {
        applies: Applies::NoCamberWanted,
        ..limit(
            "B.6-3",
            Quantity::Camber,
            "L/1000, at least 3 mm",
            Rule::Length { over: 1000.0, at_least: 3.0 },
        )
    },
    Limit {
        applies: Applies::CamberWanted,
        trust: Trust::MemoryCheck,
        source: B_6_CAMBER,
        ..limit(
            "B.6-4",
            Quantity::Camber,
            "L/1000, at least 4 mm",
            Rule::Length { over: 1000.0, at_least: 4.0 },
        )
    },
    limit("B.6-3", Quantity::Sweep, "L/1000, at least 3 mm", Rule::Length { over: 1000.0, at_least: 3.0 }),
    Limit {
        trust: Trust::MemorySure,
        source: B_1,
        ..limit(
            "B.1-4",
            Quantity::FlangeTilt,
            "b/100, at least 3 mm",
            Rule::Width { over: 100.0, at_least: 3.0 },
        )
    },
    Limit {
        trust: Trust::MemorySure,
        source: B_1,
        ..limit(
            "B.1-5",
            Quantity::FlangeCup,
            "b/150, at least 2 mm",
            Rule::Width { over: 150.0, at_least: 2.0 },
        )
    },
    limit("B.6-1", Quantity::Length, "L/10000 + 2 mm", Rule::LengthPlus { over: 10_000.0, plus: 2.0 }),
];
