//! Feet, inches and sixteenths, as a tape reads.

use super::figures::{minus, unknown};

/// Whole inches and sixteenths, in lowest terms, from a whole number of sixteenths that is not negative.
pub(super) fn inches(sixteenths: f64) -> String {
    let whole = (sixteenths / 16.0).floor();
    let (mut over, mut under) = (sixteenths - 16.0 * whole, 16.0);
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
    let rest = inches(sixteenths.abs() % per_foot);
    let feet = if feet > 0.0 { format!("{feet} ft ") } else { String::new() };
    format!("{}{feet}{rest} in", minus(sixteenths))
}
