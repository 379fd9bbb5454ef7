//! The chance of being out of a limit, from counted cases.

/// Cases out of the limit among those counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Chance {
    /// Cases out of the limit.
    pub out: usize,
    /// Cases that gave a result.
    pub of: usize,
    /// Cases without a result, which are in neither.
    pub failed: usize,
}

/// Two-sided 95 % point of the standard normal distribution.
pub(crate) const Z_95: f64 = 1.959_963_984_540_054;

impl Chance {
    /// Counts results; NaN and infinities have failed.
    ///
    /// ```
    /// use weldbow_engine::scatter::Chance;
    /// let chance = Chance::count(&[1.0, -4.0, 2.5, f64::NAN, 3.5], |mm| mm.abs() > 3.0);
    /// assert_eq!((chance.out, chance.of, chance.failed), (2, 4, 1));
    /// assert_eq!(chance.fraction(), Some(0.5));
    /// ```
    pub fn count(results: &[f64], is_out: impl Fn(f64) -> bool) -> Self {
        let mut chance = Self::default();
        results.iter().for_each(|x| chance.add(x.is_finite().then(|| is_out(*x))));
        chance
    }

    /// Counts one case: out or in, or failed.
    pub const fn add(&mut self, is_out: Option<bool>) {
        match is_out {
            None => self.failed += 1,
            Some(is_out) => {
                self.out += is_out as usize;
                self.of += 1;
            }
        }
    }

    /// Adds the counts of another.
    pub(crate) const fn merge(&mut self, other: &Self) {
        self.out += other.out;
        self.of += other.of;
        self.failed += other.failed;
    }

    /// Fraction out; none if nothing was counted.
    pub fn fraction(&self) -> Option<f64> {
        (self.of > 0).then(|| self.out as f64 / self.of as f64)
    }

    /// Standard error √(p(1 − p)/n) of the fraction for independent cases. 0 if none or all are out: then only
    /// [`Chance::interval`] says how little is known.
    pub fn standard_error(&self) -> Option<f64> {
        self.fraction().map(|p| (p * (1.0 - p) / self.of as f64).sqrt())
    }

    /// Interval that holds the true chance with 95 % confidence (Wilson 1927, Journal of the American Statistical
    /// Association 22, 209), for independent cases. With none out of n it ends at z²/(n + z²) ≈ 3.84/n.
    pub fn interval(&self) -> Option<(f64, f64)> {
        let p = self.fraction()?;
        let (n, square) = (self.of as f64, Z_95 * Z_95);
        let middle = p + 0.5 * square / n;
        let half = Z_95 * (p * (1.0 - p) / n + 0.25 * square / (n * n)).sqrt();
        let scale = 1.0 + square / n;
        let low = if self.out == 0 { 0.0 } else { (middle - half) / scale };
        let high = if self.out == self.of { 1.0 } else { (middle + half) / scale };
        Some((low, high))
    }

    /// With none out of n cases: the chance is below this with 95 % confidence, 1 − 0.05^(1/n) ≈ 3/n ("rule of
    /// three", Hanley and Lippman-Hand 1983, JAMA 249, 1743). None if a case was out or nothing was counted.
    ///
    /// ```
    /// let none = weldbow_engine::scatter::Chance { out: 0, of: 300, failed: 0 };
    /// assert!((none.at_most().unwrap_or_default() - 0.01).abs() < 1e-4);
    /// ```
    pub fn at_most(&self) -> Option<f64> {
        (self.out == 0 && self.of > 0).then(|| -(0.05_f64.ln() / self.of as f64).exp_m1())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scatter::normal::chance_beyond;
    use crate::scatter::{Distribution, SamplingMethod, SamplingPlan, Spread};

    fn drawn(layout: SamplingMethod, count: usize, limit: f64) -> Chance {
        let spread = Spread::new(Distribution::Normal { mean: 0.4, sd: 1.5 }, None, None).unwrap();
        let plan = SamplingPlan::new(layout, count, 3, 1).unwrap();
        let mut chance = Chance::default();
        for case in 0..count {
            let mut u = [0.0];
            plan.point(case, &mut u);
            chance.add(Some(spread.quantile(u[0]).abs() > limit));
        }
        chance
    }

    #[test]
    fn a_counted_chance_meets_the_normal_closed_form() {
        for limit in [1.0, 3.0, 4.5] {
            let want = chance_beyond(limit, 0.4, 1.5);
            for count in [1000, 4000, 16_000] {
                let chance = drawn(SamplingMethod::Random, count, limit);
                let (got, error) = (chance.fraction().unwrap(), chance.standard_error().unwrap());
                assert!((got - want).abs() < 3.5 * error, "{count}: {got} ± {error} against {want}");
            }
            let even = drawn(SamplingMethod::Latin, 16_000, limit).fraction().unwrap();
            assert!((even - want).abs() < 2.0 / 16_000.0, "Latin: {even} against {want}");
        }
    }

    #[test]
    fn the_interval_holds_the_truth_about_as_often_as_it_says() {
        let (n, truth, trials) = (200_usize, 0.03, 2000_usize);
        let plan = SamplingPlan::new(SamplingMethod::Random, n * trials, 11, 1).unwrap();
        let held = (0..trials).filter(|trial| {
            let mut chance = Chance::default();
            for case in 0..n {
                let mut u = [0.0];
                plan.point(trial * n + case, &mut u);
                chance.add(Some(u[0] < truth));
            }
            chance.interval().is_some_and(|(low, high)| low < truth && truth < high)
        });
        let held = held.count() as f64 / trials as f64;
        assert!(
            (0.92..0.98).contains(&held),
            "held in {held} of trials, 0.95 wanted (counts are whole numbers)"
        );
    }

    #[test]
    fn none_out_still_leaves_a_chance_and_nothing_counted_leaves_nothing() {
        let none = Chance { out: 0, of: 60, failed: 1 };
        assert_eq!((none.fraction(), none.standard_error()), (Some(0.0), Some(0.0)));
        let (low, high) = none.interval().unwrap();
        assert!(low.abs() < 1e-15 && (high - 3.841_459 / 63.841_459).abs() < 1e-7, "{low}…{high}");
        assert!((none.at_most().unwrap() - (1.0 - 0.05_f64.powf(1.0 / 60.0))).abs() < 1e-14);
        assert_eq!(Chance { out: 60, of: 60, failed: 0 }.interval().unwrap().1.to_bits(), 1.0_f64.to_bits());
        assert_eq!(Chance::default().interval(), None);
        assert_eq!(Chance { out: 1, of: 60, failed: 0 }.at_most(), None);
    }
}
