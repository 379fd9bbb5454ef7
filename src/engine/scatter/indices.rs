//! How much of a result's variance each input brings, alone and together with others.
//!
//! N base cases give N·(d + 2) cases of d inputs, in blocks of N: A, B, then AB₁ … AB_d, where ABᵢ is A with input i
//! taken from B. With f over the N base cases:
//!
//! * alone: Sᵢ = mean[f_B·(f_ABᵢ − f_A)]/V (Saltelli et al. 2010, Computer Physics Communications 181, 259, Table 2 (b)),
//! * total: Tᵢ = mean[(f_A − f_ABᵢ)²]/2V (Jansen 1999, Computer Physics Communications 117, 35),
//!
//! f less its mean over A and B, V its variance there. Inputs must be independent. Standard errors are those of a
//! ratio of means to first order (delta method) for random plans; a Latin or Sobol plan is usually nearer than they say.

use super::{SamplingPlan, Share};
use thiserror::Error;

/// Which block a case belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CaseBlock {
    /// All inputs from A.
    A,
    /// All inputs from B.
    B,
    /// A with this input from B.
    Mixed(usize),
}

/// Cases of a study of the shares of `inputs` inputs over `base` base cases.
pub const fn share_cases(base: usize, inputs: usize) -> usize {
    base * (inputs + 2)
}

/// Block and base case of a case; none beyond the last.
///
/// ```
/// use weldbow_engine::scatter::{CaseBlock, share_block};
/// assert_eq!(share_block(0, 100, 3), Some((CaseBlock::A, 0)));
/// assert_eq!(share_block(407, 100, 3), Some((CaseBlock::Mixed(2), 7)));
/// assert_eq!(share_block(500, 100, 3), None);
/// ```
pub const fn share_block(case: usize, base: usize, inputs: usize) -> Option<(CaseBlock, usize)> {
    if base == 0 || case >= share_cases(base, inputs) {
        return None;
    }
    let block = match case / base {
        0 => CaseBlock::A,
        1 => CaseBlock::B,
        after => CaseBlock::Mixed(after - 2),
    };
    Some((block, case % base))
}

/// Writes the coordinates of a case, one an input, into `out`. The plan has `base` cases and twice as many dimensions
/// as there are inputs: the first half is A, the second B.
pub fn share_point(plan: &SamplingPlan, case: usize, out: &mut [f64]) {
    let inputs = out.len();
    let Some((block, index)) = share_block(case, plan.count(), inputs) else { return };
    let mut both = vec![0.5; 2 * inputs];
    plan.point(index, &mut both);
    let (a, b) = both.split_at(inputs);
    match block {
        CaseBlock::A => out.copy_from_slice(a),
        CaseBlock::B => out.copy_from_slice(b),
        CaseBlock::Mixed(input) => {
            out.copy_from_slice(a);
            out[input] = b[input];
        }
    }
}

/// Shares of the variance.
#[derive(Debug, Clone, PartialEq)]
pub struct Shares {
    /// One an input, in the order given.
    pub shares: Vec<Share>,
    /// Variance of the result.
    pub(crate) variance: f64,
    /// Base cases used.
    pub used: usize,
    /// Base cases dropped because one of their cases failed.
    pub dropped: usize,
}

/// Why there are no shares.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum SharesFault {
    /// Not N·(d + 2) results.
    #[error("{found} results were given, {wanted} are wanted (base cases × (inputs + 2))")]
    WrongNumber {
        /// Results given.
        found: usize,
        /// Results wanted.
        wanted: usize,
    },
    /// Fewer than two base cases worked throughout.
    #[error("of {base} base cases only {used} worked in every block; at least 2 are needed, better 1000")]
    TooFew {
        /// Base cases given.
        base: usize,
        /// Base cases that worked.
        used: usize,
    },
    /// All results are alike.
    #[error("the result is the same in all cases, so no input has a share in it")]
    DoesNotVary,
}

/// Spread of results, relative to the largest, below which they are all alike up to rounding.
const ALIKE: f64 = 1e-13;

/// Shares from the results of [`share_cases`] cases in their order; a base case with a NaN anywhere is dropped.
///
/// # Errors
/// A wrong number of results, too few that worked, and results that are all alike.
pub fn shares(inputs: &[String], base: usize, results: &[f64]) -> Result<Shares, SharesFault> {
    let wanted = share_cases(base, inputs.len());
    if results.len() != wanted {
        return Err(SharesFault::WrongNumber { found: results.len(), wanted });
    }
    let of = |block: usize, index: usize| results[block * base + index];
    let kept: Vec<usize> =
        (0..base).filter(|index| (0..inputs.len() + 2).all(|block| of(block, *index).is_finite())).collect();
    let used = kept.len();
    if used < 2 {
        return Err(SharesFault::TooFew { base, used });
    }
    let n = used as f64;
    let mean = kept.iter().map(|k| 0.5 * (of(0, *k) + of(1, *k)) / n).sum::<f64>();
    let squares: Vec<f64> =
        kept.iter().map(|k| 0.5 * ((of(0, *k) - mean).powi(2) + (of(1, *k) - mean).powi(2))).collect();
    let variance = squares.iter().sum::<f64>() / n;
    let largest = kept.iter().map(|k| of(0, *k).abs().max(of(1, *k).abs())).fold(0.0, f64::max);
    if variance.sqrt() <= ALIKE * largest {
        return Err(SharesFault::DoesNotVary);
    }
    let share = |(input, name): (usize, &String)| {
        let mixed = |k: usize| of(input + 2, k);
        let alone: Vec<f64> = kept.iter().map(|k| (of(1, *k) - mean) * (mixed(*k) - of(0, *k))).collect();
        let total: Vec<f64> = kept.iter().map(|k| 0.5 * (of(0, *k) - mixed(*k)).powi(2)).collect();
        Share { input: name.clone(), alone: ratio(&alone, &squares), total: ratio(&total, &squares) }
    };
    let shares = inputs.iter().enumerate().map(share).collect();
    Ok(Shares { shares, variance, used, dropped: base - used })
}

