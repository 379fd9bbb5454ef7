//! The shrinkage force of one lone pass.
//!
//! F₁ = K·[1 − S/(1 + (q/q₀)ⁿ)]·[1 − 0.10·ΔT_m/100 K]·f_free·f_y-factor · Q
//!
//! * q = Q_f/t_f², Q_f = Q·2t_f/(2t_f + t_w): heat in the flange over its thickness squared, J/mm³. Above q ≈ 3
//!   the flange is heated through ("thin", 0.335 αE/ρc in theory); below 1.3 the plastic zone ends inside it
//!   ("thick", 0.255 αE/ρc); the step lies between.
//! * ΔT_m: mean temperature rise of the whole joined section by all heat laid at once and any preheat, K;
//!   a section warm all over yields less at the weld.
//! * f_free: a real member is free to stretch and bend while hot; the first two factors hold for a strip held
//!   lengthwise.
//!
//! Constants: own thermo-elastic-plastic cross-section calculation (44 cases, two-dimensional heat flow,
//! EN 1993-1-2 properties, rms of fit 2.3 %), checked against the closed forms of [`okerblom`] and
//! [`thick_plate`]. Computed, not measured: against members the accuracy is unknown.

use crate::numerics::Table;

/// Force per heat of a thin plate far from other heat, N per J/mm.
pub const THIN_N_PER_J_MM: f64 = 207.5;
/// Part of it lost when the plate is thick.
pub const THICK_LOSS: f64 = 0.321;
/// Heat parameter at the middle of the step from thick to thin, J/mm³.
pub const STEP_Q_J_PER_MM3: f64 = 1.96;
/// Sharpness of the step.
pub const STEP_EXPONENT: f64 = 6.2;
/// Loss per 100 K of mean temperature rise of the section.
pub const WARM_LOSS_PER_100_K: f64 = 0.10;
/// Mean rise beyond which the loss is not known to grow, K.
pub const WARM_LIMIT_K: f64 = 150.0;
/// ρc of the mean temperature rise, J/mm³K: 7850 kg/m³ and 600 J/kgK (EN 1993-1-2 simple model).
pub const MEAN_RHO_C: f64 = 7.85e-6 * 600.0;
/// Loss of a free against a held section: this area over the section's, mm². Own fit to five computed
/// sections of 780–8000 mm² (2 % at 8000, about 25 % at 800).
pub const FREE_LOSS_MM2: f64 = 200.0;
/// Least that is left of the force when a small section is free.
pub const FREE_FLOOR: f64 = 0.70;
/// Mean temperature rise beyond which the whole section yields and a tendon force loses its meaning, K:
/// f_y/(E·α) at 355 MPa.
pub const HEATED_THROUGH_K: f64 = 140.0;

/// Force against yield strength, relative to 355 MPa: computed with the same section model.
const YIELD_FACTOR: Table<5> =
    Table([(235.0, 1.055), (275.0, 1.042), (355.0, 1.0), (460.0, 0.918), (690.0, 0.721)]);

/// Part of a fillet's heat that goes into the flange: Okerblom's thin-plate three-way flow, 2t_f/(2t_f + t_w)
/// (memory, high confidence). 12 mm flange on 8 mm web: 0.75.
pub fn flange_share(flange_mm: f64, web_mm: f64) -> f64 {
    2.0 * flange_mm / (2.0 * flange_mm + web_mm)
}

/// Heat parameter q of the flange, J/mm³, for net heat Q (J/mm).
///
/// ```
/// use weldbow::shrinkage::tendon::heat_parameter;
/// // 1200 J/mm on a 12 mm flange and 8 mm web: 1200 · 0.75 / 144
/// assert!((heat_parameter(1200.0, 12.0, 8.0) - 6.25).abs() < 1e-12);
/// ```
pub fn heat_parameter(heat_j_per_mm: f64, flange_mm: f64, web_mm: f64) -> f64 {
    heat_j_per_mm * flange_share(flange_mm, web_mm) / (flange_mm * flange_mm)
}

/// 1 for a thin flange, down to 0.679 for a thick one.
pub fn thickness_factor(q_j_per_mm3: f64) -> f64 {
    1.0 - THICK_LOSS / (1.0 + (q_j_per_mm3 / STEP_Q_J_PER_MM3).powf(STEP_EXPONENT))
}

