//! A distribution with its ends cut off: what a number can be.

use super::distribution::{Distribution, Tail};
use super::fault::{LEAST_LEFT, SpreadFault};
use super::{moments, normal};

/// A distribution, with what lies outside `low` … `high` cut off and the rest scaled up to probability 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    distribution: Distribution,
    pub(super) low: Option<f64>,
    pub(super) high: Option<f64>,
}

impl Spread {
    /// A spread whose parameters make sense.
    ///
    /// ```
    /// use weldbow_engine::scatter::{Distribution, Spread, SpreadFault};
    /// let leg = Spread::new(Distribution::Normal { mean: 6.0, sd: 0.5 }, Some(5.0), None)?;
    /// assert!(leg.quantile(1e-9) >= 5.0);
    /// let fault = Spread::new(Distribution::Normal { mean: 6.0, sd: -0.5 }, None, None);
    /// assert_eq!(fault, Err(SpreadFault::SdNotPositive { found: -0.5 }));
    /// # Ok::<(), SpreadFault>(())
    /// ```
    ///
    /// # Errors
    /// Parameters that are not finite or out of order, and cuts that leave less than `LEAST_LEFT`.
    pub fn new(distribution: Distribution, low: Option<f64>, high: Option<f64>) -> Result<Self, SpreadFault> {
        if let Some(fault) = distribution.fault() {
            return Err(fault);
        }
        for (what, cut) in [("lower limit", low), ("upper limit", high)] {
            if let Some(found) = cut.filter(|x| !x.is_finite()) {
                return Err(SpreadFault::NotFinite { what, found });
            }
        }
        if let (Some(low), Some(high)) = (low, high)
            && low >= high
        {
            return Err(SpreadFault::CutsCrossed { low, high });
        }
        let spread = Self { distribution, low, high };
        let (low, high) = spread.ends();
        let left = spread.left();
        if left >= LEAST_LEFT { Ok(spread) } else { Err(SpreadFault::NothingLeft { low, high, left }) }
    }

    /// A spread known to be sound when it is written down; a test takes each through [`Spread::new`].
    pub(crate) const fn uncut(distribution: Distribution) -> Self {
        Self { distribution, low: None, high: None }
    }

    /// Shape before the cuts.
    pub const fn distribution(&self) -> Distribution {
        self.distribution
    }

    /// Least and greatest possible value; infinite where there is none.
    pub fn ends(&self) -> (f64, f64) {
        let (low, high) = self.distribution.ends();
        (self.low.map_or(low, |cut| cut.max(low)), self.high.map_or(high, |cut| cut.min(high)))
    }

    /// From where probability is counted: from above where the lower end lies in the upper half.
    fn tail(&self) -> Tail {
        let low = self.distribution.part(Tail::Below, self.ends().0);
        if low > 0.5 { Tail::Above } else { Tail::Below }
    }

    /// Probability of the uncut distribution between its lower end and x.
    fn up_to(&self, x: f64) -> f64 {
        let part = |x| self.distribution.part(self.tail(), x);
        let (from, to) = (part(self.ends().0), part(x));
        if self.tail() == Tail::Above { from - to } else { to - from }
    }

    /// Probability of the uncut distribution between the ends.
    fn left(&self) -> f64 {
        let (low, high) = self.ends();
        if low >= high { 0.0 } else { self.up_to(high) }
    }

    /// The value that is exceeded with probability 1 − u. u is moved into the open interval 0…1, so that the value
    /// is always finite; it grows with u.
    ///
    /// ```
    /// use weldbow_engine::scatter::{Distribution, Spread};
    /// let spread = Spread::new(Distribution::Normal { mean: 10.0, sd: 2.0 }, None, None)?;
    /// assert!((spread.quantile(0.975) - (10.0 + 2.0 * 1.959964)).abs() < 1e-6);
    /// # Ok::<(), weldbow_engine::scatter::SpreadFault>(())
    /// ```
    pub fn quantile(&self, u: f64) -> f64 {
        let mut u = [u];
        self.quantiles(&mut u);
        u[0]
    }

    /// The same of many probabilities, each in its place.
    pub(crate) fn quantiles(&self, u: &mut [f64]) {
        let (low, high) = self.ends();
        let shape = &self.distribution;
        let (tail, from, to) = if (self.low, self.high) == (None, None) {
            (Tail::Below, 0.0, 1.0)
        } else {
            let tail = self.tail();
            (tail, shape.part(tail, low), shape.part(tail, high))
        };
        u.iter_mut().for_each(|u| *u = from + normal::inside(*u) * (to - from));
        shape.values(tail, u);
        u.iter_mut().for_each(|value| *value = value.clamp(low, high).clamp(f64::MIN, f64::MAX));
    }

