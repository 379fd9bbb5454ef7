//! The fold of a flange at one fillet: the angle its two halves close by.
//!
//! φ = P·[(q/q₀)·exp(1 − q/q₀)]^N·(f_y/355)^0.4, q = Q_f/t_f² from
//! [`heat_parameter`](crate::shrinkage::tendon::heat_parameter).
//!
//! Rising branch (thick flange): a shallow weld shrinks one face, and a stiffer plate folds less. Falling branch
//! (thin flange): the plate is heated through and shrinks evenly. P, q₀, N are fitted to 16 joints of an own
//! cross-section calculation (flange 6–32 mm, web 4–10 mm, 600–1600 J/mm; rms 9 %, worst 20 %); a second,
//! separately written one gives 21 mrad, 7.0, 1.8. Both hold the flange edges while hotter than 500 °C, which stands
//! for the cold plate about a moving arc and is a choice: 300 °C gives 0.88 and 700 °C 1.07 of the
//! height. A three-dimensional moving arc does not show the fall beyond q ≈ 7. No measured member was available.
//! `studies/referee/5-fold.toml` derives height and shape anew with the section solved here: height 23.6 mrad.

/// Height P of the hump, rad.
pub const PEAK_RAD: f64 = 0.0230;
/// Heat parameter q₀ of the hump, J/mm³.
pub const PEAK_Q_J_PER_MM3: f64 = 7.90;
/// Exponent N: the fold grows as q^N on thick flanges.
pub const EXPONENT: f64 = 1.69;
/// Growth with yield strength, up to [`YIELD_LIMIT_MPA`].
pub const YIELD_EXPONENT: f64 = 0.4;
/// Yield strength beyond which the fold no longer grows, MPa (computed).
pub const YIELD_LIMIT_MPA: f64 = 460.0;

/// Fold of a free flange by one fillet that cools alone, rad.
///
/// ```
/// use weldbow_engine::angular::fold::fold_rad;
/// let peak = fold_rad(7.90, 355.0);
/// assert!((peak - 0.0230).abs() < 1e-12);
/// assert!(fold_rad(2.0, 355.0) < peak && fold_rad(15.0, 355.0) < peak);
/// ```
pub fn fold_rad(q_j_per_mm3: f64, yield_mpa: f64) -> f64 {
    let x = q_j_per_mm3 / PEAK_Q_J_PER_MM3;
    let strength = yield_mpa.min(YIELD_LIMIT_MPA) / 355.0;
    PEAK_RAD * (EXPONENT * (x.ln() + 1.0 - x) + YIELD_EXPONENT * strength.ln()).exp()
}

/// Cup when both sides are welded at the same station at once, rad: 0.0088·[1 − exp(−q/1.6)], q of one fillet.
/// The flange is then heated through (own section calculation, seven joints).
pub fn cup_at_once_rad(q_j_per_mm3: f64) -> f64 {
    0.0088 * (1.0 - (-q_j_per_mm3 / 1.6).exp())
}

/// Relative standard deviation of a fold: 30 % for 2 < q < 10, 50 % outside (judgement; no measured member).
pub fn sigma(q_j_per_mm3: f64) -> f64 {
    if (2.0..=10.0).contains(&q_j_per_mm3) { 0.30 } else { 0.50 }
}
