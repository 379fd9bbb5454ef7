//! Feet, inches and sixteenths, as a tape reads.

use super::figures::{minus, unknown};

/// Whole inches and a fraction in lowest terms, from a whole number of parts that is not negative; parts of an inch that are a
/// power of two.
pub(in crate::units) fn inches(count: f64, parts: f64) -> String {
    let whole = (count / parts).floor();
    let (mut over, mut under) = (count - parts * whole, parts);
    while over > 0.0 && over % 2.0 < 1.0 {
        (over, under) = (over / 2.0, under / 2.0);
    }
    match (whole > 0.0, over > 0.0) {
        (_, false) => format!("{whole}"),
        (false, true) => format!("{over}/{under}"),
        (true, true) => format!("{whole}-{over}/{under}"),
    }
}

/// Feet, inches and sixteenths, from a whole number of sixteenths; feet are left off when there are none.
pub(super) fn feet_and_inches(sixteenths: f64) -> String {
    if !sixteenths.is_finite() {
        return unknown();
    }
    let per_foot = 16.0 * 12.0;
    let feet = (sixteenths.abs() / per_foot).floor();
    let rest = inches(sixteenths.abs() % per_foot, 16.0);
    let feet = if feet > 0.0 { format!("{feet} ft ") } else { String::new() };
    format!("{}{feet}{rest} in", minus(sixteenths))
}
