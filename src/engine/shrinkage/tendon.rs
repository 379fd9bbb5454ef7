//! The shrinkage force of one lone pass.
//!
//! F₁ = Σ_plates K·s·[1 − S/(1 + (Q/t²/q₀)⁴)]/(1 + q/q₁) · f_y-factor · f_preheat·f_free·f_narrow · Q
//!
//! * s: part of the heat in the plate, 2t_f/(2t_f + t_w) in the flange and the rest in the web.
//! * Q/t², all of the heat over the plate's thickness squared, J/mm³: the arc heats one face. Well above q₀ the plate is heated through
//!   ("thin", 0.335 αE/ρc in theory), below it the plastic zone ends inside it ("thick", 0.255 αE/ρc); the step lies between. The zone
//!   reaches as far as heat over yield strength goes, so q₀ grows with f_y.
//! * q = Q·s/t_f², q₁: a thin flange under much heat is warm far out, and warm steel yields less beside the weld; stronger steel is
//!   warmer before it does, and q₁ grows with the root of f_y.
//! * f_free: the factors so far hold for a strip held lengthwise. A member is free: while hot it stretches and bends as its
//!   welds push, by Σ Q_j·(1/A + e·e_j/I_z) at the junction, and the steel beside the weld is compressed that much
//!   less. The less the flange is heated through, the more of that counts. What the other seam's heat does counts by t_w/t_f, as the fit has it.
//! * f_narrow: a flange narrower than the plastic zone ([`narrow`](super::narrow)).
//!
//! Constants: own calculations from first principles (`strip`: two-dimensional heat flow, EN 1993-1-2 properties, bars that
//! yield, molten deposit, the arc as long as it takes to pass), fitted to 1390 seams of 695 random members, welded from one side, from both in
//! turn and at once, and to 24 held joints (flanges 6–32 mm, webs 4–12 mm, to 1.3 m deep, 0.5–1.8 kJ/mm): forces of seams rms 4.7 %, held
//! joints 2.2, worst 4.3 %. `studies/referee/` derives them anew, and the closed forms of [`okerblom`] and [`thick_plate`] frame them. An earlier law, with one
//! step by q for flange and web together and no narrow flanges, had rms 4.6 %, worst 18 %, on the same passes and was 30 % low where a flange
//! of 100 mm yields right across. Computed, not measured: against members the accuracy is unknown.

use crate::numerics::{LinearTable, Number};
use crate::sources::{Constant, Trust, record};

/// Force per heat in a thin flange far from other heat, N per J/mm.
pub const THIN_N_PER_J_MM: f64 = 207.0;
/// The same in a thin web.
const WEB_N_PER_J_MM: f64 = 235.0;
/// Part of a plate's share lost when it is thick.
pub const THICK_LOSS: f64 = 0.365;
/// Heat over flange thickness squared at the middle of the step from thick to thin in steel of 355 MPa, J/mm³.
const STEP_J_PER_MM3: f64 = 3.72;
/// The same of the web, whose edge is heated.
const WEB_STEP_J_PER_MM3: f64 = 4.65;
/// Heat parameter at which a flange warm far out halves the force in steel of 355 MPa, J/mm³: far beyond any weld. It goes with the root of
/// the yield strength.
const WARM_Q_J_PER_MM3: f64 = 78.5;
/// Loss per 100 K of preheat of the whole section (own section calculation: 0.098 at 80 K, 0.12 at 130 and 180 K; free,
/// 0.11 at 130 K).
pub(crate) const WARM_LOSS_PER_100_K: f64 = 0.12;
/// Preheat beyond which the loss is not known to grow, K.
pub(crate) const WARM_LIMIT_K: f64 = 100.0;
/// ρc of mean temperature rises, J/mm³K: 7850 kg/m³ and 600 J/kgK (simple model of ENV 1993-1-2:1995 and EN 1994-1-2:2005
/// 3.3.1, memory; EN 1993-1-2:2005 has the functions of temperature alone).
pub(crate) const MEAN_RHO_C: f64 = 7.85e-6 * 600.0;
/// Loss of a free against a held section under little heat, over what its welds' heat stretches the junction (heat times 1/A + e²/I), mm³/J, at
/// 355 MPa.
const FREE_LOSS_MM3_PER_J: f64 = 1.77;
/// Heat over thickness squared at which half of it is left in steel of 355 MPa, J/mm³.
const FREE_HALF_J_PER_MM3: f64 = 3.53;
/// Thermal expansion of the closed forms, /K (common value, memory).
pub(crate) const ALPHA: f64 = 12e-6;
/// Mean temperature rise beyond which nothing is predicted, K: f_y/(E·α) of the steel of the fits, at which it would yield all over if it were
/// held. For all steels (choice): at 139 K the strip model still agrees within 12 % for one of 235 MPa.
pub(crate) const HEATED_THROUGH_K: f64 = 140.0;
/// Yield strength of the fits, MPa.
pub(crate) const FITTED_YIELD_MPA: f64 = 355.0;

