//! Cup, tilt and toe offsets of a flange from the fillets on its two sides.
//!
//! A fillet on one side folds the flange at its own strip (its half rises by φ) and turns the whole flange about
//! the joint by ρ. With slopes ψ of the halves: cup = (ψ_near + ψ_far)/2, tilt = (ψ_near − ψ_far)/2.
//!
//! * one side: cup φ/2, tilt φ/2 + ρ, where the sum is [`one_sided_tilt_rad`];
//! * both, one after the other: cup (φ₁ + φ₂)/2; the second side takes the tilt away and overshoots a little;
//! * both at once: [`cup_at_once_rad`], no tilt.
//!
//! Between the last two, by lag: the first side must cool below about 500 °C before the second folds on its own.

use super::fold::{cup_at_once_rad, fold_rad, sigma};

/// Tilt of a one-sided joint per web thickness, rad/mm: 12 mrad at 8 mm (own section calculation with a tacked
/// far corner; 5/8/12 mm give 6.6/12/16.6 mrad). Does not follow q; depends on tacks and clamps: the sections solved here,
/// nothing tacked (`studies/referee/6-tilt.toml`), turn 1.5 times as much, 13/22/18 mrad. A choice for members that are tacked.
pub const TILT_PER_WEB_RAD_PER_MM: f64 = 0.0015;
/// Range outside which no calculation gave a one-sided tilt, rad.
pub const TILT_RANGE_RAD: (f64, f64) = (0.004, 0.020);
/// Tilt left after both sides in turn, toward the side welded second, rad. Choice; computed −8 … +3 mrad.
pub const TILT_LEFT_RAD: f64 = 0.005;
/// Standard deviation of what is left, rad: even its sign is not sure.
pub const TILT_LEFT_SIGMA_RAD: f64 = 0.004;
/// Relative standard deviation of a one-sided tilt (judgement; a moving-arc calculation gives 1.3–2.6 times more
/// when nothing is tacked).
pub const TILT_SIGMA: f64 = 0.60;
/// Lag, in units of t* of the longitudinal rule, at which the cup is half-way from "at once" to "in turn".
/// Fitted to two computed delays (15 s and 60 s after the first arc).
pub const CUP_LAG: f64 = 0.07;

/// One fillet as the flange sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fillet {
    /// Heat parameter, J/mm³.
    pub q_j_per_mm3: f64,
    /// Leg, mm.
    pub leg_mm: f64,
    /// Welded fraction.
    pub welded_fraction: f64,
}

/// The joint at one station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JointFillets {
    /// Strongest fillet on the near side.
    pub near: Option<Fillet>,
    /// Strongest fillet on the far side.
    pub far: Option<Fillet>,
    /// Whether the near side was laid first (of no matter when one side is missing or both came at once).
    pub near_first: bool,
    /// Time between the sides over t*; infinite when cold.
    pub lag: f64,
}

/// Angles of a flange with one standard deviation each.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Angles {
    /// Mean rise of the halves, rad.
    pub cup_rad: f64,
    /// Half the difference, + when the near half is higher, rad.
    pub tilt_rad: f64,
    /// Standard deviation of the cup, rad.
    pub cup_sigma_rad: f64,
    /// Standard deviation of the tilt, rad.
    pub tilt_sigma_rad: f64,
}

impl Angles {
    /// Cup and tilt multiplied, each with its deviation.
    #[must_use]
    pub fn times(self, cup: f64, tilt: f64) -> Self {
        Self {
            cup_rad: cup * self.cup_rad,
            tilt_rad: tilt * self.tilt_rad,
            cup_sigma_rad: cup * self.cup_sigma_rad,
            tilt_sigma_rad: tilt * self.tilt_sigma_rad,
        }
    }
}

/// Tilt of a joint welded on one side only, rad, toward that side.
pub fn one_sided_tilt_rad(web_mm: f64) -> f64 {
    (TILT_PER_WEB_RAD_PER_MM * web_mm).clamp(TILT_RANGE_RAD.0, TILT_RANGE_RAD.1)
}

