//! Other authors' estimates of how far a fillet lifts a flange edge.

/// Blodgett, Design of Weldments: Δ = 0.02·W·w^1.3/t² (inches), both fillets laid; in mm the factor is
/// 0.02·25.4^0.7 = 0.1925 (memory; exponents sure, "W = full width" not confirmed). It has no hump and overshoots
/// on thin flanges: use below `BLODGETT_LIMIT_Q`.
///
/// ```
/// use weldbow_engine::angular::published::blodgett_edge_mm;
/// let inches = 0.02 * 6.0 * 0.25_f64.powf(1.3) / (0.375 * 0.375);
/// assert!((blodgett_edge_mm(152.4, 6.35, 9.525) / 25.4 - inches).abs() < 1e-12);
/// ```
pub fn blodgett_edge_mm(width_mm: f64, leg_mm: f64, flange_mm: f64) -> f64 {
    0.02 * 25.4_f64.powf(0.7) * width_mm * leg_mm.powf(1.3) / (flange_mm * flange_mm)
}

/// Heat parameter above which Blodgett's form runs away, J/mm³ (choice: there it passes the hump of all other laws).
pub(crate) const BLODGETT_LIMIT_Q: f64 = 6.0;

/// Inherent-deformation curve in Q/h² (Satoh and Terasaki 1976; Luo, Murakawa and Ueda 1997; memory, low):
/// θ = 1.44e-3·x up to x = 6.27 J/mm³, 0.0566/x beyond, rad per fillet. Its height fails a lever-arm check
/// and is kept only to show the spread.
///
/// ```
/// use weldbow_engine::angular::published::inherent_fold_rad;
/// assert!((inherent_fold_rad(5.0) - 7.2e-3).abs() < 1e-9 && (inherent_fold_rad(10.0) - 5.66e-3).abs() < 1e-9);
/// ```
pub fn inherent_fold_rad(q_j_per_mm3: f64) -> f64 {
    if q_j_per_mm3 <= 6.27 { 1.44e-3 * q_j_per_mm3 } else { 0.0566 / q_j_per_mm3 }
}

/// Lever-arm form φ = 12·S·e/t² with S = 1.16e-3·Q_f/t and e = t/4, rad per fillet (derived).
///
/// ```
/// use weldbow_engine::angular::published::lever_arm_fold_rad;
/// // 12·1.16e-3·4/4
/// assert!((lever_arm_fold_rad(4.0) - 0.01392).abs() < 1e-9);
/// ```
pub fn lever_arm_fold_rad(q_j_per_mm3: f64) -> f64 {
    12.0 * 1.16e-3 * 0.25 * q_j_per_mm3
}

/// Fold of a section calculation whose flange edges are held until 500 °C: 21 mrad, 7.0 J/mm³, 1.8 (computed).
///
/// ```
/// use weldbow_engine::angular::published::second_calculation_fold_rad;
/// assert!((second_calculation_fold_rad(7.0) - 0.021).abs() < 1e-12 && second_calculation_fold_rad(14.0) < 0.013);
/// ```
pub fn second_calculation_fold_rad(q_j_per_mm3: f64) -> f64 {
    let hump = |q: f64| 0.021 * (q / 7.0 * (1.0 - q / 7.0).exp()).powf(1.8);
    if q_j_per_mm3 <= 12.5 { hump(q_j_per_mm3) } else { hump(12.5) * (12.5 / q_j_per_mm3).powf(1.9) }
}

#[cfg(test)]
mod tests {
    use super::super::cup::{FoldingHeat, cup_rad};
    use super::*;

    #[test]
    fn recalled_curve_is_continuous_at_its_peak() {
        let (below, above) = (inherent_fold_rad(6.27), inherent_fold_rad(6.270_001));
        assert!((below - above).abs() < 1e-5, "{below} {above}");
    }

    /// Held until 500 °C a section agrees with a moving arc amid the hump and falls off on the thin side, where the arc does not.
    #[test]
    fn the_section_held_longer_agrees_amid_the_hump_and_falls_to_half_beyond() {
        let ratio = |q: f64| {
            second_calculation_fold_rad(q) / (2.0 * cup_rad(FoldingHeat { x_j_per_mm3: q, y_j_per_mm3: 0.0 }))
        };
        for q in [3.5, 4.5, 5.5, 6.5] {
            assert!((ratio(q) - 1.0).abs() < 0.25, "q {q}: ratio {:.2}", ratio(q));
        }
        assert!(ratio(12.0) < 0.5 && ratio(2.0) > 1.2, "{:.2} {:.2}", ratio(12.0), ratio(2.0));
    }
}
