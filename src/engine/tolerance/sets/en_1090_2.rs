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

/// What tells the functional classes apart: each limit with its words.
struct Class {
    straight: (f64, &'static str),
    wanted_camber: (f64, f64, &'static str),
    tilt: (f64, &'static str),
    cup: (f64, &'static str),
    length: (f64, &'static str),
}

const fn limits(class: &Class) -> [Limit; 6] {
    let straight = Rule::Length { over: 1000.0, at_least: class.straight.0 };
    let (over, at_least, wanted) = class.wanted_camber;
    let length = Rule::LengthPlus { over: class.length.0, plus: 2.0 };
    [
        Limit {
            applies: Applies::NoCamberWanted,
            ..limit("B.6-3", Quantity::Camber, class.straight.1, straight)
        },
        Limit {
            applies: Applies::CamberWanted,
            trust: Trust::MemoryCheck,
            source: B_6_CAMBER,
            ..limit("B.6-4", Quantity::Camber, wanted, Rule::Length { over, at_least })
        },
        limit("B.6-3", Quantity::Sweep, class.straight.1, straight),
        at_toe("B.1-4", Quantity::FlangeTilt, class.tilt, 100.0),
        at_toe("B.1-5", Quantity::FlangeCup, class.cup, 150.0),
        limit("B.6-1", Quantity::Length, class.length.1, length),
    ]
}

const fn at_toe(clause: &'static str, quantity: Quantity, least: (f64, &'static str), over: f64) -> Limit {
    let rule = Rule::Width { over, at_least: least.0 };
    Limit { trust: Trust::MemorySure, source: B_1, ..limit(clause, quantity, least.1, rule) }
}

/// Limits of functional class 1.
pub(super) const CLASS_1: &[Limit] = &limits(&Class {
    straight: (5.0, "L/1000, at least 5 mm"),
    wanted_camber: (500.0, 6.0, "L/500, at least 6 mm"),
    tilt: (5.0, "b/100, at least 5 mm"),
    cup: (3.0, "b/150, at least 3 mm"),
    length: (5000.0, "L/5000 + 2 mm"),
});

/// Limits of functional class 2.
pub(super) const CLASS_2: &[Limit] = &limits(&Class {
    straight: (3.0, "L/1000, at least 3 mm"),
    wanted_camber: (1000.0, 4.0, "L/1000, at least 4 mm"),
    tilt: (3.0, "b/100, at least 3 mm"),
    cup: (2.0, "b/150, at least 2 mm"),
    length: (10_000.0, "L/10000 + 2 mm"),
});
