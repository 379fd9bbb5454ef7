//! Mean and standard deviation of a distribution between two ends.

use super::distribution::{Distribution, log_sd};
use crate::numerics::GAUSS_2;

/// Panels of the integration of a cut bell curve; the error falls with their fourth power.
const PANELS: usize = 1000;
/// Standard deviations after which a bell curve is left off: the density is 3e-18 of its highest.
const REACH: f64 = 9.0;

/// Mean and standard deviation between the ends.
pub(super) fn mean_and_sd(shape: &Distribution, (low, high): (f64, f64)) -> (f64, f64) {
    let (least, greatest) = shape.ends();
    if low <= least && high >= greatest {
        return (shape.mean(), shape.sd());
    }
    match *shape {
        Distribution::Uniform { .. } => of_slices(&[slice((low, 1.0), (high, 1.0))]),
        Distribution::Triangular { low: from, mode, high: to } => {
            let top = mode.clamp(low, high);
            let rising = |x: f64| if mode > from { (x - from) / (mode - from) } else { 1.0 };
            let falling = |x: f64| if to > mode { (to - x) / (to - mode) } else { 1.0 };
            of_slices(&[
                slice((low, rising(low)), (top, rising(top))),
                slice((top, falling(top)), (high, falling(high))),
            ])
        }
        Distribution::Normal { mean, sd } => {
            let (m, s) = of_bell((low - mean) / sd, (high - mean) / sd, 0.0, |z| z, PANELS);
            (mean + sd * m, sd * s)
        }
        Distribution::Lognormal { median, cov } => {
            let sigma = log_sd(cov);
            let score = |x: f64| (x.max(0.0) / median).ln() / sigma;
            let (m, s) = of_bell(score(low), score(high), 2.0 * sigma, |z| (sigma * z).exp(), PANELS);
            (median * m, median * s)
        }
    }
}

/// Weight, mean and variance of a slice under a straight density, given at both ends.
fn slice((x0, f0): (f64, f64), (x1, f1): (f64, f64)) -> (f64, f64, f64) {
    let (wide, sum) = (x1 - x0, f0 + f1);
    if sum <= 0.0 || wide <= 0.0 {
        return (0.0, x0, 0.0);
    }
    let mean = x0 + wide * (f0 + 2.0 * f1) / (3.0 * sum);
    (0.5 * wide * sum, mean, wide * wide * (sum * sum + 2.0 * f0 * f1) / (18.0 * sum * sum))
}

fn of_slices(slices: &[(f64, f64, f64)]) -> (f64, f64) {
    let weight: f64 = slices.iter().map(|s| s.0).sum();
    let mean = slices.iter().map(|s| s.0 * s.1).sum::<f64>() / weight;
    let variance = slices.iter().map(|s| s.0 * (s.2 + (s.1 - mean).powi(2))).sum::<f64>() / weight;
    (mean, variance.sqrt())
}

