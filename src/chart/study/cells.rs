//! Rows that share a place, gathered to one point of a line; and how many lines there may be.

use super::groups::at_places;
use weldbow_engine::scatter;

/// From this many cases at one place their 5 to 95 % range is drawn, below it all of them (a choice: with
/// fewer, a fraction of 5 % is no case at all).
pub(super) const MANY: usize = 20;

/// One point of a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spot {
    /// Place along the bottom.
    pub x: f64,
    /// Value, the mean of several; NaN if every case failed.
    pub y: f64,
    /// Lower edge of the band.
    pub low: f64,
    /// Upper edge of the band.
    pub high: f64,
    /// Cases that gave a value.
    pub cases: usize,
    /// Whether one of them carries a warning.
    pub warned: bool,
}

/// Most lines in one plot: the theme tells no more apart.
pub(super) const MOST_LINES: usize = 12;
/// Most words along the bottom (a choice: with more, labels are left out).
pub(super) const MOST_WORDS: usize = 40;

/// One line: which of all lines of the chart it is, and its points.
pub(super) struct Line {
    pub label: String,
    pub(crate) rank: usize,
    pub spots: Vec<Spot>,
}

/// What a row says: place, value, half width of its band (zero if there is none), whether it carries a warning.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Case {
    pub x: f64,
    pub y: f64,
    pub half: f64,
    pub warned: bool,
}

/// One point a place, from left to right. The band holds every case with its own band, or the middle 90 %
/// where there are [`MANY`].
pub(super) fn spots(cases: &[Case]) -> Vec<Spot> {
    at_places(cases, |case| case.x).map(|(x, cases)| spot(x, &cases)).collect()
}

fn spot(x: f64, cases: &[Case]) -> Spot {
    let good = || cases.iter().filter(|case| case.y.is_finite());
    let count = good().count();
    if count == 0 {
        return Spot { x, y: f64::NAN, low: f64::NAN, high: f64::NAN, cases: 0, warned: false };
    }
    let half = |case: &Case| if case.half.is_finite() { case.half.abs() } else { 0.0 };
    let rising = |side: f64| {
        let mut edges: Vec<f64> = good().map(|case| case.y + side * half(case)).collect();
        edges.sort_by(f64::total_cmp);
        edges
    };
    let beyond = if count >= MANY { 0.05 } else { 0.0 };
    let y = good().map(|case| case.y / count as f64).sum::<f64>();
    Spot {
        x,
        y,
        low: quantile(&rising(-1.0), beyond).min(y),
        high: quantile(&rising(1.0), 1.0 - beyond).max(y),
        cases: count,
        warned: good().any(|case| case.warned),
    }
}

/// Value below which that part of a rising list lies. NaN for an empty list.
pub(super) fn quantile(rising: &[f64], part: f64) -> f64 {
    scatter::quantile(rising, part).unwrap_or(f64::NAN)
}

/// Stretches of a line between failed points.
pub(super) fn runs(spots: &[Spot]) -> Vec<&[Spot]> {
    spots.split(|spot| !spot.y.is_finite()).filter(|run| !run.is_empty()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn case(x: f64, y: f64, half: f64) -> Case {
        Case { x, y, half, warned: false }
    }

    #[test]
    fn a_failed_case_leaves_a_gap() {
        let cases = [(4.0, 1.0), (5.0, 2.0), (6.0, f64::NAN), (7.0, 3.0)].map(|(x, y)| case(x, y, 0.0));
        let spots = spots(&cases);
        let lengths: Vec<usize> = runs(&spots).iter().map(|run| run.len()).collect();
        assert_eq!((spots.len(), lengths), (4, vec![2, 1]));
    }

    #[test]
    fn several_cases_give_their_mean_and_range() {
        let spot = spots(&[case(1.0, 2.0, 0.0), case(1.0, 6.0, 0.0), case(1.0, f64::NAN, 0.0)])[0];
        assert!((spot.y - 4.0).abs() < 1e-12 && spot.cases == 2);
        assert!((spot.low - 2.0).abs() < 1e-12 && (spot.high - 6.0).abs() < 1e-12);
    }

    #[test]
    fn many_cases_give_their_middle_ninety_per_cent() {
        let cases: Vec<Case> = (0..101).map(|i| case(1.0, f64::from(i), 0.0)).collect();
        let spot = spots(&cases)[0];
        assert!((spot.low - 5.0).abs() < 1e-9 && (spot.high - 95.0).abs() < 1e-9, "{spot:?}");
    }

    #[test]
    fn a_warning_of_one_case_marks_the_point() {
        let warned = Case { warned: true, ..case(1.0, 6.0, 0.0) };
        let spots = spots(&[case(1.0, 2.0, 0.0), warned, case(2.0, 3.0, 0.0)]);
        assert_eq!(spots.iter().map(|spot| spot.warned).collect::<Vec<_>>(), [true, false]);
    }

    #[test]
    fn one_case_has_its_own_band() {
        let spot = spots(&[case(1.0, 7.0, 2.0)])[0];
        assert!((spot.low - 5.0).abs() < 1e-12 && (spot.high - 9.0).abs() < 1e-12);
    }
}
