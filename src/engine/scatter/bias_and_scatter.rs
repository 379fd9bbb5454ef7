//! Bias and scatter apart: how far a chance rests on the model being right.
//!
//! M draws of the bias, and for each the same number K of draws of the scatter. Counting all alike would hide that
//! pieces of one kind share their bias: a shop sees one of the M chances, not their mean.
//!
//! Case c is piece c mod K of draw c / K: its bias is point c / K of a plan of M cases, its scatter point c of the plan of
//! M·K cases [`beside`](super::SamplingPlan::beside) it.

use super::chance::Chance;
use super::running::{Running, quantile};
use thiserror::Error;

/// A chance and a spread, each with bias and scatter told apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BiasAndScatter {
    /// Chance over all draws, with its standard error from the differences between bias draws.
    pub overall: (f64, f64),
    /// If the model were exactly right: bias at its middle, scatter alone.
    pub model_right: Chance,
    /// 5 % and 95 % quantile of the chance over the bias draws. Counting only K cases a draw widens it by about
    /// the counting error √(p(1 − p)/K).
    pub range: (f64, f64),
    /// Standard deviation of the result that bias brings, from draw to draw.
    pub bias_sd: f64,
    /// Standard deviation of the result that scatter brings, within a draw.
    pub scatter_sd: f64,
    /// Draws of the bias that gave at least one result.
    pub draws: usize,
    /// Cases without a result among the draws.
    pub failed: usize,
}

/// Why bias and scatter cannot be told apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum BiasAndScatterFault {
    /// Results do not fill whole draws.
    #[error("{results} results do not make whole draws of {each} pieces")]
    Ragged {
        /// Results given.
        results: usize,
        /// Results of a draw.
        each: usize,
    },
    /// Too little that worked.
    #[error(
        "{draws} draws of the bias with {results} results in all; at least two draws and two results in one of them are needed"
    )]
    TooFew {
        /// Draws with a result.
        draws: usize,
        /// Results.
        results: usize,
    },
}

