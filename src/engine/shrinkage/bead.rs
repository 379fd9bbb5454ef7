//! The shrinkage force of one bead laid on the face of a plate, with no web beside it.
//!
//! F₁ = 207.5·[1 − 0.321/(1 + (q/1.96)^6.2)]·[1 − 0.10·ΔT/100 K]·f_y-factor · Q, q = Q/t², ΔT the mean rise of the plate.
//!
//! Own section calculation of 28 beads on plates of 6–25 mm and 16 tees (two-dimensional heat flow, EN 1993-1-2 properties, rms of
//! fit 2.3 %). A fillet differs, see [`tendon`](super::tendon): its web takes a share, and less force is left of a thick flange.

use super::tendon::{mean_rise_k, yield_factor};
use crate::sources::{Constant, Trust, record};

const THIN_N_PER_J_MM: f64 = 207.5;
const THICK_LOSS: f64 = 0.321;
const STEP_Q_J_PER_MM3: f64 = 1.96;
const STEP_EXPONENT: f64 = 6.2;
const WARM_LOSS_PER_100_K: f64 = 0.10;
/// Mean rise beyond which the loss is not known to grow, K.
const WARM_LIMIT_K: f64 = 150.0;
/// Loss of a free against a held plate: this area over the plate's, mm². Fitted to five computed sections of 780–8000 mm² (2 % at
/// 8000, about 25 % at 800).
const FREE_LOSS_MM2: f64 = 200.0;
/// Least that is left of the force when a small plate is free (choice: no plate of the studies was smaller).
const FREE_FLOOR: f64 = 0.70;

/// Force in a plate held lengthwise, N. Width and thickness, mm.
///
/// 1000 J/mm on 200 × 12: q = 6.94, 207.5 · (1 − 0.321/2540) · (1 − 0.10 · 0.885) = 189.1 N per J/mm.
/// ```
/// let force = weldbow_engine::shrinkage::bead::held_force_n(1000.0, [200.0, 12.0], 355.0);
/// assert!((force / 189.1e3 - 1.0).abs() < 1e-3);
/// ```
pub fn held_force_n(heat_j_per_mm: f64, [width_mm, thickness_mm]: [f64; 2], yield_mpa: f64) -> f64 {
    let q = heat_j_per_mm / (thickness_mm * thickness_mm);
    let thickness = 1.0 - THICK_LOSS / (1.0 + (q / STEP_Q_J_PER_MM3).powf(STEP_EXPONENT));
    let rise_k = mean_rise_k(heat_j_per_mm, width_mm * thickness_mm).min(WARM_LIMIT_K);
    let warm = 1.0 - WARM_LOSS_PER_100_K / 100.0 * rise_k;
    THIN_N_PER_J_MM * thickness * warm * yield_factor(yield_mpa) * heat_j_per_mm
}

/// Factor for a plate of that area free to stretch and bend while hot.
///
/// ```
/// use weldbow_engine::shrinkage::bead::free_factor;
/// // 1 − 200/2000; never less than 0.7
/// assert!((free_factor(2000.0) - 0.9).abs() < 1e-12 && free_factor(100.0) == 0.7);
/// ```
pub fn free_factor(area_mm2: f64) -> f64 {
    (1.0 - FREE_LOSS_MM2 / area_mm2).max(FREE_FLOOR)
}

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    record!(THIN_N_PER_J_MM, "N per J/mm", "force per heat of a bead on a plate")
        .known(Trust::OwnCalculation, "own section calculation of 28 beads and 16 tees, rms 2.3 %"),
    record!(THICK_LOSS, "", "part lost in a thick plate")
        .known(Trust::OwnCalculation, "the same calculation"),
    record!(STEP_Q_J_PER_MM3, "J/mm³", "middle of the step from thick to thin")
        .known(Trust::OwnCalculation, "the same calculation"),
    record!(STEP_EXPONENT, "", "sharpness of that step").known(Trust::OwnCalculation, "the same calculation"),
    record!(WARM_LOSS_PER_100_K, "", "loss per 100 K of mean rise")
        .known(Trust::OwnCalculation, "the same calculation"),
    record!(WARM_LIMIT_K, "K", "mean rise beyond which the loss is not known to grow")
        .known(Trust::OwnCalculation, "the same calculation"),
    record!(FREE_LOSS_MM2, "mm²", "loss of a free plate over its area")
        .known(Trust::OwnCalculation, "five computed sections of 780–8000 mm²"),
    record!(FREE_FLOOR, "", "least that is left in a small free plate")
        .known(Trust::Choice, "the same five sections"),
];