/// Force against yield strength, relative to 355 MPa: computed with the same section model.
const YIELD_FACTOR: LinearTable<5> = LinearTable([
    (235.0, YIELD_235),
    (275.0, YIELD_275),
    (FITTED_YIELD_MPA, 1.0),
    (460.0, YIELD_460),
    (690.0, YIELD_690),
]);
/// Its values where they are not 1.
const YIELD_235: f64 = 1.055;
/// At 275 MPa.
const YIELD_275: f64 = 1.042;
/// At 460 MPa.
const YIELD_460: f64 = 0.918;
/// At 690 MPa.
const YIELD_690: f64 = 0.721;

/// Part of a fillet's heat that goes into the flange: Okerblom's thin-plate three-way flow, 2t_f/(2t_f + t_w)
/// (memory, high confidence). 12 mm flange on 8 mm web: 0.75.
///
/// ```
/// use weldbow_engine::shrinkage::tendon::flange_share;
/// assert!((flange_share(12.0, 8.0) - 24.0 / 32.0).abs() < 1e-12);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn flange_share<N: Number>(flange_mm: N, web_mm: N) -> N {
    flange_mm * 2.0 / (flange_mm * 2.0 + web_mm)
}

/// Heat parameter q of the flange, J/mm³, for net heat Q (J/mm).
///
/// ```
/// use weldbow_engine::shrinkage::tendon::heat_parameter;
/// // 1200 J/mm on a 12 mm flange and 8 mm web: 1200 · 0.75 / 144
/// assert!((heat_parameter(1200.0, 12.0, 8.0) - 6.25).abs() < 1e-12);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn heat_parameter<N: Number>(heat_j_per_mm: N, flange_mm: N, web_mm: N) -> N {
    heat_j_per_mm * flange_share(flange_mm, web_mm) / (flange_mm * flange_mm)
}

/// 1 for a thin plate, less by 0.365 for a thick one: `heat` over its thickness squared and the middle of its step, J/mm³.
///
/// ```
/// use weldbow_engine::shrinkage::tendon::thickness_factor;
/// // in the middle of the step half of 0.365 is lost
/// assert!((thickness_factor(3.72, 3.72, 355.0) - 0.8175).abs() < 1e-12);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn thickness_factor<N: Number>(heat_over_square: N, step: f64, yield_mpa: N) -> N {
    let step = yield_mpa * step / FITTED_YIELD_MPA;
    let square = (heat_over_square / step) * (heat_over_square / step);
    -(N::all(THICK_LOSS) / (square * square + 1.0)) + 1.0
}

/// Mean temperature rise of a section while it is welded, K: all heat laid at once (J/mm) over its area (mm²).
///
/// ```
/// use weldbow_engine::shrinkage::tendon::mean_rise_k;
/// // 3600/(4.71e-3·10 000)
/// assert!((mean_rise_k(3600.0, 10_000.0) - 76.4).abs() < 0.1);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn mean_rise_k<N: Number>(heat_at_once_j_per_mm: N, area_mm2: N) -> N {
    heat_at_once_j_per_mm / (area_mm2 * MEAN_RHO_C)
}

