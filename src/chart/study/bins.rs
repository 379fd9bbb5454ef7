//! The bars of a histogram, and the part of the cases beyond a limit.

use super::cells::quantile;
use super::worded::trimmed;
use crate::number::{number, round_down};
use weldbow_engine::scatter::Running;

/// Least and most bars (a choice: fewer hide the shape, more show noise).
const BARS: (f64, f64) = (5.0, 60.0);

/// Bars of equal width side by side.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Bins {
    /// Left edge of the first.
    pub(crate) from: f64,
    /// Width of each.
    pub(crate) width: f64,
    /// Cases in each.
    pub(crate) counts: Vec<usize>,
}

impl Bins {
    /// Bars about as wide as Freedman and Diaconis advise: twice the range of the middle half over the
    /// cube root of the count (1981, "On the histogram as a density estimator", Z. Wahrscheinlichkeits-
    /// theorie 57, 453–476; memory, sure), rounded to 1, 2 or 5 times a power of ten and begun at a multiple
    /// of it. Where the middle half has no range, as many bars as Sturges advises (1926).
    pub(super) fn of(rising: &[f64]) -> Self {
        let (Some(low), Some(high)) = (rising.first().copied(), rising.last().copied()) else {
            return Self { from: 0.0, width: 1.0, counts: Vec::new() };
        };
        let span = high - low;
        let size = low.abs().max(high.abs());
        if span <= 1e-9 * size || span <= 0.0 {
            let width = if size > 0.0 { 0.1 * size } else { 1.0 };
            return Self { from: low - 0.5 * width, width, counts: vec![rising.len()] };
        }
        let count = rising.len() as f64;
        let half = quantile(rising, 0.75) - quantile(rising, 0.25);
        let advised = if half > 0.0 { 2.0 * half / count.cbrt() } else { span / (count.log2() + 1.0) };
        let width = rounded(advised.clamp(span / BARS.1, span / BARS.0));
        let from = (low / width).floor() * width;
        let bars = ((high - from) / width).floor() as usize + 1;
        let mut counts = vec![0; bars.min(2 * BARS.1 as usize)];
        let last = counts.len() - 1;
        for value in rising {
            let bar = ((value - from) / width).floor().max(0.0) as usize;
            counts[bar.min(last)] += 1;
        }
        Self { from, width, counts }
    }

    /// Edges of a bar.
    pub(super) fn edges(&self, bar: usize) -> (f64, f64) {
        let at = |n: usize| self.from + self.width * n as f64;
        (at(bar), at(bar + 1))
    }
}

/// The nearest of 1, 2, 5 times a power of ten, by ratio.
fn rounded(value: f64) -> f64 {
    let below = round_down(value);
    let above = round_down(2.5 * below);
    if value / below > above / value { above } else { below }
}

/// Part of the cases, in order, that are beyond something, and its standard error: √(p (1 − p)/n) (binomial) if all are
/// drawn for themselves, else from the differences between groups of `each` cases that share a draw.
pub(super) fn part(beyond: &[bool], each: usize) -> (f64, f64) {
    let share = |cases: &[bool]| cases.iter().filter(|b| **b).count() as f64 / cases.len().max(1) as f64;
    let part = share(beyond);
    if each < 2 || beyond.len() < 2 * each {
        return (part, (part * (1.0 - part) / beyond.len().max(1) as f64).sqrt());
    }
    let mut groups = Running::default();
    beyond.chunks(each).for_each(|group| groups.add(share(group)));
    (part, groups.standard_error().unwrap_or(0.0))
}

/// "2.3 % ± 0.5 %"; where no case is beyond, or every one, the most that this can mean with 95 % confidence: three
/// over the count (the rule of three: Hanley and Lippman-Hand 1983, JAMA 249, 1743; memory, sure).
pub(super) fn part_in_words(beyond: &[bool], each: usize) -> String {
    let percent = |p: f64| {
        let decimals = usize::from(p < 0.0995) + usize::from(p < 0.00995);
        format!("{} %", trimmed(&number(100.0 * p, decimals)))
    };
    let (part, error) = part(beyond, each);
    let most = (3.0 / (beyond.len() / each.max(1)).max(1) as f64).min(1.0);
    if part <= 0.0 {
        format!("none (under {})", percent(most))
    } else if part >= 1.0 {
        format!("all (over {} %)", trimmed(&number(100.0 * (1.0 - most), 2)))
    } else {
        format!("{} ± {}", percent(part), percent(error))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn bars_have_the_width_of_freedman_and_diaconis_rounded() {
        // 1000 numbers evenly in [0, 1): the middle half spans 0.5, so 2 × 0.5 / 10 = 0.1
        let rising: Vec<f64> = (0..1000).map(|n| f64::from(n) / 1000.0).collect();
        let bins = Bins::of(&rising);
        assert!((bins.width - 0.1).abs() < 1e-12, "{}", bins.width);
        assert!(bins.counts.iter().all(|count| (99..=101).contains(count)), "{:?}", bins.counts);
        assert_eq!(bins.counts.iter().sum::<usize>(), 1000);
    }

    #[test]
    fn the_part_beyond_has_its_standard_error() {
        // 40 of 400: 10 % ± √(0.1 × 0.9 / 400) = 1.5 %
        let hits = |hits: usize, cases: usize| (0..cases).map(|i| i < hits).collect::<Vec<_>>();
        let (p, error) = part(&hits(40, 400), 1);
        assert!((p - 0.1).abs() < 1e-12 && (error - 0.015).abs() < 1e-12);
        assert_eq!(part_in_words(&hits(40, 400), 1), "10 % ± 1.5 %");
        // 40 groups of ten, four of them beyond as a whole: a deviation of 0.304 over √40
        assert_eq!(part_in_words(&hits(40, 400), 10), "10 % ± 4.8 %");
        assert_eq!(part_in_words(&hits(0, 600), 1), "none (under 0.5 %)");
        assert_eq!(part_in_words(&hits(600, 600), 1), "all (over 99.5 %)");
    }

    proptest! {
        #[test]
        fn every_case_is_in_a_bar_and_bars_stay_few(
            mut values in prop::collection::vec(prop_oneof![-9.0..9.0_f64, -1e90..1e90_f64, Just(0.0)], 1..200),
        ) {
            values.sort_by(f64::total_cmp);
            let bins = Bins::of(&values);
            prop_assert!(bins.counts.iter().sum::<usize>() == values.len());
            prop_assert!(bins.counts.len() <= 120, "{}", bins.counts.len());
            let (first, last) = (bins.edges(0).0, bins.edges(bins.counts.len() - 1).1);
            let slack = 1e-6 * bins.width;
            prop_assert!(first <= values[0] + slack && last >= values[values.len() - 1] - slack, "{bins:?}");
        }
    }
}
