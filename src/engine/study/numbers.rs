//! The numbers of an axis, in engine units: listed, or computed from their ends when they are asked for, so that an axis of a million steps
//! takes no more room than one of two.

/// Numbers one after the other.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Numbers {
    /// As written.
    Listed(Vec<f64>),
    /// So many, with equal differences.
    Even(u32, [f64; 2]),
    /// So many, with equal ratios.
    Ratio(u32, [f64; 2]),
}

impl Numbers {
    /// How many.
    pub(super) const fn count(&self) -> usize {
        match self {
            Self::Listed(numbers) => numbers.len(),
            Self::Even(steps, _) | Self::Ratio(steps, _) => *steps as usize,
        }
    }

    /// One of them, from 0; NaN beyond the last.
    pub(super) fn at(&self, index: usize) -> f64 {
        if index >= self.count() {
            return f64::NAN;
        }
        let share = |steps: u32| index as f64 / f64::from(steps.saturating_sub(1).max(1));
        match self {
            Self::Listed(numbers) => numbers[index],
            Self::Even(steps, [low, high]) => low + share(*steps) * (high - low),
            Self::Ratio(steps, [low, high]) => low * (high / low).powf(share(*steps)),
        }
    }

    /// Whether every one of them is a number.
    pub(crate) fn are_finite(&self) -> bool {
        match self {
            Self::Listed(numbers) => numbers.iter().all(|number| number.is_finite()),
            Self::Even(_, [low, high]) => low.is_finite() && (high - low).is_finite(),
            Self::Ratio(_, [low, high]) => low.is_finite() && (high / low).is_finite(),
        }
    }

    /// Whether every one of them is whole.
    pub(crate) fn are_whole(&self) -> bool {
        let whole = |number: f64| number.fract().abs() < 1e-9;
        match self {
            Self::Listed(numbers) => numbers.iter().all(|number| whole(*number)),
            // between whole ends they are if one step is
            Self::Even(_, [low, high]) => whole(*low) && whole(*high) && whole(self.step()),
            // the first that is not is among the first few
            Self::Ratio(..) => (0..self.count()).all(|index| whole(self.at(index))),
        }
    }

    fn step(&self) -> f64 {
        if self.count() > 1 { self.at(1) - self.at(0) } else { 0.0 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the same numbers written out; the ends are met to the last bit.
    #[test]
    fn steps_are_those_written_out_and_take_no_room() {
        let even = Numbers::Even(5, [4.0, 8.0]);
        let written: Vec<f64> = (0..even.count()).map(|i| even.at(i)).collect();
        assert_eq!(written, [4.0, 5.0, 6.0, 7.0, 8.0]);
        let ratio = Numbers::Ratio(4, [1.0, 1000.0]);
        let written: Vec<f64> = (0..ratio.count()).map(|i| ratio.at(i)).collect();
        for (found, wanted) in written.iter().zip([1.0, 10.0, 100.0, 1000.0_f64]) {
            assert!((found / wanted - 1.0).abs() < 1e-12, "{found} for {wanted}");
        }
        assert!(even.at(5).is_nan());
        assert_eq!(Numbers::Even(1, [3.0, 9.0]).at(0).to_bits(), 3.0_f64.to_bits());
        assert!(size_of::<Numbers>() <= 32, "{} bytes", size_of::<Numbers>());
    }

    #[test]
    fn whole_and_finite_are_told_from_the_ends() {
        assert!(Numbers::Even(5, [4.0, 8.0]).are_whole() && !Numbers::Even(4, [4.0, 8.0]).are_whole());
        assert!(Numbers::Ratio(3, [1.0, 100.0]).are_whole() && !Numbers::Ratio(4, [1.0, 100.0]).are_whole());
        assert!(!Numbers::Even(3, [-1e308, 1e308]).are_finite());
        assert!(!Numbers::Ratio(3, [1e-300, 1e300]).are_finite());
        assert!(Numbers::Even(1_000_000, [0.0, 1.0]).are_finite());
    }
}