/// Factor for a section preheated all over.
///
/// ```
/// use weldbow_engine::shrinkage::tendon::warmth_factor;
/// assert!((warmth_factor(50.0) - 0.94).abs() < 1e-12 && (warmth_factor(500.0) - 0.88).abs() < 1e-12);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn warmth_factor<N: Number>(preheat_k: N) -> N {
    let counts = preheat_k.max(N::default()).min(N::all(WARM_LIMIT_K));
    counts * -(WARM_LOSS_PER_100_K / 100.0) + 1.0
}

/// Loss per stretch of the junction, mm³/J, by the heat of its strongest pass over flange thickness squared, J/mm³: a flange heated through is so
/// far beyond yield that the stretch takes little off, and strong steel is farther from yield.
///
/// ```
/// use weldbow_engine::shrinkage::tendon::free_loss;
/// // half of 1.77 at 3.53 J/mm³
/// assert!((free_loss(3.53, 355.0) - 0.885).abs() < 1e-12);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn free_loss<N: Number>(heat_over_square: N, yield_mpa: N) -> N {
    let strength = yield_mpa * (1.0 / FITTED_YIELD_MPA);
    let through = heat_over_square / (strength * FREE_HALF_J_PER_MM3) + 1.0;
    (through * strength.sqrt()).inverse() * FREE_LOSS_MM3_PER_J
}

/// Factor for a section free to stretch and bend while hot: `loss` as [`free_loss`], `stretch` the sum over the seams welded
/// at once of heat times strain of this junction by unit force there, Σ Q_j·(1/A + e·e_j/I_z), J/mm³.
///
/// 1200 J/mm on one fillet of a 200 × 12 flange and a 150 × 8 web: 1/A + e²/I = 3.37·10⁻⁴ /mm², 1200/12² = 8.33 J/mm³.
/// ```
/// use weldbow_engine::shrinkage::tendon::{free_factor, free_loss};
/// let left = free_factor(free_loss(8.33, 355.0), 1200.0 * 3.37e-4);
/// assert!((left - 0.8244).abs() < 1e-3);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn free_factor<N: Number>(loss_mm3_per_j: N, stretch_j_per_mm3: N) -> N {
    (loss_mm3_per_j * stretch_j_per_mm3.max(N::default()) + 1.0).inverse()
}

/// Factor for yield strength, MPa; flat outside 235–690.
///
/// ```
/// use weldbow_engine::shrinkage::tendon::yield_factor;
/// assert!((yield_factor(460.0) - 0.918).abs() < 1e-12 && (yield_factor(900.0) - 0.721).abs() < 1e-12);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn yield_factor<N: Number>(yield_mpa: N) -> N {
    yield_mpa.each(|mpa| YIELD_FACTOR.at(mpa))
}

/// Force of a pass in a section held lengthwise and cold before, N. Flange and web thickness, mm.
///
/// 1200 J/mm on a 12 mm flange and an 8 mm web: 155.3·(1 − 0.365/(1 + (8.33/3.72)⁴)) of the flange, 58.8·(1 − 0.365/(1 + (18.75/4.65)⁴))
/// of the web, over 1 + 6.25/78.5: 196.1 N per J/mm; a separately written section calculation has 194.2.
/// ```
/// let force = weldbow_engine::shrinkage::tendon::held_force_n(1200.0, 12.0, 8.0, 355.0);
/// assert!((force / (1200.0 * 196.1) - 1.0).abs() < 1e-3);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn held_force_n<N: Number>(heat_j_per_mm: N, flange_mm: N, web_mm: N, yield_mpa: N) -> N {
    let share = flange_share(flange_mm, web_mm);
    let through =
        |plate_mm: N, step| thickness_factor(heat_j_per_mm / (plate_mm * plate_mm), step, yield_mpa);
    let flange = share * THIN_N_PER_J_MM * through(flange_mm, STEP_J_PER_MM3);
    let web = (-share + 1.0) * WEB_N_PER_J_MM * through(web_mm, WEB_STEP_J_PER_MM3);
    let halves = (yield_mpa * (1.0 / FITTED_YIELD_MPA)).sqrt() * WARM_Q_J_PER_MM3;
    let warm = heat_parameter(heat_j_per_mm, flange_mm, web_mm) / halves + 1.0;
    (flange + web) / warm * yield_factor(yield_mpa) * heat_j_per_mm
}

