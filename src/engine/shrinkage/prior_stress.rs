//! Stress already at the weld line before the pass: tension leaves less to shrink, compression more.

use crate::sources::{Constant, Trust, record};

/// Least prior stress over yield that the rule is used for; beyond, the bar would yield before the weld.
const MOST_PRESSED: f64 = -0.5;
/// Largest, likewise.
const MOST_PULLED: f64 = 0.95;
/// Force that cutting with a flame or plasma leaves at an edge, over thickness to the power of 1.5, N/mm^1.5.
const CUT_EDGE: f64 = 1100.0;

/// Force with prior stress over force without: ln(2/(1 + φ))/ln 2 = 1 − log₂(1 + φ), φ = stress/yield, tension +.
///
/// Okerblom's bar theory extended to a pre-stressed plate (derived; a separate fibre calculation gives
/// 1.41, 0.67 and 0.41 at φ = −0.25, 0.25 and 0.5).
///
/// ```
/// use weldbow_engine::shrinkage::prior_stress::factor;
/// assert!((factor(0.0) - 1.0).abs() < 1e-12);
/// assert!((factor(0.5) - 0.415).abs() < 1e-3);
/// ```
#[inline]
pub fn factor(stress_over_yield: f64) -> f64 {
    1.0 - (1.0 + stress_over_yield.clamp(MOST_PRESSED, MOST_PULLED)).log2()
}

/// Force already spent by a flame- or plasma-cut plate edge, N: 1100·t^1.5 (ECCS 1976 residual-stress form
/// c_f = 1100·√t/f_y; memory, to be confirmed). A weld laid on that edge adds only what exceeds it.
///
/// ```
/// use weldbow_engine::shrinkage::prior_stress::cut_edge_force_n;
/// // 9 mm: 1100·27
/// assert!((cut_edge_force_n(9.0) - 29_700.0).abs() < 1e-6);
/// ```
pub fn cut_edge_force_n(plate_mm: f64) -> f64 {
    CUT_EDGE * plate_mm.powf(1.5)
}

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    record!(MOST_PRESSED, "", "prior stress over yield from which no more force is counted")
        .known(Trust::Choice, "beyond, the bar would yield before the weld"),
    record!(MOST_PULLED, "", "prior stress over yield from which no less force is counted")
        .known(Trust::Choice, "beyond, the bar would yield before the weld"),
    record!(CUT_EDGE, "N/mm^1.5", "force of a flame- or plasma-cut edge over thickness to the power of 1.5")
        .known(Trust::MemoryCheck, "ECCS, residual stress of cut edges, 1976: c_f = 1100·√t/f_y"),
];
