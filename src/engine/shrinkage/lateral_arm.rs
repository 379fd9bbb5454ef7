//! How far from the web plane a fillet pulls.

use super::tendon::FITTED_YIELD_MPA;
use crate::numerics::Number;
use crate::sources::{Constant, Trust, record};

/// Part of half the web's thickness that is left in the arm of a web heated through. Own calculation: 1078 first passes of random members
/// by the strip model (`reference-cases/seam_forces.py`: median 3 %, 95 % within 8 %) and 48 joints solved from first principles (flanges
/// 8–20 mm, webs 4–10 mm, legs 4–8 mm; `studies/referee/4-arm.toml`: rms 4 %, worst 9 %). Fixed parts of half the web and of the fillet left 20 % and 17 %.
const LEFT_OF_WEB: f64 = 0.33;
/// Heat over web thickness squared at which half of the rest is left in steel of 355 MPa, J/mm³ (fitted together with the first).
const HALF_J_PER_MM3: f64 = 3.2;
/// Part of the way from the web's face to the fillet's centroid in the arm (fitted together with them).
const OF_FILLET: f64 = 0.93;

/// Most of the first side's sideways moment that an equal second one turns round beyond its own.
const MOST_TURNED: f64 = 0.70;
/// What it turns round when the first is cold.
const COLD_TURNED: f64 = 0.045;

/// Arm of a lone fillet of leg z, mm, without sign: c·t_w/2 + 0.93·z/3, c = 0.33 + 0.67/(1 + (q_w/q_½)²), q_w = Q/t_w², q_½ = 3.2 J/mm³·f_y/355.
///
/// A web thick for its weld stays stiff beside it: the force lies near the fillet's centroid. One heated through pulls in its own plane, and
/// what is left beside it is the flange's.
/// 1000 J/mm, 6 mm leg, 355 MPa. 5 mm web: q_w = 40, c = 0.334, 0.84 + 1.86 = 2.70 mm. 12 mm web: q_w = 6.94, c = 0.447, 2.68 + 1.86 = 4.54 mm.
/// ```
/// use weldbow_engine::shrinkage::lateral_arm::arm_mm;
/// assert!((arm_mm(5.0, 6.0, 1000.0, 355.0) - 2.70).abs() < 0.005);
/// assert!((arm_mm(12.0, 6.0, 1000.0, 355.0) - 4.54).abs() < 0.005);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn arm_mm<N: Number>(web_mm: N, leg_mm: N, heat_j_per_mm: N, yield_mpa: N) -> N {
    let through = heat_j_per_mm / (web_mm * web_mm * yield_mpa * (HALF_J_PER_MM3 / FITTED_YIELD_MPA));
    let of_web = (through * through + 1.0).inverse() * (1.0 - LEFT_OF_WEB) + LEFT_OF_WEB;
    of_web * web_mm * 0.5 + leg_mm * (OF_FILLET / 3.0)
}

/// Distance of the centroid of a fillet of leg z from the plane of the web, mm: t_w/2 + z/3. Bowing formulas and tendon forces
/// of the literature put their force there.
///
/// ```
/// assert!((weldbow_engine::shrinkage::lateral_arm::centroid_mm(5.0, 6.0) - 4.5).abs() < 1e-12);
/// ```
pub fn centroid_mm(web_mm: f64, leg_mm: f64) -> f64 {
    0.5 * web_mm + leg_mm / 3.0
}