/// Separates bias from scatter by the one-way random-effects analysis of variance (Searle, Casella, McCulloch,
/// Variance Components, 1992, 3.6): within = MSW, between = (MSB − MSW)/n₀, not below 0, where
/// n₀ = (N − Σnᵢ²/N)/(M − 1) is the number of results a draw (K if no case failed).
///
/// `results`: draw after draw, `each` of them a draw; NaN has failed. `at_middle`: results with the bias at its middle.
///
/// # Errors
/// Results that do not fill whole draws; fewer than two draws or two results in a draw.
pub fn bias_and_scatter(
    results: &[f64],
    each: usize,
    at_middle: &[f64],
    is_out: impl Fn(f64) -> bool,
) -> Result<BiasAndScatter, BiasAndScatterFault> {
    if each == 0 || !results.len().is_multiple_of(each) {
        return Err(BiasAndScatterFault::Ragged { results: results.len(), each });
    }
    let (mut all, mut counts, mut chances) = (Running::default(), Chance::default(), Vec::new());
    let (mut within, mut between, mut count_squares) = (0.0, 0.0, 0.0);
    let mut groups = Vec::new();
    for draw in results.chunks_exact(each) {
        let group = Running::of(draw);
        all.merge(&group);
        let chance = Chance::count(draw, &is_out);
        counts.merge(&chance);
        chances.extend(chance.fraction());
        groups.extend(group.mean().map(|mean| (group.count() as f64, mean)));
        within += group.sd().map_or(0.0, |sd| sd * sd * (group.count() - 1) as f64);
    }
    let too_few = BiasAndScatterFault::TooFew { draws: groups.len(), results: all.count() };
    let (Some(mean), Some(overall)) = (all.mean(), counts.fraction()) else { return Err(too_few) };
    if groups.len() < 2 || all.count() == groups.len() {
        return Err(too_few);
    }
    for (n, group_mean) in &groups {
        between += n * (group_mean - mean).powi(2);
        count_squares += n * n;
    }
    let (n, m) = (all.count() as f64, groups.len() as f64);
    let scatter = within / (n - m);
    let typical = (n - count_squares / n) / (m - 1.0);
    let bias = ((between / (m - 1.0) - scatter) / typical).max(0.0);

    chances.sort_by(f64::total_cmp);
    let at = |p| quantile(&chances, p).unwrap_or(overall);
    Ok(BiasAndScatter {
        overall: (overall, Running::of(&chances).standard_error().unwrap_or(0.0)),
        model_right: Chance::count(at_middle, &is_out),
        range: (at(0.05), at(0.95)),
        bias_sd: bias.sqrt(),
        scatter_sd: scatter.sqrt(),
        draws: groups.len(),
        failed: all.failed(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scatter::normal::{chance_beyond, score as deviate};
    use crate::scatter::{SamplingMethod, SamplingPlan};

    const LIMIT: f64 = 3.0;

    /// 1 + 0.8·bias + 1.2·scatter, both standard normal.
    fn drawn(draws: usize, each: usize, bias: f64) -> (Vec<f64>, Vec<f64>) {
        let plan = SamplingPlan::new(SamplingMethod::Random, draws * each, 17, 1).unwrap();
        let biases = SamplingPlan::new(SamplingMethod::Random, draws, 18, 1).unwrap();
        let score = |plan: &SamplingPlan, case| {
            let mut u = [0.0];
            plan.point(case, &mut u);
            deviate(u[0])
        };
        let scatter: Vec<f64> = (0..draws * each).map(|case| 1.2 * score(&plan, case)).collect();
        let of = |bias: f64| {
            scatter.iter().enumerate().map(|(case, s)| 1.0 + bias * score(&biases, case / each) + s).collect()
        };
        (of(bias), of(0.0))
    }

    fn out(x: f64) -> bool {
        x.abs() > LIMIT
    }

    #[test]
    fn a_known_model_comes_apart_into_its_bias_and_its_scatter() {
        let (draws, each) = (400, 50);
        let (results, middle) = drawn(draws, each, 0.8);
        let found = bias_and_scatter(&results, each, &middle, out).unwrap();
        // standard errors of the deviations: σ/√(2(M − 1)) of the group means, σ/√(2M(K − 1)) within
        let bias_error = (0.64 + 1.44 / 50.0) / 0.8 / (2.0 * 399.0_f64).sqrt();
        let scatter_error = 1.2 / (2.0 * 400.0 * 49.0_f64).sqrt();
        assert!((found.bias_sd - 0.8).abs() < 3.0 * bias_error, "{found:?}: 0.8 ± {bias_error} wanted");
        assert!(
            (found.scatter_sd - 1.2).abs() < 3.0 * scatter_error,
            "{found:?}: 1.2 ± {scatter_error} wanted"
        );
        let (bias, scatter) = (found.bias_sd.powi(2), found.scatter_sd.powi(2));
        assert!((bias / (bias + scatter) - 0.64 / 2.08).abs() < 0.05, "{found:?}");
        let overall = chance_beyond(LIMIT, 1.0, 2.08_f64.sqrt());
        let right = chance_beyond(LIMIT, 1.0, 1.2);
        assert!((found.overall.0 - overall).abs() < 3.0 * found.overall.1, "{found:?} against {overall}");
        let (got, error) =
            (found.model_right.fraction().unwrap(), found.model_right.standard_error().unwrap());
        assert!((got - right).abs() < 3.0 * error, "{found:?} against {right}");
        // draws share their bias, so the overall chance is less sure than a binomial count would say
        let binomial = (overall * (1.0 - overall) / results.len() as f64).sqrt();
        assert!(found.overall.1 > 2.0 * binomial, "{found:?}: binomial {binomial}");
        // 5 % and 95 % of the bias: chances at 1 ± 1.645·0.8, widened by counting 50 pieces a draw
        let high = chance_beyond(LIMIT, 1.0 + 1.645 * 0.8, 1.2);
        assert!((found.range.1 - high).abs() < 0.06, "{found:?} against {high}");
        assert!(found.range.0 < 0.02, "{found:?}");
    }

    #[test]
    fn scatter_alone_is_not_taken_for_bias() {
        let (results, middle) = drawn(200, 20, 0.0);
        let found = bias_and_scatter(&results, 20, &middle, out).unwrap();
        // without the correction for the scatter left in a mean of 20 this would be 1.2/√20 = 0.27
        assert!(found.bias_sd < 0.12, "{found:?}");
    }

    #[test]
    fn failed_cases_are_left_out_and_counted() {
        let (mut results, middle) = drawn(300, 40, 0.8);
        results.iter_mut().step_by(7).for_each(|x| *x = f64::NAN);
        results[40..80].fill(f64::NAN);
        let found = bias_and_scatter(&results, 40, &middle, out).unwrap();
        assert_eq!((found.draws, found.failed), (299, results.iter().filter(|x| x.is_nan()).count()));
        assert!((found.bias_sd - 0.8).abs() < 0.12 && (found.scatter_sd - 1.2).abs() < 0.03, "{found:?}");
    }

    #[test]
    fn too_little_to_tell_them_apart_is_said() {
        let fault = |results: &[f64], each| bias_and_scatter(results, each, &[], out).unwrap_err();
        assert_eq!(fault(&[1.0; 5], 2), BiasAndScatterFault::Ragged { results: 5, each: 2 });
        assert_eq!(fault(&[1.0; 5], 0), BiasAndScatterFault::Ragged { results: 5, each: 0 });
        assert_eq!(fault(&[1.0; 5], 1), BiasAndScatterFault::TooFew { draws: 5, results: 5 });
        assert_eq!(fault(&[1.0; 5], 5), BiasAndScatterFault::TooFew { draws: 1, results: 5 });
        assert_eq!(fault(&[f64::NAN; 4], 2), BiasAndScatterFault::TooFew { draws: 0, results: 0 });
        let still = bias_and_scatter(&[1.0; 4], 2, &[], out).unwrap();
        assert!(still.bias_sd.abs() < 1e-15 && still.model_right.fraction().is_none());
    }
}
