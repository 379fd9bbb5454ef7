//! The push after the measuring push.

use super::{PressError, PressSpan};
use crate::numerics::root;
use serde::Serialize;

/// What a measured first push teaches, and the next one.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Second {
    /// Yield strength that explains the measured set, over the one assumed.
    pub yield_factor: f64,
    /// Stroke from the new resting place, mm.
    pub stroke_mm: f64,
    /// Set still to be made, mm.
    pub set_mm: f64,
    /// Set gained per extra mm of stroke there.
    pub gain: f64,
}

/// Factors on yield between which the explanation is looked for (choice).
const EXPLAINS: (f64, f64) = (0.5, 2.0);
/// Extra stroke for which the gain is told, mm (choice).
const EXTRA_MM: f64 = 1.0;

/// The second push at the same place and span, in the same direction, from the set measured after the first one of a known
/// stroke by bending (all mm, at the gauge). Loading again is elastic up to the load reached before; from there the
/// member follows the curve it would have followed without the release (elastic, perfectly plastic).
///
/// # Errors
/// [`PressError`] if no yield strength explains the measured set, or the wanted set is already reached or needs a hinge.
pub fn second_push(
    span: &PressSpan,
    first_stroke_mm: f64,
    measured_set_mm: f64,
    wanted_set_mm: f64,
) -> Result<Second, PressError> {
    let left = wanted_set_mm - measured_set_mm;
    if !(left.is_finite() && left > 0.0) {
        return Err(PressError::NotPositive { what: "set still to be made, mm", value: left });
    }
    let set = |yields: f64| yields * span.set_after_stroke_mm(first_stroke_mm / yields);
    let yield_factor = root(|y| set(y) - measured_set_mm, EXPLAINS.0, EXPLAINS.1, 1e-9)?;
    let total = yield_factor * span.for_set(wanted_set_mm / yield_factor)?.stroke_mm;
    let more = set_at(span, yield_factor, total + EXTRA_MM);
    Ok(Second {
        yield_factor,
        stroke_mm: total - measured_set_mm,
        set_mm: left,
        gain: (more - wanted_set_mm) / EXTRA_MM,
    })
}

fn set_at(span: &PressSpan, yields: f64, stroke_mm: f64) -> f64 {
    yields * span.set_after_stroke_mm(stroke_mm / yields)
}
