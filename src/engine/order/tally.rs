//! What drawn pieces say, draw by draw of the bias.

use super::Load;
use super::case::Case;
use crate::scatter::{Running, quantile};
use crate::straighten::decide::Action;
use crate::tolerance::Likely;
use serde::Serialize;

/// An expectation, and the range the model bias leaves it in.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize)]
pub struct ExpectedRange {
    /// Mean over all draws.
    pub expected: f64,
    /// 5 % quantile over the draws of the bias.
    pub low: f64,
    /// 95 % quantile.
    pub high: f64,
    /// Standard error of the mean, from the differences between draws.
    pub standard_error: f64,
}

impl ExpectedRange {
    /// Of one value a draw.
    pub fn of(draws: &[f64]) -> Self {
        let running = Running::of(draws);
        let mut sorted = draws.to_vec();
        sorted.sort_by(f64::total_cmp);
        // a sum of nothing is −0
        let at = |p| quantile(&sorted, p).unwrap_or(0.0) + 0.0;
        Self {
            expected: running.mean().unwrap_or(0.0) + 0.0,
            low: at(0.05),
            high: at(0.95),
            standard_error: running.standard_error().unwrap_or(0.0),
        }
    }
}

/// How likely something is of pieces draw after draw, and of pieces with the bias at its middle; None is a piece that makes no
/// job.
pub(super) fn likely(
    cases: &[Option<Case>],
    right: &[Option<Case>],
    each: usize,
    is: impl Fn(&Case) -> bool,
) -> Likely {
    let counted = |all: &[Option<Case>]| -> Vec<f64> {
        all.iter().map(|c| c.as_ref().map_or(f64::NAN, |c| f64::from(u8::from(is(c))))).collect()
    };
    Likely::counted(&counted(cases), &counted(right), each)
}

/// Means over the pieces of each draw of the bias, for one piece of a member.
#[derive(Debug, Clone, Default)]
pub(super) struct Tally {
    /// Part that needs straightening.
    pub(crate) needs: Vec<f64>,
    /// Part that needs none but has to be measured again.
    pub(crate) again: Vec<f64>,
    /// Part of these that is out of its limit.
    pub(crate) again_out: Vec<f64>,
    /// Work a piece.
    pub(crate) load: Vec<Load>,
}

impl Tally {
    /// Of pieces and their work, draw after draw; pieces that make no job count in no mean.
    pub(crate) fn of(cases: &[(Option<&Case>, Load)], each: usize) -> Self {
        let mut tally = Self::default();
        for draw in cases.chunks(each.max(1)) {
            let sound = draw.iter().filter_map(|(case, load)| Some(((*case)?, load)));
            let (mut needs, mut again, mut again_out, mut load, mut count) =
                (0.0, 0.0, 0.0, Load::default(), 0.0);
            for (case, work) in sound {
                count += 1.0;
                load += *work;
                if case.needs() {
                    needs += 1.0;
                } else if case.actions.iter().any(|a| *a != Action::Accept) {
                    again += 1.0;
                    again_out += f64::from(u8::from(case.doubtful_and_out));
                }
            }
            let share = if count > 0.0 { 1.0 / count } else { 0.0 };
            tally.needs.push(needs * share);
            tally.again.push(again * share);
            tally.again_out.push(again_out * share);
            tally.load.push(load * share);
        }
        tally
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_draws_count_where_none_needs_it() {
        let none = Likely::counted(&[0.0; 400], &[0.0; 200], 10);
        let at_most = none.at_most.unwrap();
        println!("none of 40 draws: below {at_most:.4}, the rule of three says {:.4}", 3.0 / 40.0);
        // of 400 independent pieces it would be below 3/400
        assert!((at_most / (3.0 / 40.0) - 1.0).abs() < 0.05 && none.chance.abs() < 1e-12);
    }

    #[test]
    fn a_span_holds_mean_ends_and_error() {
        let draws: Vec<f64> = (0..=100).map(f64::from).collect();
        let span = ExpectedRange::of(&draws);
        assert!((span.expected - 50.0).abs() < 1e-9 && (span.low - 5.0).abs() < 1e-9);
        assert!((span.high - 95.0).abs() < 1e-9);
        // sd of 0…100 is 29.30, over √101
        assert!((span.standard_error - 2.9155).abs() < 1e-3, "{span:?}");
    }
}
