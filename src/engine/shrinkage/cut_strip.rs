//! A strip of plate whose long edges were cut by flame or plasma: the bow it comes with, and the stress it is held with.
//!
//! A hot cut leaves a block of width c = 1100·√t/f_y along the edge in tension at yield, a tendon of F = 1100·t^1.5
//! ([`super::prior_stress::cut_edge_force_n`]). A loose strip gives way: it bows hollow on the edge that was cut. Held straight by the
//! member it is welded into it keeps the mean pressure −F/A in its middle, where the fillet is laid.

use super::prior_stress::cut_edge_force_n;
use crate::sources::{Constant, Trust, record};

/// Part by which two edges cut at once by two torches differ in force, one standard deviation. Choice: never measured here.
pub(crate) const EDGES_DIFFER: f64 = 0.10;
/// Part by which the force of one hot-cut edge differs from strip to strip, one standard deviation: speed and heat of the torch.
/// Choice.
pub(crate) const EDGE_SCATTER: f64 = 0.20;

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    record!(EDGES_DIFFER, "", "difference of two edges cut at once")
        .known(Trust::Choice, "two torches on one beam; never measured here"),
    record!(EDGE_SCATTER, "", "scatter of a hot-cut edge from strip to strip")
        .known(Trust::Choice, "speed and heat of the torch; never measured here"),
];

/// Curvature (1/mm) of a loose strip `width_mm` wide and `thickness_mm` thick with one long edge cut hot, without sign:
/// F·(b − c)/2 over E·t·b³/12 (derived). The block is never wider than half the strip.
///
/// 150 × 10 mm, f_y 355, 6 m long: bows by κL²/8 = 18.6 mm; without the width of the block it would be 19.9 mm.
/// ```
/// use weldbow_engine::shrinkage::cut_strip::one_edge_per_mm;
/// let bow = one_edge_per_mm(150.0, 10.0, 355.0, 210e3) * 6000.0_f64.powi(2) / 8.0;
/// assert!((bow - 18.6).abs() < 0.05);
/// ```
pub fn one_edge_per_mm(width_mm: f64, thickness_mm: f64, yield_mpa: f64, e_mpa: f64) -> f64 {
    let force = cut_edge_force_n(thickness_mm);
    let block = (force / (thickness_mm * yield_mpa)).min(0.5 * width_mm);
    6.0 * force * (width_mm - block) / (e_mpa * thickness_mm * width_mm.powi(3))
}

/// Pressure (MPa, −) that so many hot-cut edges leave in the middle of a strip held straight.
///
/// 180 × 8 mm with both edges cut: −34.6 MPa.
/// ```
/// assert!((weldbow_engine::shrinkage::cut_strip::middle_mpa(180.0, 8.0, 2.0) + 34.6).abs() < 0.05);
/// ```
pub fn middle_mpa(width_mm: f64, thickness_mm: f64, edges: f64) -> f64 {
    -edges * cut_edge_force_n(thickness_mm) / (width_mm * thickness_mm)
}