/// α·E/(ρc) with the constants of the closed forms: α 12e-6 /K, E 206 000 MPa, ρc 4.5e-3 J/mm³K; N·mm/J.
const CLOSED_FORM_ALPHA_E_OVER_RHO_C: f64 = ALPHA * 206_000.0 / 4.5e-3;

/// Okerblom's force of a weld on thin plates, 2 ln 2/√(2πe) · αE/ρc · Q = 0.3354 · αE/ρc · Q, N
/// (Okerblom 1955/1958, memory; derived again from the peak-temperature field). 184 N per J/mm.
///
/// ```
/// use weldbow_engine::shrinkage::tendon::okerblom;
/// // 0.3354·549.3
/// assert!((okerblom(1.0) - 184.2).abs() < 0.1);
/// ```
pub fn okerblom(heat_j_per_mm: f64) -> f64 {
    let coefficient =
        2.0 * std::f64::consts::LN_2 / (2.0 * std::f64::consts::PI * std::f64::consts::E).sqrt();
    coefficient * CLOSED_FORM_ALPHA_E_OVER_RHO_C * heat_j_per_mm
}

/// Its counterpart on a plate much thicker than the plastic zone, ln 2/e · αE/ρc · Q = 0.2550 · αE/ρc · Q, N
/// (derived). 140 N per J/mm.
///
/// ```
/// use weldbow_engine::shrinkage::tendon::thick_plate;
/// // 0.2550·549.3
/// assert!((thick_plate(1.0) - 140.1).abs() < 0.1);
/// ```
pub fn thick_plate(heat_j_per_mm: f64) -> f64 {
    std::f64::consts::LN_2 / std::f64::consts::E * CLOSED_FORM_ALPHA_E_OVER_RHO_C * heat_j_per_mm
}

