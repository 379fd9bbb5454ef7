//! How far from the web plane a fillet pulls.

use crate::numerics::{LinearTable, Number};
use crate::sources::{Constant, Trust};

/// Part of half the web's thickness in the arm. Own calculation: the arm is a sum of both parts in 48 joints solved from first principles
/// (flanges 8–20 mm, webs 4–10 mm, legs 4–8 mm; `studies/referee/4-arm.toml`: rms 6 %, worst 15 %) and, as fitted, in 400 first passes of random
/// members by the strip model (median 3.5 %). One part of 0.57 for both left 8 and 23 %: a thin web under a large fillet is heated through
/// and pulls farther out, a thick one holds the pull nearer to its plane.
const ARM_OF_WEB: f64 = 0.50;
/// Part of the distance from the web's face to the fillet's centroid (own calculation, fitted together with the first).
const ARM_OF_FILLET: f64 = 0.73;

/// Sideways moment left after equal fillets on both sides, over that of the first, against the time between
/// them divided by t* (see [`second_side::cooling_time_s`](super::second_side::cooling_time_s)); − is toward the second.
/// Medians of 441 own strip calculations (flanges 8–25 mm, webs 5–10 mm, 0.8–1.8 kJ/mm, 3–1300 s); a tenth lie more than
/// 0.2 to either side. A bar calculation that put the heat farther out had −0.12 to −0.20 left when cold.
const LEFT_AFTER_SECOND: LinearTable<10> = LinearTable([
    (0.0, 0.0),
    (0.07, -0.14),
    (0.15, -0.27),
    (0.3, -0.48),
    (0.55, -0.66),
    (1.0, -0.75),
    (2.0, -0.57),
    (4.0, -0.30),
    (8.0, -0.12),
    (16.0, -0.03),
]);

/// Arm of a lone fillet of leg z, mm, without sign: 0.50·t_w/2 + 0.73·z/3.
///
/// The web's share of the force pulls in the web plane, the flange's beside it.
/// 5 mm web, 6 mm leg: 1.25 + 1.46 = 2.71 mm.
/// ```
/// assert!((weldbow_engine::shrinkage::lateral_arm::arm_mm(5.0, 6.0) - 2.71).abs() < 1e-12);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn arm_mm<N: Number>(web_mm: N, leg_mm: N) -> N {
    web_mm * (ARM_OF_WEB * 0.5) + leg_mm * (ARM_OF_FILLET / 3.0)
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

/// Part of the first side's moment left by an equal second side laid `lag` (time over t*) later.
///
/// ```
/// use weldbow_engine::shrinkage::lateral_arm::left_after_second;
/// // 2·t* later the median is −0.57; at once nothing is left
/// assert!((left_after_second(2.0) + 0.57).abs() < 1e-12 && left_after_second(0.0).abs() < 1e-12);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn left_after_second<N: Number>(lag: N) -> N {
    lag.each(|lag| LEFT_AFTER_SECOND.at(lag))
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
    Constant::new(
        "part of half the web in the lever arm sideways",
        "shrinkage::lateral_arm::ARM_OF_WEB",
        ARM_OF_WEB,
        "",
        "studies/referee/4-arm.toml: 48 solved joints; strip model, 400 first passes",
        Trust::OwnCalculation,
    )
    .within("flanges 8–20 mm, webs 4–10 mm, legs 4–8 mm")
    .moved_by("arm", 0.20),
    Constant::new(
        "part of the way from the web's face to the fillet's centroid in it",
        "shrinkage::lateral_arm::ARM_OF_FILLET",
        ARM_OF_FILLET,
        "",
        "the same joints and passes",
        Trust::OwnCalculation,
    )
    .moved_by("arm", 0.20),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_sides_at_once_cancel_and_a_cold_second_side_overshoots() {
        assert!(combined_moment(100.0, -100.0, left_after_second(0.0)).abs() < 1e-9);
        let cold = combined_moment(100.0, -100.0, left_after_second(f64::INFINITY));
        assert!((cold + 3.0).abs() < 1e-9, "{cold}");
    }

    #[test]
    fn a_vanishing_second_side_leaves_the_first_alone() {
        let left = combined_moment(100.0, -1e-6, left_after_second(f64::INFINITY));
        assert!((left - 100.0).abs() < 1e-5, "{left}");
        assert!((combined_moment(0.0, 40.0, 0.0) - 40.0).abs() < 1e-12);
    }
}