/// Ratio of two means with its standard error to first order: the deviation of (above − ratio·below)/mean(below),
/// over √n.
fn ratio(above: &[f64], below: &[f64]) -> (f64, f64) {
    let n = below.len() as f64;
    let under = below.iter().sum::<f64>() / n;
    let ratio = above.iter().sum::<f64>() / n / under;
    let gaps: f64 = above.iter().zip(below).map(|(a, b)| ((a - ratio * b) / under).powi(2)).sum();
    (ratio, (gaps / (n - 1.0) / n).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scatter::{Running, SamplingMethod, normal};

    fn names(d: usize) -> Vec<String> {
        (1..=d).map(|i| format!("x{i}")).collect()
    }

    fn run(
        layout: SamplingMethod,
        base: usize,
        seed: u64,
        d: usize,
        model: impl Fn(&[f64]) -> f64,
    ) -> Vec<f64> {
        let plan = SamplingPlan::new(layout, base, seed, 2 * d).unwrap();
        let mut u = vec![0.0; d];
        (0..share_cases(base, d))
            .map(|case| {
                share_point(&plan, case, &mut u);
                model(&u)
            })
            .collect()
    }

    const SLOPES: [f64; 3] = [1.0, 2.0, 4.0];

    /// Slopes 1, 2, 4 on normal numbers: both shares are 1/21, 4/21, 16/21.
    fn linear(u: &[f64]) -> f64 {
        100.0 + u.iter().zip(SLOPES).map(|(u, slope)| slope * normal::score(*u)).sum::<f64>()
    }

    #[test]
    fn shares_of_a_linear_model_are_its_squared_slopes() {
        for base in [500, 2000, 8000] {
            let found = shares(&names(3), base, &run(SamplingMethod::Random, base, 4, 3, linear)).unwrap();
            for (share, slope) in found.shares.iter().zip(SLOPES) {
                let want = slope * slope / 21.0;
                for (got, error) in [share.alone, share.total] {
                    assert!((got - want).abs() < 3.5 * error, "N {base}, {share:?} against {want}");
                }
            }
            let error = 21.0 * (1.0 / base as f64).sqrt();
            assert!((found.variance - 21.0).abs() < 3.5 * error, "{} against 21 ± {error}", found.variance);
        }
    }

    #[test]
    fn the_stated_error_is_how_far_repeated_studies_scatter() {
        let (base, studies) = (300, 200);
        let model = |u: &[f64]| linear(u) + 3.0 * (u[0] - 0.5) * (u[2] - 0.5);
        let found: Vec<Shares> = (0..studies)
            .map(|seed| shares(&names(3), base, &run(SamplingMethod::Random, base, seed, 3, model)).unwrap())
            .collect();
        for input in 0..3 {
            for pick in [(|s: &Share| s.alone) as fn(&Share) -> (f64, f64), |s| s.total] {
                let (mut values, mut errors) = (Running::default(), Running::default());
                for study in &found {
                    let (value, error) = pick(&study.shares[input]);
                    values.add(value);
                    errors.add(error);
                }
                let (seen, stated) = (values.sd().unwrap(), errors.mean().unwrap());
                assert!(
                    (0.8..1.25).contains(&(seen / stated)),
                    "input {input}: scatter {seen}, stated {stated}"
                );
            }
        }
    }

    #[test]
    fn a_failed_case_drops_its_base_case_everywhere() {
        let (base, d) = (50, 3);
        let mut results = run(SamplingMethod::Sobol, base, 1, d, linear);
        let kept: Vec<f64> = results
            .iter()
            .enumerate()
            .filter(|(case, _)| ![7, 31].contains(&(case % base)))
            .map(|(_, x)| *x)
            .collect();
        results[7] = f64::NAN;
        results[3 * base + 31] = f64::INFINITY;
        results[4 * base + 7] = f64::NAN;
        let found = shares(&names(d), base, &results).unwrap();
        assert_eq!((found.used, found.dropped), (48, 2));
        let direct = shares(&names(d), base - 2, &kept).unwrap();
        assert_eq!(found.shares, direct.shares);
    }

    #[test]
    fn blocks_come_in_order_and_mix_one_input() {
        let plan = SamplingPlan::new(SamplingMethod::Latin, 10, 2, 6).unwrap();
        let at = |case| {
            let mut u = [0.0; 3];
            share_point(&plan, case, &mut u);
            u.to_vec()
        };
        for k in 0..10 {
            let (a, b) = (at(k), at(10 + k));
            assert_eq!(at(20 + k), vec![b[0], a[1], a[2]]);
            assert_eq!(at(40 + k), vec![a[0], a[1], b[2]]);
        }
    }

    #[test]
    fn what_has_no_shares_is_said() {
        let fault = |results: &[f64]| shares(&names(2), 3, results).unwrap_err();
        assert_eq!(fault(&[1.0; 11]), SharesFault::WrongNumber { found: 11, wanted: 12 });
        assert_eq!(fault(&[1.0; 12]), SharesFault::DoesNotVary);
        assert_eq!(fault(&[f64::NAN; 12]), SharesFault::TooFew { base: 3, used: 0 });
    }
}