/// Mean temperature rise of a section, K: preheat plus all heat laid at once (J/mm) over its area (mm²).
#[inline]
pub fn mean_rise_k(heat_at_once_j_per_mm: f64, area_mm2: f64, preheat_k: f64) -> f64 {
    preheat_k + heat_at_once_j_per_mm / (MEAN_RHO_C * area_mm2)
}

/// Factor for a section that is warm all over.
#[inline]
pub fn warmth_factor(mean_rise_k: f64) -> f64 {
    1.0 - WARM_LOSS_PER_100_K / 100.0 * mean_rise_k.clamp(0.0, WARM_LIMIT_K)
}

/// Factor for a section free to stretch and bend while hot.
#[inline]
pub fn free_factor(area_mm2: f64) -> f64 {
    (1.0 - FREE_LOSS_MM2 / area_mm2).max(FREE_FLOOR)
}

/// Factor for yield strength, MPa; flat outside 235–690.
pub fn yield_factor(yield_mpa: f64) -> f64 {
    YIELD_FACTOR.at(yield_mpa)
}

/// Force of a pass before the factors that vary along the member, N: K·thickness·yield·Q.
pub fn held_force_n(heat_j_per_mm: f64, flange_mm: f64, web_mm: f64, yield_mpa: f64) -> f64 {
    let q = heat_parameter(heat_j_per_mm, flange_mm, web_mm);
    THIN_N_PER_J_MM * thickness_factor(q) * yield_factor(yield_mpa) * heat_j_per_mm
}

/// α·E/(ρc) with the constants of the closed forms: α 12e-6 /K, E 206 000 MPa, ρc 4.5e-3 J/mm³K; N·mm/J.
const CLOSED_FORM_ALPHA_E_OVER_RHO_C: f64 = 12e-6 * 206_000.0 / 4.5e-3;

/// Okerblom's force of a weld on thin plates, 2 ln 2/√(2πe) · αE/ρc · Q = 0.3354 · αE/ρc · Q, N
/// (Okerblom 1955/1958, memory; derived again from the peak-temperature field). 184 N per J/mm.
pub fn okerblom(heat_j_per_mm: f64) -> f64 {
    let coefficient =
        2.0 * std::f64::consts::LN_2 / (2.0 * std::f64::consts::PI * std::f64::consts::E).sqrt();
    coefficient * CLOSED_FORM_ALPHA_E_OVER_RHO_C * heat_j_per_mm
}

/// Its counterpart on a plate much thicker than the plastic zone, ln 2/e · αE/ρc · Q = 0.2550 · αE/ρc · Q, N
/// (derived). 140 N per J/mm.
pub fn thick_plate(heat_j_per_mm: f64) -> f64 {
    std::f64::consts::LN_2 / std::f64::consts::E * CLOSED_FORM_ALPHA_E_OVER_RHO_C * heat_j_per_mm
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thick_and_thin_limits_lie_as_far_apart_as_in_theory() {
        let theory = thick_plate(1.0) / okerblom(1.0);
        let fitted = thickness_factor(0.1) / thickness_factor(20.0);
        assert!((theory - 0.760).abs() < 1e-3, "theory {theory:.4}");
        assert!((fitted / theory - 1.0).abs() < 0.12, "fitted {fitted:.3} against theory {theory:.3}");
    }

    #[test]
    fn force_grows_with_heat_less_than_in_proportion_once_the_section_warms() {
        let force = |q: f64| held_force_n(q, 8.0, 5.0, 355.0) * warmth_factor(mean_rise_k(q, 5000.0, 0.0));
        let (one, two) = (force(800.0), force(1600.0));
        assert!(two > 1.8 * one && two < 2.0 * one, "{one:.0} N, {two:.0} N");
    }

    #[test]
    fn a_small_free_section_keeps_at_least_the_floor() {
        assert!((free_factor(8000.0) - 0.975).abs() < 1e-12);
        assert!((free_factor(100.0) - FREE_FLOOR).abs() < 1e-12);
    }

    #[test]
    fn preheat_lowers_the_force() {
        assert!(
            warmth_factor(mean_rise_k(1000.0, 5000.0, 80.0))
                < warmth_factor(mean_rise_k(1000.0, 5000.0, 0.0))
        );
    }
}