    /// Probability of a value of at most x.
    pub fn cdf(&self, x: f64) -> f64 {
        let (low, high) = self.ends();
        if x <= low {
            return 0.0;
        }
        if x >= high {
            return 1.0;
        }
        (self.up_to(x) / self.left()).clamp(0.0, 1.0)
    }

    /// Mean; see [`Spread::sd`].
    pub fn mean(&self) -> f64 {
        moments::mean_and_sd(&self.distribution, self.ends()).0
    }

    /// Standard deviation: closed forms, except for a cut normal or lognormal shape, which is integrated with a
    /// relative error below 1e-9 (the closed forms of these lose all digits between close cuts).
    pub fn sd(&self) -> f64 {
        moments::mean_and_sd(&self.distribution, self.ends()).1
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scatter::{Running, SamplingMethod, SamplingPlan};
    use Distribution::{Lognormal, Normal, Triangular, Uniform};
    use proptest::prelude::*;
    use proptest::test_runner::RngSeed;

    fn any_shape() -> impl Strategy<Value = Distribution> {
        prop_oneof![
            (-5.0..5.0_f64, 0.01..3.0_f64).prop_map(|(mean, sd)| Normal { mean, sd }),
            (0.1..5.0_f64, 0.01..1.5_f64).prop_map(|(median, cov)| Lognormal { median, cov }),
            (-5.0..5.0_f64, 0.01..9.0_f64).prop_map(|(low, wide)| Uniform { low, high: low + wide }),
            (-5.0..5.0_f64, 0.01..9.0_f64, 0.0..=1.0_f64).prop_map(|(low, wide, at)| Triangular {
                low,
                mode: low + at * wide,
                high: low + wide
            }),
        ]
    }

    /// Any shape, uncut or with one or two cuts; far tails among them.
    fn any_spread() -> impl Strategy<Value = Spread> {
        let cut = || prop_oneof![Just(None), (1e-7..0.9999999_f64).prop_map(Some)];
        (any_shape(), cut(), cut()).prop_filter_map("cuts crossed or too close", |(shape, low, high)| {
            let uncut = Spread::uncut(shape);
            Spread::new(shape, low.map(|u| uncut.quantile(u)), high.map(|u| uncut.quantile(u))).ok()
        })
    }

    /// Rounding of x moves the probability by the density times eps·|x|; a narrow remainder multiplies it.
    fn rounding(spread: &Spread, x: f64) -> f64 {
        let step = 4.0 * f64::EPSILON * (1.0 + x.abs());
        1e-12 + (spread.cdf(x + step) - spread.cdf(x - step)).abs() + 1e-15 / spread.left()
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, rng_seed: RngSeed::Fixed(1927), ..ProptestConfig::default() })]
        #[test]
        fn quantiles_grow_stay_inside_and_lead_back(spread in any_spread(), u in 0.0..1.0_f64, v in 0.0..1.0_f64) {
            let (low, high) = spread.ends();
            let (x, y) = (spread.quantile(u.min(v)), spread.quantile(u.max(v)));
            prop_assert!(x <= y && low <= x && y <= high && x.is_finite() && y.is_finite(), "{spread:?}: {x}, {y}");
            let (back, allowed) = (spread.cdf(x), rounding(&spread, x));
            prop_assert!((back - u.min(v)).abs() <= allowed, "{spread:?}: {u} or {v} gives {x}, back {back}, {allowed} allowed");
        }

        #[test]
        fn drawn_numbers_have_the_stated_mean_and_deviation(spread in any_spread(), seed in any::<u64>()) {
            let plan = SamplingPlan::new(SamplingMethod::Latin, 2000, seed, 1).unwrap();
            let mut running = Running::default();
            for case in 0..2000 {
                let mut u = [0.0];
                plan.point(case, &mut u);
                running.add(spread.quantile(u[0]));
            }
            let (mean, sd) = (spread.mean(), spread.sd());
            // a Latin plan is about ten times nearer to the mean than a random one; the widest lognormal tails govern
            prop_assert!((running.mean().unwrap() - mean).abs() < 0.02 * sd, "{spread:?}: {running:?} against {mean}");
            prop_assert!((running.sd().unwrap() / sd - 1.0).abs() < 0.15, "{spread:?}: {running:?} against {sd}");
        }
    }

    /// Random draws against closed forms, each within 3.5 of its own standard error, as N grows.
    #[test]
    fn random_draws_close_in_on_the_closed_forms() {
        let root = |variance: f64| f64::sqrt(variance);
        let cases = [
            (Normal { mean: 3.0, sd: 2.0 }, None, 3.0, 2.0),
            (Lognormal { median: 2.0, cov: 0.6 }, None, 2.0 * root(1.36), 1.2 * root(1.36)),
            (Uniform { low: -1.0, high: 5.0 }, None, 2.0, root(3.0)),
            (Triangular { low: 0.0, mode: 1.0, high: 5.0 }, None, 2.0, root(21.0 / 18.0)),
            // half normal: mean √(2/π), variance 1 − 2/π
            (
                Normal { mean: 0.0, sd: 1.0 },
                Some(0.0),
                root(std::f64::consts::FRAC_2_PI),
                root(1.0 - std::f64::consts::FRAC_2_PI),
            ),
        ];
        for (shape, low, mean, sd) in cases {
            let spread = Spread::new(shape, low, None).unwrap();
            assert!((spread.mean() - mean).abs() < 1e-9, "{shape:?}: mean {} against {mean}", spread.mean());
            assert!((spread.sd() - sd).abs() < 1e-9, "{shape:?}: deviation {} against {sd}", spread.sd());
            for count in [1000, 10_000] {
                let plan = SamplingPlan::new(SamplingMethod::Random, count, 9, 1).unwrap();
                let (mut x, mut squares) = (Running::default(), Running::default());
                for case in 0..count {
                    let mut u = [0.0];
                    plan.point(case, &mut u);
                    x.add(spread.quantile(u[0]));
                    squares.add((spread.quantile(u[0]) - mean).powi(2));
                }
                for (got, want) in [(x, mean), (squares, sd * sd)] {
                    let (found, error) = (got.mean().unwrap(), got.standard_error().unwrap());
                    assert!(
                        (found - want).abs() < 3.5 * error,
                        "{shape:?}, {count}: {found} ± {error} against {want}"
                    );
                }
            }
        }
    }

    #[test]
    fn numbers_that_describe_no_spread_are_refused_with_what_would_be_right() {
        let fault = |shape, low, high| Spread::new(shape, low, high).unwrap_err().to_string();
        let bell = Normal { mean: 0.0, sd: 1.0 };
        for (message, words) in [
            (
                fault(Normal { mean: f64::NAN, sd: 1.0 }, None, None),
                "the mean is NaN; it must be a finite number",
            ),
            (fault(Normal { mean: 0.0, sd: 0.0 }, None, None), "deviation is 0; it must be above 0"),
            (fault(Lognormal { median: -2.0, cov: 0.1 }, None, None), "spread is -2; it must be above 0"),
            (
                fault(Lognormal { median: 1.0, cov: -0.1 }, None, None),
                "variation is -0.1; it must be above 0",
            ),
            (fault(Lognormal { median: 1.0, cov: 1e200 }, None, None), "make it narrower"),
            (fault(Uniform { low: 2.0, high: 2.0 }, None, None), "low is 2 and high is 2; low must be less"),
            (
                fault(Triangular { low: 0.0, mode: 3.0, high: 2.0 }, None, None),
                "mode is 3; it must lie between low, 0,",
            ),
            (fault(bell, Some(f64::INFINITY), None), "the lower limit is inf"),
            (fault(bell, Some(2.0), Some(1.0)), "below 2 and above 1; the lower limit must be less"),
            (fault(bell, Some(7.0), None), "only 1.3e-12 of the spread is left between 7 and inf"),
            (fault(Uniform { low: 0.0, high: 1.0 }, Some(3.0), None), "only 0.0e0 of the spread"),
        ] {
            assert!(message.contains(words), "{message} lacks {words}");
        }
    }

    #[test]
    fn a_far_upper_tail_is_as_smooth_as_the_lower_one() {
        let bell = Normal { mean: 0.0, sd: 1.0 };
        let (lower, upper) =
            (Spread::new(bell, None, Some(-5.5)).unwrap(), Spread::new(bell, Some(5.5), None).unwrap());
        for u in [1e-6, 0.1, 0.5, 0.9, 1.0 - 1e-6] {
            let gap = upper.quantile(u) + lower.quantile(1.0 - u);
            assert!(gap.abs() < 1e-9, "{u}: {} and {}", upper.quantile(u), lower.quantile(1.0 - u));
        }
    }
}
