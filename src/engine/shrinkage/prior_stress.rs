//! Stress already at the weld line before the pass: tension leaves less to shrink, compression more.

/// Prior stress over yield that the rule is used for; beyond, the bar would yield before the weld.
const LIMITS: (f64, f64) = (-0.5, 0.95);

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
    1.0 - (1.0 + stress_over_yield.clamp(LIMITS.0, LIMITS.1)).log2()
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
    1100.0 * plate_mm.powf(1.5)
}