/// Mean and standard deviation of value(z), z standard normal between a and b. `lean` is how far the square of the
/// value shifts the bell upward.
fn of_bell(a: f64, b: f64, lean: f64, value: impl Fn(f64) -> f64, panels: usize) -> (f64, f64) {
    let nearest = 0.0_f64.clamp(a, b);
    let (a, b) = (a.max(nearest - REACH), b.min(nearest + REACH + lean));
    let wide = (b - a) / panels as f64;
    let integral = |of: &dyn Fn(f64) -> f64| -> f64 {
        (0..panels)
            .flat_map(|panel| GAUSS_2.map(|(place, weight)| (a + wide * (panel as f64 + place), weight)))
            .map(|(z, weight)| weight * (0.5 * (nearest * nearest - z * z)).exp() * of(z))
            .sum()
    };
    let whole = integral(&|_| 1.0);
    let mean = integral(&value) / whole;
    let variance = integral(&|z| (value(z) - mean).powi(2)) / whole;
    (mean, variance.sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scatter::normal::below;

    fn density(z: f64) -> f64 {
        (-0.5 * z * z).exp() / (2.0 * std::f64::consts::PI).sqrt()
    }

    /// Johnson, Kotz, Balakrishnan, Continuous Univariate Distributions 1 (1994), 13.10.1 (memory).
    fn cut_normal(a: f64, b: f64) -> (f64, f64) {
        let left = below(b) - below(a);
        let mean = (density(a) - density(b)) / left;
        (mean, (1.0 + (a * density(a) - b * density(b)) / left - mean * mean).sqrt())
    }

    #[test]
    fn a_cut_normal_meets_its_closed_form_at_the_fourth_order() {
        for (a, b) in [(-1.0, 1.0), (-0.3, 2.5), (1.0, 4.0), (-8.0, 0.5)] {
            let want = cut_normal(a, b);
            let gaps = [5, 10, 20].map(|panels| (of_bell(a, b, 0.0, |z| z, panels).1 - want.1).abs());
            let order = (gaps[1] / gaps[2]).log2();
            let got = of_bell(a, b, 0.0, |z| z, PANELS);
            assert!((3.5..5.5).contains(&order), "{a}…{b}: {gaps:?}, order {order}");
            let last = [(got.0 / want.0 - 1.0).abs(), (got.1 / want.1 - 1.0).abs()];
            assert!((a + b).abs() < 1e-9 || last[0] < 1e-10, "{a}…{b}: {got:?} against {want:?}");
            assert!(last[1] < 1e-10, "{a}…{b}: {got:?} against {want:?}");
        }
    }

    /// E[xᵏ | a < z < b] = medianᵏ·exp(k²s²/2)·[Φ(b − ks) − Φ(a − ks)]/[Φ(b) − Φ(a)].
    #[test]
    fn a_cut_lognormal_meets_its_closed_form() {
        for (cov, low, high) in [(0.15, 0.9, 1.4), (0.6, 0.2, 9.0), (2.0, 0.5, f64::INFINITY)] {
            let s = log_sd(cov);
            let (a, b) = (f64::ln(low) / s, f64::ln(high) / s);
            let moment = |k: f64| {
                (0.5 * k * k * s * s).exp() * (below(b - k * s) - below(a - k * s)) / (below(b) - below(a))
            };
            let want = (moment(1.0), (moment(2.0) - moment(1.0).powi(2)).sqrt());
            let got = mean_and_sd(&Distribution::Lognormal { median: 1.0, cov }, (low, high));
            assert!((got.0 / want.0 - 1.0).abs() < 1e-9, "{cov}: {got:?} against {want:?}");
            assert!((got.1 / want.1 - 1.0).abs() < 1e-9, "{cov}: {got:?} against {want:?}");
        }
    }

    #[test]
    fn between_close_cuts_any_shape_is_a_strip() {
        let strip = 1e-6 / 12.0_f64.sqrt();
        for shape in [
            Distribution::Normal { mean: 0.0, sd: 1.0 },
            Distribution::Lognormal { median: 1.0, cov: 0.5 },
            Distribution::Uniform { low: 0.0, high: 2.0 },
            Distribution::Triangular { low: 0.0, mode: 0.4, high: 2.0 },
        ] {
            let (mean, sd) = mean_and_sd(&shape, (0.7, 0.7 + 1e-6));
            assert!((mean - 0.7 - 0.5e-6).abs() < 1e-11, "{shape:?}: {mean}");
            assert!((sd / strip - 1.0).abs() < 1e-8, "{shape:?}: {sd} against {strip}");
        }
    }

    #[test]
    fn a_triangle_cut_at_its_ends_is_the_same_triangle() {
        let shape = Distribution::Triangular { low: 1.0, mode: 2.0, high: 5.0 };
        let slices = of_slices(&[slice((1.0, 0.0), (2.0, 1.0)), slice((2.0, 1.0), (5.0, 0.0))]);
        assert!((slices.0 - shape.mean()).abs() < 1e-14, "{slices:?} against {}", shape.mean());
        assert!((slices.1 - shape.sd()).abs() < 1e-14, "{slices:?} against {}", shape.sd());
    }
}