/// What the force as a whole is unsure by, as [`uncertainty`](crate::prediction::uncertainty) has it: judged once for all of its constants.
const FORCE_SPREAD: f64 = 0.15;

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    record!(THIN_N_PER_J_MM, "N per J/mm", "force per heat in a thin flange")
        .known(
            Trust::OwnCalculation,
            "reference-cases/seam_forces.py: strip model, 695 members; studies/referee/1-force.toml",
        )
        .within("flanges 6–32 mm, webs 4–12 mm, 0.5–1.8 kJ/mm")
        .moved_by("force", FORCE_SPREAD),
    record!(WEB_N_PER_J_MM, "N per J/mm", "force per heat in a thin web")
        .known(
            Trust::OwnCalculation,
            "reference-cases/seam_forces.py: strip model, 695 members; studies/referee/1-force.toml",
        )
        .moved_by("force", FORCE_SPREAD),
    record!(THICK_LOSS, "", "part lost in a thick plate")
        .known(
            Trust::OwnCalculation,
            "reference-cases/seam_forces.py: strip model, 695 members; studies/referee/1-force.toml",
        )
        .moved_by("force", FORCE_SPREAD),
    record!(STEP_J_PER_MM3, "J/mm³", "middle of the step from thick to thin").known(
        Trust::OwnCalculation,
        "reference-cases/seam_forces.py: strip model, 695 members; studies/referee/",
    ),
    record!(WEB_STEP_J_PER_MM3, "J/mm³", "the same of the web").known(
        Trust::OwnCalculation,
        "reference-cases/seam_forces.py: strip model, 695 members; studies/referee/",
    ),
    record!(WARM_Q_J_PER_MM3, "J/mm³", "heat at which a flange warm far out halves the force").known(
        Trust::OwnCalculation,
        "reference-cases/seam_forces.py: strip model, 695 members; studies/referee/",
    ),
    record!(YIELD_235, "", "force in steel of 235 MPa over that of 355")
        .known(Trust::OwnCalculation, "studies/referee/2-yield.toml"),
    record!(YIELD_275, "", "the same of 275 MPa")
        .known(Trust::OwnCalculation, "studies/referee/2-yield.toml"),
    record!(YIELD_460, "", "the same of 460 MPa")
        .known(Trust::OwnCalculation, "studies/referee/2-yield.toml"),
    record!(YIELD_690, "", "the same of 690 MPa")
        .known(Trust::OwnCalculation, "studies/referee/2-yield.toml"),
    record!(WARM_LOSS_PER_100_K, "", "loss per 100 K of preheat")
        .known(Trust::OwnCalculation, "own section calculation at 80, 130 and 180 K")
        .within("to 100 K, then as at 100 K"),
    record!(WARM_LIMIT_K, "K", "preheat beyond which the loss is not known to grow")
        .known(Trust::OwnCalculation, "own section calculation"),
    record!(MEAN_RHO_C, "J/mm³K", "volumetric heat of mean temperature rises").known(
        Trust::MemoryCheck,
        "EN 1994-1-2:2005 3.3.1 and ENV 1993-1-2:1995, simple model: 7850 kg/m³ and 600 J/kgK",
    ),
    record!(FREE_LOSS_MM3_PER_J, "mm³/J", "loss of a free against a held section under little heat").known(
        Trust::OwnCalculation,
        "reference-cases/seam_forces.py: strip model, 695 members; studies/referee/7-free.toml",
    ),
    record!(ALPHA, "/K", "thermal expansion of the closed forms")
        .known(Trust::MemorySure, "EN 1993-1-1:2005 3.2.6"),
    record!(FREE_HALF_J_PER_MM3, "J/mm³", "heat over thickness squared at which half of it is left")
        .known(Trust::OwnCalculation, "the same members"),
    record!(HEATED_THROUGH_K, "K", "mean rise of a section beyond which nothing is predicted")
        .known(Trust::Choice, "f_y/(E·α) of the steel of the fits, 355 MPa; taken for all"),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thick_and_thin_limits_lie_as_far_apart_as_in_theory() {
        let theory = thick_plate(1.0) / okerblom(1.0);
        let fitted =
            thickness_factor(0.1, STEP_J_PER_MM3, 355.0) / thickness_factor(40.0, STEP_J_PER_MM3, 355.0);
        assert!((theory - 0.760).abs() < 1e-3, "theory {theory:.4}");
        assert!((fitted / theory - 1.0).abs() < 0.17, "fitted {fitted:.3} against theory {theory:.3}");
    }

    #[test]
    fn force_grows_with_heat_less_than_in_proportion_once_the_flange_warms() {
        let force = |q: f64| held_force_n(q, 8.0, 5.0, 355.0);
        let (one, two) = (force(800.0), force(1600.0));
        assert!(two > 1.8 * one && two < 2.0 * one, "{one:.0} N, {two:.0} N");
    }

    #[test]
    fn a_small_free_section_and_a_flange_heated_little_lose_most() {
        let left = |q: f64, area_mm2: f64| free_factor(free_loss(q, 355.0), 1000.0 / area_mm2);
        assert!(left(6.0, 8000.0) > left(6.0, 2000.0) && left(2.0, 4000.0) < left(6.0, 4000.0));
        assert!((free_factor(free_loss(3.0, 355.0), 0.0) - 1.0).abs() < 1e-12);
        let (little, through) = (free_loss(1e-6, 355.0), free_loss(50.0, 355.0));
        assert!((little / FREE_LOSS_MM3_PER_J - 1.0).abs() < 1e-3 && through < 0.07 * little);
        assert!(free_loss(2.0, 690.0) < free_loss(2.0, 355.0));
    }

    #[test]
    fn preheat_lowers_the_force_up_to_a_limit() {
        assert!(warmth_factor(80.0) < warmth_factor(0.0));
        assert!((warmth_factor(400.0) - warmth_factor(WARM_LIMIT_K)).abs() < 1e-12);
    }
}
