//! The standard normal distribution, both ways, without infinities.

use statrs::function::erf::{erfc, erfc_inv};
use std::f64::consts::{FRAC_2_SQRT_PI, SQRT_2};

/// Smallest probability that is told from 0; the largest below 1 is 1 − [`CLOSEST_TO_ONE`].
const LEAST: f64 = 1e-300;
/// Gap between 1 and the number before it.
const CLOSEST_TO_ONE: f64 = f64::EPSILON / 2.0;

/// u moved into the open interval 0…1, so that no score is infinite. NaN becomes 0.5.
pub(super) fn inside(u: f64) -> f64 {
    if u.is_nan() { 0.5 } else { u.clamp(LEAST, 1.0 - CLOSEST_TO_ONE) }
}

/// Probability Φ(z) below z, with a small relative error in the lower tail too.
pub(super) fn below(z: f64) -> f64 {
    if z > 0.0 { 1.0 - tail(z) } else { tail(-z) }
}

/// Probability beyond z ≥ 0. The library's erfc is off by up to 1e-10, its inverse only by rounding: one Newton step
/// back through the inverse removes the difference.
fn tail(z: f64) -> f64 {
    let x = z / SQRT_2;
    let rough = erfc(x);
    if rough < 2.0 * LEAST {
        return 0.5 * rough;
    }
    0.5 * (rough - FRAC_2_SQRT_PI * (-x * x).exp() * (x - erfc_inv(rough)))
}

/// The z that has probability u below it.
pub(super) fn score(u: f64) -> f64 {
    -SQRT_2 * erfc_inv(2.0 * inside(u))
}

/// Chance that a normal number leaves ±limit: what counted cases of a linear model must come to.
#[cfg(test)]
pub(super) fn chance_beyond(limit: f64, mean: f64, sd: f64) -> f64 {
    below((mean - limit) / sd) + below((-limit - mean) / sd)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rounding of the probability near 1 costs the score eps/φ(z).
    #[test]
    fn score_and_probability_undo_each_other() {
        let worst = (-370..=80)
            .map(|i| f64::from(i) / 10.0)
            .map(|z| {
                let density = (-0.5 * z * z).exp() / (2.0 * std::f64::consts::PI).sqrt();
                let rounding = if z > 0.0 { 4.0 * f64::EPSILON / density } else { 0.0 };
                (score(below(z)) - z).abs() / (1e-13 * (1.0 + z.abs()) + rounding)
            })
            .fold(0.0_f64, f64::max);
        assert!(worst < 1.0, "worst gap {worst} of what rounding allows");
    }

    #[test]
    fn ends_have_finite_scores() {
        for u in [0.0, 1.0, -3.0, 7.0, f64::NAN, f64::INFINITY] {
            assert!(score(u).is_finite(), "{u}: {}", score(u));
        }
    }
}
