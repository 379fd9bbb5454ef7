//! Okerblom's force, found again from the temperature field: nothing here uses the closed forms it is compared with.

use crate::cases::{all_checked, check};
use serde::Deserialize;
use std::f64::consts::PI;
use weldbow::shrinkage::prior_stress::factor;
use weldbow::shrinkage::tendon::{okerblom, thick_plate};

const SHEET: &str = "okerblom";
/// The constants that `tendon` states for its closed forms.
const ALPHA_E_OVER_RHO_C: f64 = 12e-6 * 206_000.0 / 4.5e-3;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    prior: Option<f64>,
}

/// Where the heat of the weld flows. Rises in units of Q/(ρc·Σt) or Q/ρc, diffusivity 1.
#[derive(Clone, Copy)]
enum Body {
    Plates,
    HalfSpace,
}

impl Body {
    /// Temperature rise at a distance, a time after the whole line was heated at once.
    fn rise(self, distance: f64, time: f64) -> f64 {
        let cooled = (-distance * distance / (4.0 * time)).exp();
        match self {
            Self::Plates => 2.0 / (4.0 * PI * time).sqrt() * cooled,
            Self::HalfSpace => 1.0 / (2.0 * PI * time) * cooled,
        }
    }

    /// Highest rise there at any time, by golden section over the logarithm of time.
    fn peak(self, distance: f64) -> f64 {
        let ratio = (5.0_f64.sqrt() - 1.0) / 2.0;
        let at = |log_time: f64| self.rise(distance, log_time.exp());
        let middle = 2.0 * distance.ln();
        let (mut low, mut high) = (middle - 5.0, middle + 5.0);
        for _ in 0..60 {
            let (a, b) = (high - ratio * (high - low), low + ratio * (high - low));
            if at(a) < at(b) { low = a } else { high = b }
        }
        at(0.5 * (low + high))
    }

    /// Distance at which the peak rise is this.
    fn reach(self, rise: f64) -> f64 {
        let (mut near, mut far) = (1e-9, 1e9);
        for _ in 0..200 {
            let middle = f64::sqrt(near * far);
            if self.peak(middle) > rise { near = middle } else { far = middle }
        }
        f64::sqrt(near * far)
    }

    /// Metal at a distance, per length of weld and step of distance, over Σt or 1.
    fn metal(self, distance: f64) -> f64 {
        match self {
            Self::Plates => 1.0,
            Self::HalfSpace => PI * distance,
        }
    }

    /// Plastic shortening left over the section, in units of α·Q/ρc: each bar squeezed while hot, stretched back while
    /// cold, no strain hardening. Yield strain 1 (in rise), prior stress relative to yield.
    fn plastic(self, prior: f64, intervals: u32) -> f64 {
        let left = |y: f64| (self.peak(y) - (1.0 + prior)).clamp(0.0, 1.0 - prior);
        let integrand = |y: f64| left(y) * self.metal(y);
        let (inner, outer) = (self.reach(2.0), self.reach(1.0 + prior));
        simpson(integrand, 0.0, inner, intervals) + simpson(integrand, inner, outer, intervals)
    }
}

fn simpson(f: impl Fn(f64) -> f64, from: f64, to: f64, intervals: u32) -> f64 {
    let h = (to - from) / f64::from(intervals);
    // the weld line itself is infinitely hot, and capped like all that is near it
    let at = |i: u32| f((from + f64::from(i) * h).max(1e-12 * to));
    let pair = |i: u32| at(2 * i) + 4.0 * at(2 * i + 1) + at(2 * i + 2);
    (0..intervals / 2).map(pair).sum::<f64>() * h / 3.0
}

const FINE: u32 = 256;

#[test]
fn peak_rises_beside_a_line_source_are_the_recalled_ones() {
    check(SHEET, "peak rise beside a line source, plates", |_: &Given| Body::Plates.peak(1.0));
    check(SHEET, "peak rise beside a line source, half space", |_: &Given| Body::HalfSpace.peak(1.0));
}

#[test]
fn the_plastic_strain_left_beside_a_weld_adds_up_to_the_force() {
    check(SHEET, "force, plates", |_: &Given| Body::Plates.plastic(0.0, FINE));
    check(SHEET, "force, half space", |_: &Given| Body::HalfSpace.plastic(0.0, FINE));
    check(SHEET, "force, plates", |_: &Given| okerblom(1.0) / ALPHA_E_OVER_RHO_C);
    check(SHEET, "force, half space", |_: &Given| thick_plate(1.0) / ALPHA_E_OVER_RHO_C);
    check(SHEET, "force per heat, plates", |_: &Given| okerblom(1.0));
    check(SHEET, "force per heat, half space", |_: &Given| thick_plate(1.0));
    for (body, closed) in [(Body::Plates, okerblom(1.0)), (Body::HalfSpace, thick_plate(1.0))] {
        let integrated = ALPHA_E_OVER_RHO_C * body.plastic(0.0, FINE);
        assert!((integrated / closed - 1.0).abs() < 1e-7, "integrated {integrated}, closed form {closed}");
    }
}

#[test]
fn a_prior_stress_scales_the_force_as_the_field_says() {
    const QUANTITY: &str = "factor of a prior stress";
    check(SHEET, QUANTITY, |g: &Given| factor(g.prior.unwrap()));
    for prior in [-0.5, -0.25, 0.0, 0.25, 0.5, 0.75] {
        for body in [Body::Plates, Body::HalfSpace] {
            let integrated = body.plastic(prior, FINE) / body.plastic(0.0, FINE);
            let rule = factor(prior);
            assert!((integrated - rule).abs() < 1e-6, "prior {prior}: integrated {integrated}, rule {rule}");
        }
    }
}

#[test]
fn halving_the_intervals_divides_the_error_by_sixteen() {
    for (name, body) in [("plates", Body::Plates), ("half space", Body::HalfSpace)] {
        let [u1, u2, u3] = [8, 16, 32].map(|n| body.plastic(0.0, n));
        let order = ((u1 - u2) / (u2 - u3)).abs().log2();
        let left = (u3 / body.plastic(0.0, FINE) - 1.0).abs();
        println!("{name}: order {order:.3}, relative error with 32 intervals {left:.1e}");
        assert!((order - 4.0).abs() < 0.2, "{name}: {u1} {u2} {u3}: order {order:.3}, error left {left:.1e}");
    }
}

#[test]
fn every_row_of_the_sheet_is_compared() {
    let checked = [
        "peak rise beside a line source, plates",
        "peak rise beside a line source, half space",
        "force, plates",
        "force, half space",
        "force per heat, plates",
        "force per heat, half space",
        "factor of a prior stress",
    ];
    all_checked::<Given>(SHEET, &checked);
}
