//! Web buckling by weld shrinkage: compression against critical stress.
//!
//! The seams pull, the web between them is pushed. A long plate under even compression buckles at
//! σ_cr = k·π²E/(12(1 − ν²))·(t/b)², k = 4 hinged and 6.97 clamped along both flanges (Timoshenko and Gere, Theory of
//! Elastic Stability; EN 1993-1-5 Table 4.1 for k = 4; memory, sure). The real flange lies between.
//!
//! Bending across the web changes the mean stress at buckling little: with the stress at one edge twice the
//! other's EN 1993-1-5 gives k·mean = 3.97, against 4 for even compression. So the mean is compared.

/// k with both edges hinged.
pub const K_HINGED: f64 = 4.0;
/// k with both edges clamped.
pub const K_CLAMPED: f64 = 6.97;
/// Poisson's ratio of steel (EN 1993-1-1 3.2.6).
const POISSON: f64 = 0.3;

/// Critical stress, MPa, of a long plate of thickness t and width b (mm) for a buckling coefficient k.
///
/// ```
/// use weldbow_engine::bow::ripple::critical_mpa;
/// // E = 210 000 MPa, b/t = 150, k = 4
/// assert!((critical_mpa(4.0, 1.0, 150.0, 210e3) - 33.7).abs() < 0.05);
/// ```
#[inline]
pub fn critical_mpa(k: f64, thickness_mm: f64, width_mm: f64, e_mpa: f64) -> f64 {
    const PLATE: f64 = std::f64::consts::PI * std::f64::consts::PI / (12.0 * (1.0 - POISSON * POISSON));
    let slimness = thickness_mm / width_mm;
    k * PLATE * e_mpa * slimness * slimness
}

/// Part of the web that still works once it has buckled: √(σ_cr/σ), 1 before (von Kármán 1932; memory, sure),
/// with the critical stress half-way between hinged and clamped (choice).
#[inline]
pub fn effective_share(compression_mpa: f64, critical_low_mpa: f64, critical_high_mpa: f64) -> f64 {
    let critical = 0.5 * (critical_low_mpa + critical_high_mpa);
    if compression_mpa > critical { (critical / compression_mpa).sqrt() } else { 1.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_web_works_whole_until_it_buckles_and_then_less_without_a_jump() {
        assert!((effective_share(27.0, 20.0, 34.9) - 1.0).abs() < 1e-12);
        let just_after = effective_share(27.451, 20.0, 34.9);
        assert!(just_after < 1.0 && just_after > 0.999, "{just_after}");
        assert!((effective_share(4.0 * 27.45, 20.0, 34.9) - 0.5).abs() < 1e-12);
    }
}