/// Part of the first side's moment left by an equal second side laid that lag later, as the section feels it
/// ([`second_side::felt_lag`](super::second_side::felt_lag)); − is toward the second:
/// −1.4·u/(1 + u²) − 0.045·(1 − 1/(1 + u²)).
///
/// While the first is hot the second takes away more than it had; at once nothing is left, and next to nothing cold. In joints solved from
/// first principles (12 mm flange, 8 mm web, 1.0 kJ/mm) the most is left after 130 s where the joint is held lengthwise (−0.90) and after 25 s where it is
/// free (−0.55). By 210 seams of random members by the strip model, welded from both sides 20–200 s apart
/// (`reference-cases/seam_forces.py`: median 0.11), and by 150 welded cold, of whose moment −2 % is left where their second side pulls a little less than the first.
///
/// ```
/// use weldbow_engine::shrinkage::lateral_arm::left_after_second;
/// // the most at u = 1, 0.70 + 0.045/2; 1.4·2/5 + 0.045·4/5
/// assert!((left_after_second(1.0) + 0.7225).abs() < 1e-12 && (left_after_second(2.0) + 0.596).abs() < 1e-12);
/// assert!(left_after_second(0.0) == 0.0 && left_after_second(f64::INFINITY) == -0.045);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn left_after_second<N: Number>(felt_lag: N) -> N {
    // from nothing to for ever without a division of one by the other
    let warm = (felt_lag + felt_lag.inverse()).inverse() * (2.0 * MOST_TURNED);
    let cold = (-(felt_lag * felt_lag + 1.0).inverse() + 1.0) * COLD_TURNED;
    -(warm + cold)
}

/// Sideways moment of a joint, N·mm, from the moment `first` of one side and `second` of the other (both with
/// their own signs, normally opposite); `left` is [`left_after_second`] at the lag between them.
///
/// A second side as strong as the first leaves that part of it: re-heating takes away part of the first tendon before
/// adding its own. A weaker second side takes away less in proportion.
///
/// ```
/// use weldbow_engine::shrinkage::lateral_arm::combined_moment;
/// // 1000 − 0.75·1000 − 1000
/// assert!((combined_moment(1000.0, -1000.0, -0.75) + 750.0).abs() < 1e-9);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn combined_moment<N: Number>(first: N, second: N, left: N) -> N {
    (first.abs() + left * second.abs()).max(N::default()).signed_as(first) + second
}

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    record!(LEFT_OF_WEB, "", "part of half the web in the lever arm sideways, heated through").known(Trust::OwnCalculation, "studies/referee/4-arm.toml: 48 solved joints; reference-cases/seam_forces.py: strip model, 1078 first passes")
    .within("flanges 6–32 mm, webs 4–12 mm, legs 4–8 mm")
    .moved_by("arm", 0.20),
    record!(HALF_J_PER_MM3, "J/mm³", "heat over web thickness squared at which half of the rest is left").known(Trust::OwnCalculation, "the same joints and passes")
    .moved_by("arm", 0.20),
    record!(OF_FILLET, "", "part of the way from the web's face to the fillet's centroid in it").known(Trust::OwnCalculation, "the same joints and passes")
    .moved_by("arm", 0.20),
    record!(MOST_TURNED, "", "most of the first side's moment that a second one turns round beyond its own").known(Trust::OwnCalculation, "reference-cases/seam_forces.py: strip model, 210 seams of members welded from both sides 20–200 s apart"),
    record!(COLD_TURNED, "", "part of it that it turns round when the first is cold").known(Trust::OwnCalculation, "reference-cases/seam_forces.py: strip model, 150 seams of members welded from both sides, cold"),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_sides_at_once_cancel_and_a_second_side_on_a_warm_one_overshoots() {
        assert!(combined_moment(100.0, -100.0, left_after_second(0.0)).abs() < 1e-9);
        let warm = combined_moment(100.0, -100.0, left_after_second(1.0));
        assert!((warm + 72.25).abs() < 1e-9, "{warm}");
    }

    #[test]
    fn a_vanishing_second_side_leaves_the_first_alone() {
        let left = combined_moment(100.0, -1e-6, left_after_second(1.0));
        assert!((left - 100.0).abs() < 1e-5, "{left}");
        assert!((combined_moment(0.0, 40.0, 0.0) - 40.0).abs() < 1e-12);
    }
}
