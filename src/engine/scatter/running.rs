//! Mean, standard deviation, least and greatest of numbers that pass by once; quantiles of sorted ones.

/// Running statistics; numbers that are not finite are only counted.
///
/// After Welford (1962, Technometrics 4, 419); merged after Chan, Golub, LeVeque (1979). Merging in another order
/// changes the last digits, so merge chunks in the order of their cases.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Running {
    count: usize,
    failed: usize,
    mean: f64,
    squares: f64,
    ends: Option<(f64, f64)>,
}

impl Running {
    /// All of some values.
    pub(crate) fn of(values: &[f64]) -> Self {
        let mut running = Self::default();
        values.iter().for_each(|x| running.add(*x));
        running
    }

    /// Takes one number in.
    ///
    /// ```
    /// use weldbow_engine::scatter::Running;
    /// let mut running = Running::default();
    /// [2.0, 4.0, 4.0, 4.0, 5.0, 5.0, 7.0, 9.0].into_iter().for_each(|x| running.add(x));
    /// assert_eq!((running.mean(), running.ends()), (Some(5.0), Some((2.0, 9.0))));
    /// assert!((running.sd().unwrap_or_default() - (32.0_f64 / 7.0).sqrt()).abs() < 1e-15);
    /// ```
    pub fn add(&mut self, x: f64) {
        if !x.is_finite() {
            self.failed += 1;
            return;
        }
        self.count += 1;
        let gap = x - self.mean;
        self.mean += gap / self.count as f64;
        self.squares += gap * (x - self.mean);
        self.ends = Some(self.ends.map_or((x, x), |(low, high)| (low.min(x), high.max(x))));
    }

    /// Takes in all that another has seen.
    pub(crate) fn merge(&mut self, other: &Self) {
        self.failed += other.failed;
        let Some((low, high)) = other.ends else { return };
        let (n, m) = (self.count as f64, other.count as f64);
        let gap = other.mean - self.mean;
        self.mean += gap * m / (n + m);
        self.squares += other.squares + gap * gap * n * m / (n + m);
        self.count += other.count;
        self.ends = Some(self.ends.map_or((low, high), |(a, b)| (a.min(low), b.max(high))));
    }

    /// Finite numbers seen.
    pub const fn count(&self) -> usize {
        self.count
    }

    /// Numbers seen that were not finite.
    pub const fn failed(&self) -> usize {
        self.failed
    }

    /// Mean.
    pub fn mean(&self) -> Option<f64> {
        (self.count > 0).then_some(self.mean)
    }

    /// Standard deviation of the population the numbers were drawn from (divisor n − 1).
    pub fn sd(&self) -> Option<f64> {
        (self.count > 1).then(|| (self.squares / (self.count - 1) as f64).sqrt())
    }

    /// Standard error of the mean, if the numbers are independent.
    pub fn standard_error(&self) -> Option<f64> {
        self.sd().map(|sd| sd / (self.count as f64).sqrt())
    }

    /// Least and greatest.
    pub const fn ends(&self) -> Option<(f64, f64)> {
        self.ends
    }
}

/// The number that the fraction `p` of sorted numbers lies below; straight between neighbours (type 7 of Hyndman
/// and Fan 1996, The American Statistician 50, 361). None of an empty list.
///
/// ```
/// use weldbow_engine::scatter::quantile;
/// assert_eq!(quantile(&[1.0, 2.0, 3.0, 4.0], 0.5), Some(2.5));
/// ```
pub fn quantile(sorted: &[f64], p: f64) -> Option<f64> {
    let last = sorted.len().checked_sub(1)?;
    let place = p.clamp(0.0, 1.0) * last as f64;
    let below = (place as usize).min(last);
    let above = (below + 1).min(last);
    let part = place - below as f64;
    Some(sorted[below] + part * (sorted[above] - sorted[below]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use proptest::test_runner::RngSeed;

    fn of(numbers: &[f64]) -> Running {
        let mut running = Running::default();
        numbers.iter().for_each(|x| running.add(*x));
        running
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, rng_seed: RngSeed::Fixed(1962), ..ProptestConfig::default() })]
        #[test]
        fn merged_parts_are_the_whole(numbers in prop::collection::vec(-1e3..1e3_f64, 0..60), cut in 0_usize..60) {
            let (first, second) = numbers.split_at(cut.min(numbers.len()));
            let (mut merged, whole) = (of(first), of(&numbers));
            merged.merge(&of(second));
            prop_assert_eq!((merged.count(), merged.ends()), (whole.count(), whole.ends()));
            let gap = |a: Option<f64>, b: Option<f64>| (a.unwrap_or(0.0) - b.unwrap_or(0.0)).abs();
            prop_assert!(gap(merged.mean(), whole.mean()) < 1e-9, "{merged:?} {whole:?}");
            prop_assert!(gap(merged.sd(), whole.sd()) < 1e-9, "{merged:?} {whole:?}");
        }
    }

    #[test]
    fn a_large_mean_does_not_swallow_the_spread() {
        let shifted = of(&[1e9 + 4.0, 1e9 + 7.0, 1e9 + 13.0, 1e9 + 16.0]).sd().unwrap();
        assert!((shifted - 30.0_f64.sqrt()).abs() < 1e-9, "{shifted} against √30");
    }

    #[test]
    fn failed_cases_are_counted_and_nothing_is_made_of_them() {
        let running = of(&[1.0, f64::NAN, 3.0, f64::INFINITY]);
        assert_eq!((running.count(), running.failed(), running.mean()), (2, 2, Some(2.0)));
        assert_eq!((of(&[]).mean(), of(&[1.0]).sd(), of(&[]).ends()), (None, None, None));
    }
}
