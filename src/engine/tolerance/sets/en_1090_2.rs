//! EN 1090-2:2018, Annex B, manufacturing tolerances: functional in two classes, and essential. The amendment of 2024 was not seen.
//!
//! Tables B.6-1 and B.6-3 were read in others' accounts. Tables B.1-4 and B.1-5 are recalled and well
//! established; B.6-4, B.6-7 (twist), the rows on webs and all essential ones are recalled and should be checked. Twist is measured as the
//! offset over the larger of depth and flange, which is the stricter reading: the figure was not seen. The standard and its figures were not seen: that
//! squareness and flatness are measured at the flange toe is read into the tables.
//!
//! L/750 is often quoted beside B.6-3. It is the essential *erection* tolerance of unrestrained members
//! (table B.25), not a limit on what leaves the shop, and is left out here.

use super::super::{Applies, Limit, Quantity, Rule, Trust};

const B_1: &str = "Annex B, table B.1; recalled; figure not seen, taken as the offset at the flange toe";
const B_6: &str = "Annex B, table B.6; read in an account of the standard";
const B_6_CAMBER: &str = "Annex B, table B.6; recalled, to be checked";

const B_1_WEB: &str = "Annex B, table B.1, web distortion and undulation; recalled, to be checked: which of two formulas is that of 2018";
const B_6_TWIST: &str = "Annex B, table B.6; recalled, to be checked; taken over the larger of depth and flange, the figure not seen";
const B_3: &str = "Annex B, table B.3 (D.1.3 of 2008); recalled, not confirmed; tighter than the functional b/150 with its floor";

const fn limit(clause: &'static str, quantity: Quantity, words: &'static str, rule: Rule) -> Limit {
    Limit::of(["EN 1090-2", "2018"], clause, quantity, words, rule).known(Trust::SecondHand, B_6)
}

/// Limits of functional class 1.
pub(super) const CLASS_1: &[Limit] = &functional(0);
/// Limits of functional class 2.
pub(super) const CLASS_2: &[Limit] = &functional(1);

/// The functional limits of a class, 0 or 1: what differs stands in pairs.
const fn functional(class: usize) -> [Limit; 8] {
    let bow = ["L/1000, at least 5 mm", "L/1000, at least 3 mm"][class];
    let bow_rule = Rule::Length { over: 1000.0, at_least: [5.0, 3.0][class] };
    [
        limit("B.6-3", Quantity::Camber, bow, bow_rule).when(Applies::NoCamberWanted),
        limit(
            "B.6-4",
            Quantity::Camber,
            ["L/500, at least 6 mm", "L/1000, at least 4 mm"][class],
            Rule::Length { over: [500.0, 1000.0][class], at_least: [6.0, 4.0][class] },
        )
        .when(Applies::CamberWanted)
        .known(Trust::MemoryCheck, B_6_CAMBER),
        limit("B.6-3", Quantity::Sweep, bow, bow_rule),
        limit(
            "B.1-4",
            Quantity::FlangeTilt,
            ["b/100, at least 5 mm", "b/100, at least 3 mm"][class],
            Rule::Width { over: 100.0, at_least: [5.0, 3.0][class] },
        )
        .known(Trust::MemorySure, B_1),
        limit(
            "B.1-5",
            Quantity::FlangeCup,
            ["b/150, at least 3 mm", "b/150, at least 2 mm"][class],
            Rule::Width { over: 150.0, at_least: [3.0, 2.0][class] },
        )
        .known(Trust::MemorySure, B_1),
        limit(
            "B.1-8",
            Quantity::WebFlatness,
            ["d/100, at least 5 mm", "d/150, at least 3 mm"][class],
            Rule::Depth { over: [100.0, 150.0][class], at_least: [5.0, 3.0][class] },
        )
        .known(Trust::MemoryCheck, B_1_WEB),
        limit(
            "B.6-7",
            Quantity::Twist,
            ["L/700, 4 to 20 mm", "L/1000, 3 to 15 mm"][class],
            Rule::LengthBetween {
                over: [700.0, 1000.0][class],
                at_least: [4.0, 3.0][class],
                at_most: [20.0, 15.0][class],
            },
        )
        .known(Trust::MemoryCheck, B_6_TWIST),
        limit(
            "B.6-1",
            Quantity::Length,
            ["L/5000 + 2 mm", "L/10000 + 2 mm"][class],
            Rule::LengthPlus { over: [5000.0, 10_000.0][class], plus: 2.0 },
        ),
    ]
}

/// Essential limits, which bind whatever class is asked for: what the design rules rest on. The straightness as erected, L/750 of table
/// B.25, is no limit on what leaves the shop.
pub(super) const ESSENTIAL: &[Limit] = &[
    limit(
        "B.3-1",
        Quantity::FlangeCup,
        "b/150 up to b/t 20, b²/(3000 t) beyond",
        Rule::ThinFlange { over: 150.0, thin: 20.0 },
    )
    .known(Trust::MemoryCheck, B_3),
    limit("B.1-8", Quantity::WebFlatness, "d/100, at least t", Rule::DepthOrWeb { over: 100.0 })
        .known(Trust::MemoryCheck, B_1_WEB),
];
