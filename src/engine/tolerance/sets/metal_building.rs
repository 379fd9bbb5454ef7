//! Common practice of the metal building trade for built-up members: a trade manual's table of 2012.
//!
//! The table was read on a copy; the two figures that explain its letters were not seen. Length, sweep and
//! camber are named in words there; that letter a is the angle of a flange out of square is inferred. The
//! stricter sweep of crane runway beams (1/8 in per 10 ft) is left out: a job does not name that use.

use super::super::{Applies, Limit, Quantity, Rule, Trust};
use crate::units::IN_MM;

const SOURCE: &str = "MBMA 2012, Table 9.2; read on a copy";

const fn limit(clause: &'static str, quantity: Quantity, words: &'static str, rule: Rule) -> Limit {
    Limit::of(["metal building practice", "2012"], clause, quantity, words, rule).known(Trust::Read, SOURCE)
}

/// 1/4 in for each 10 ft.
const BOW: Rule = Rule::Length { over: 480.0, at_least: 0.0 };

const QUARTER_INCH: f64 = 0.25 * IN_MM;

/// Limits of the table.
pub(super) const LIMITS: &[Limit] = &[
    limit("Table 9.2, C", Quantity::Camber, "L/480 (1/4 in per 10 ft)", BOW).when(Applies::NoCamberWanted),
    limit("Table 9.2, C", Quantity::Camber, "L/480 (1/4 in per 10 ft)", BOW)
        .when(Applies::CamberWanted)
        .known(
            Trust::Inferred,
            "MBMA 2012, Table 9.2; read on a copy; taken to hold about a wanted camber too",
        ),
    limit("Table 9.2, S", Quantity::Sweep, "L/480 (1/4 in per 10 ft)", BOW),
    limit(
        "Table 9.2, a",
        Quantity::FlangeTilt,
        "3° over half the flange, at most 1/4 in (6.35 mm)",
        Rule::ToeAngle { degrees: 3.0, at_most: QUARTER_INCH },
    )
    .known(
        Trust::Inferred,
        "MBMA 2012, Table 9.2; read on a copy; that letter a is flange out of square is inferred",
    ),
    limit("Table 9.2, c", Quantity::WebFlatness, "D/72", Rule::Depth { over: 72.0, at_least: 0.0 }).known(
        Trust::Inferred,
        "MBMA 2012, Table 9.2; read on a copy; that letter c is the bow of the web is inferred",
    ),
    limit("Table 9.2, L", Quantity::Length, "1/4 in (6.35 mm)", Rule::Fixed { mm: QUARTER_INCH }),
];