/// Cup and tilt of a free flange on a web of `web_mm`.
pub fn angles(joint: &JointFillets, web_mm: f64, yield_mpa: f64) -> Angles {
    let fold = |f: Fillet| fold_rad(f.q_j_per_mm3, yield_mpa) * f.welded_fraction;
    match (joint.near, joint.far) {
        (None, None) => Angles::default(),
        (Some(one), None) | (None, Some(one)) => {
            let sign = if joint.near.is_some() { 1.0 } else { -1.0 };
            let cup = fold(one) / 2.0;
            let tilt = one_sided_tilt_rad(web_mm) * one.welded_fraction;
            Angles {
                cup_rad: cup,
                tilt_rad: sign * tilt,
                cup_sigma_rad: sigma(one.q_j_per_mm3) * cup,
                tilt_sigma_rad: TILT_SIGMA * tilt,
            }
        }
        (Some(near), Some(far)) => {
            let own_way = if joint.lag.is_finite() { joint.lag / (joint.lag + CUP_LAG) } else { 1.0 };
            let q = 0.5 * (near.q_j_per_mm3 + far.q_j_per_mm3);
            let welded = 0.5 * (near.welded_fraction + far.welded_fraction);
            let (near_fold, far_fold) = (fold(near), fold(far));
            let in_turn = 0.5 * (near_fold + far_fold);
            let cup = own_way * in_turn + (1.0 - own_way) * cup_at_once_rad(q) * welded;
            let toward_second = if joint.near_first { -TILT_LEFT_RAD } else { TILT_LEFT_RAD };
            let unequal = 0.5 * (near_fold - far_fold);
            Angles {
                cup_rad: cup,
                tilt_rad: own_way * (unequal + toward_second * welded),
                cup_sigma_rad: sigma(q) * cup,
                tilt_sigma_rad: TILT_LEFT_SIGMA_RAD.hypot(sigma(q) * unequal) * welded,
            }
        }
    }
}

/// Offsets of the near and far flange edge from the square line, mm, + toward the web.
///
/// The fold hinges at the weld, x_f = t_w/2 + z/2 from the web plane, so its lever is b/2 − x_f; the rest of the
/// tilt turns the whole half width.
pub fn toes_mm(angles: &Angles, joint: &JointFillets, width_mm: f64, web_mm: f64) -> (f64, f64) {
    let half = width_mm / 2.0;
    let hinge = |f: Option<Fillet>| f.map_or(0.0, |f| web_mm / 2.0 + f.leg_mm / 2.0);
    let (near_hinge, far_hinge) = (hinge(joint.near), hinge(joint.far));
    let (near_fold, far_fold) = match (joint.near, joint.far) {
        (Some(_), None) => (2.0 * angles.cup_rad, 0.0),
        (None, Some(_)) => (0.0, 2.0 * angles.cup_rad),
        _ => (angles.cup_rad, angles.cup_rad),
    };
    let turn = angles.tilt_rad - 0.5 * (near_fold - far_fold);
    let near = near_fold * (half - near_hinge).max(0.0) + turn * half;
    let far = far_fold * (half - far_hinge).max(0.0) - turn * half;
    (near, far)
}

#[cfg(test)]
mod tests {
    use super::*;

    const FILLET: Fillet = Fillet { q_j_per_mm3: 6.25, leg_mm: 6.0, welded_fraction: 1.0 };

    fn joint(near: bool, far: bool, lag: f64) -> JointFillets {
        JointFillets { near: near.then_some(FILLET), far: far.then_some(FILLET), near_first: true, lag }
    }

    #[test]
    fn one_side_lifts_its_own_toe_and_leaves_the_other_nearly_square() {
        let one = joint(true, false, f64::INFINITY);
        let (near, far) = toes_mm(&angles(&one, 8.0, 355.0), &one, 200.0, 8.0);
        assert!(near > 1.8 && near < 2.5, "near toe {near:.2} mm");
        assert!(far.abs() < 0.3, "far toe {far:.2} mm");
    }

    #[test]
    fn a_far_side_weld_is_the_mirror_image() {
        let (near_one, far_one) = (joint(true, false, 0.0), joint(false, true, 0.0));
        let (a, b) = (angles(&near_one, 8.0, 355.0), angles(&far_one, 8.0, 355.0));
        assert!((a.cup_rad - b.cup_rad).abs() < 1e-15 && (a.tilt_rad + b.tilt_rad).abs() < 1e-15);
        let (near, far) = toes_mm(&a, &near_one, 200.0, 8.0);
        let (mirrored_near, mirrored_far) = toes_mm(&b, &far_one, 200.0, 8.0);
        assert!((near - mirrored_far).abs() < 1e-12 && (far - mirrored_near).abs() < 1e-12);
    }

    #[test]
    fn the_second_side_doubles_the_cup_and_takes_the_tilt_away() {
        let one = angles(&joint(true, false, f64::INFINITY), 8.0, 355.0);
        let both = angles(&joint(true, true, f64::INFINITY), 8.0, 355.0);
        assert!((both.cup_rad / one.cup_rad - 2.0).abs() < 1e-9);
        assert!(both.tilt_rad < 0.0 && both.tilt_rad.abs() < one.tilt_rad, "{both:?}");
    }

    #[test]
    fn both_at_once_cup_less_and_do_not_tilt() {
        let at_once = angles(&joint(true, true, 0.0), 8.0, 355.0);
        let in_turn = angles(&joint(true, true, f64::INFINITY), 8.0, 355.0);
        assert!(at_once.cup_rad < 0.6 * in_turn.cup_rad);
        assert!(at_once.tilt_rad.abs() < 1e-15);
    }
}
