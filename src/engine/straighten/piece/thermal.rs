//! The bow a member has while one side of it is warmer.

use crate::straighten::lying::EXPANSION_PER_K;

/// Bow at mid-length (mm) while one flange is warmer than the other by `warmer_k` (K), length and depth in mm: α·ΔT·L²/(8h).
///
/// 10 K over 620 mm in 12 m: 3.5 mm.
/// ```
/// let bow = weldbow_engine::straighten::piece::thermal_bow_mm(10.0, 12_000.0, 620.0);
/// assert!((bow - 3.48).abs() < 0.01);
/// ```
pub fn thermal_bow_mm(warmer_k: f64, length_mm: f64, depth_mm: f64) -> f64 {
    EXPANSION_PER_K * warmer_k * length_mm * length_mm / (8.0 * depth_mm)
}
