//! How far from the web plane a fillet pulls.

use crate::numerics::Table;
use crate::sources::{Constant, Trust};

/// The part of the distance from web plane to the fillet's centroid at which it pulls. Own calculation, computed: joints of
/// flanges 8–20 mm, webs 4–10 mm and legs 4–8 mm solved from first principles have 0.58 ± 0.05, whatever the flange
/// (`studies/referee/4-arm.toml`), whole members by the strip level 0.57. A bar calculation with the heat put at
/// (t_w + z)/2 gave arms a third longer, 0.83·2t_f/(2t_f + t_w)·(t_w + z)/2; heat spreading into the web was not in it.
pub const ARM_SHARE: f64 = 0.57;

/// Sideways moment left after equal fillets on both sides, over that of the first, against the time between
/// them divided by t* (see [`second_side::cooling_time_s`](super::second_side::cooling_time_s)); − is toward the second.
/// Medians of 441 own strip calculations (flanges 8–25 mm, webs 5–10 mm, 0.8–1.8 kJ/mm, 3–1300 s); a tenth lie more than
/// 0.2 to either side. A bar calculation that put the heat farther out had −0.12 to −0.20 left when cold.
const LEFT_AFTER_SECOND: Table<10> = Table([
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

/// Arm of a lone fillet of leg z, mm, without sign: 0.57·(t_w/2 + z/3).
///
/// The web's share of the force pulls in the web plane, the flange's beside it.
/// 5 mm web, 6 mm leg: 0.57 · 4.5 = 2.57 mm.
/// ```
/// assert!((weldbow_engine::shrinkage::lateral_arm::arm_mm(5.0, 6.0) - 2.565).abs() < 1e-12);
/// ```
pub fn arm_mm(web_mm: f64, leg_mm: f64) -> f64 {
    ARM_SHARE * centroid_mm(web_mm, leg_mm)
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
pub fn left_after_second(lag: f64) -> f64 {
    LEFT_AFTER_SECOND.at(lag)
}

/// Sideways moment of a joint, N·mm, from the moment `first` of one side and `second` of the other (both with
/// their own signs, normally opposite); `left` is [`left_after_second`] at the lag between them.
///
/// A second side as strong as the first leaves that part of it: re-heating takes away part of the first tendon before
/// adding its own. A weaker second side takes away less in proportion.
#[inline]
pub fn combined_moment(first: f64, second: f64, left: f64) -> f64 {
    (first.abs() + left * second.abs()).max(0.0).copysign(first) + second
}

/// Records of the constants above.
pub const CONSTANTS: &[Constant] = &[Constant::new(
    "part of the distance to the centroid of the fillet at which it pulls",
    "shrinkage::lateral_arm::ARM_SHARE",
    ARM_SHARE,
    "",
    "studies/referee/4-arm.toml: solved joints 0.58 ± 0.05",
    Trust::OwnCalculation,
)
.within("flanges 8–20 mm, webs 4–10 mm, legs 4–8 mm")
.moved_by("arm", 0.20)];

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
