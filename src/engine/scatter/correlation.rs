//! Inputs that go together: correlation by a Gaussian copula.
//!
//! Each coordinate u of the cube becomes a normal score, the scores are mixed by the Cholesky factor of the wanted
//! correlation, and become coordinates again. Every input keeps its own spread; ρ is the correlation of the
//! *scores*, which that of the values follows closely for mild shapes and never exceeds in size.
//!
//! A Latin plan keeps exactly one case a cell only in inputs that are not correlated, and in the first of those
//! that are. Shares of the variance ask for inputs without correlation.

use super::normal;
use crate::numerics;
use ndarray::Array2;
use thiserror::Error;

/// A pair of inputs and how they go together: (one, other, ρ).
pub type Pair = (usize, usize, f64);

/// Why inputs cannot go together so.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum CorrelationFault {
    /// A pair names an input that is not there.
    #[error("input {found} is not one of the {inputs} inputs, which count from 0")]
    NoSuchInput {
        /// As given.
        found: usize,
        /// Inputs.
        inputs: usize,
    },
    /// A pair of an input with itself.
    #[error("input {input} is paired with itself; name two inputs")]
    SameInput {
        /// As given.
        input: usize,
    },
    /// The same pair again.
    #[error("inputs {} and {} are paired twice; name each pair once", pair.0, pair.1)]
    Twice {
        /// As given the second time.
        pair: (usize, usize),
    },
    /// |ρ| ≥ 1 or NaN.
    #[error("the correlation of inputs {} and {} is {}; it must lie between -1 and 1, ends excluded", pair.0, pair.1, pair.2)]
    OutOfRange {
        /// As given.
        pair: Pair,
    },
    /// Pairs that contradict each other; the named one alone could be changed to heal it.
    #[error(
        "a correlation of {} between inputs {} and {} contradicts the other pairs, which leave it between {:.3} and {:.3}",
        pair.2, pair.0, pair.1, possible.0, possible.1
    )]
    Clash {
        /// The last pair whose change alone would heal it.
        pair: Pair,
        /// Between which values.
        possible: (f64, f64),
    },
    /// Pairs that contradict each other in more than one place.
    #[error(
        "the correlations contradict each other in more than one pair (not positive definite); bring them nearer to 0"
    )]
    Contradiction,
}

/// Mixes independent coordinates into correlated ones.
#[derive(Debug, Clone, PartialEq)]
pub struct Correlation {
    /// Lower triangle.
    factor: Array2<f64>,
}

impl Correlation {
    /// Correlation of `inputs` inputs; pairs that are not named are independent.
    ///
    /// ```
    /// use weldbow_engine::scatter::Correlation;
    /// let fault = Correlation::new(3, &[(0, 1, 0.9), (1, 2, 0.9), (0, 2, -0.9)]).map_err(|f| f.to_string());
    /// assert!(fault.is_err_and(|f| f.contains("between inputs 0 and 2") && f.contains("between 0.620 and 1.000")));
    /// ```
    ///
    /// # Errors
    /// Pairs that make no sense alone, and pairs that contradict each other.
    pub fn new(inputs: usize, pairs: &[Pair]) -> Result<Self, CorrelationFault> {
        let mut matrix = Array2::<f64>::eye(inputs);
        for (done, &(i, j, rho)) in pairs.iter().enumerate() {
            if let Some(found) = [i, j].into_iter().find(|k| *k >= inputs) {
                return Err(CorrelationFault::NoSuchInput { found, inputs });
            }
            if i == j {
                return Err(CorrelationFault::SameInput { input: i });
            }
            if pairs[..done].iter().any(|p| (p.0, p.1) == (i, j) || (p.1, p.0) == (i, j)) {
                return Err(CorrelationFault::Twice { pair: (i, j) });
            }
            if rho.abs() >= 1.0 || rho.is_nan() {
                return Err(CorrelationFault::OutOfRange { pair: (i, j, rho) });
            }
            matrix[[i, j]] = rho;
            matrix[[j, i]] = rho;
        }
        let order: Vec<usize> = (0..inputs).collect();
        if let Some(factor) = cholesky(&matrix, &order) {
            return Ok(Self { factor });
        }
        let clash = pairs.iter().rev().find_map(|&pair| Some((pair, possible(&matrix, pair)?)));
        Err(match clash {
            Some((pair, possible)) => CorrelationFault::Clash { pair, possible },
            None => CorrelationFault::Contradiction,
        })
    }

    /// Mixes the coordinates of one case in place; those of uncorrelated inputs, and of the first of correlated ones,
    /// are not touched. Does nothing if there are fewer coordinates than inputs; more are left alone.
    pub(crate) fn apply(&self, u: &mut [f64]) {
        let inputs = self.factor.nrows();
        if u.len() < inputs {
            return;
        }
        // from the last to the first, as a row needs only the coordinates up to its own
        for row in (0..inputs).rev() {
            if (0..row).all(|k| self.factor[[row, k]].abs() <= 0.0) {
                continue;
            }
            let parts = (0..=row).map(|k| (self.factor[[row, k]], u[k])).filter(|(part, _)| part.abs() > 0.0);
            let score: f64 = parts.map(|(part, u)| part * normal::score(u)).sum();
            u[row] = normal::inside(normal::below(score));
        }
    }
}

/// Pivot below which a matrix counts as not positive definite.
const LEAST_PIVOT: f64 = 1e-10;

/// Lower factor of the matrix with rows and columns in that order; none if it is not positive definite.
fn cholesky(matrix: &Array2<f64>, order: &[usize]) -> Option<Array2<f64>> {
    let n = order.len();
    let entry = |row: usize, column: usize| matrix[[order[row], order[column]]];
    let factor = numerics::cholesky(n, entry, |_, pivot| pivot > LEAST_PIVOT)?;
    Array2::from_shape_vec((n, n), factor).ok()
}

/// Between which values the correlation of a pair must lie, all others as they are; none if they clash without it.
///
/// With the pair last, ρ = l·m + t·√((1 − l·l)(1 − m·m)), −1 < t < 1, where l and m are the rows of the factor before it.
fn possible(matrix: &Array2<f64>, (i, j, _): Pair) -> Option<(f64, f64)> {
    let mut order: Vec<usize> = (0..matrix.nrows()).filter(|k| *k != i && *k != j).collect();
    let before = order.len();
    let row_of = |last: usize, order: &mut Vec<usize>| {
        order.truncate(before);
        order.push(last);
        cholesky(matrix, order).map(|factor| factor.row(before).to_vec())
    };
    let (l, m) = (row_of(i, &mut order)?, row_of(j, &mut order)?);
    let middle: f64 = (0..before).map(|k| l[k] * m[k]).sum();
    let half = l[before] * m[before];
    Some((middle - half, middle + half))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scatter::{SamplingMethod, SamplingPlan};

    /// Correlation coefficient of the scores of two coordinates.
    fn recovered(pairs: &[Pair], inputs: usize, count: usize) -> Array2<f64> {
        let (plan, together) = (
            SamplingPlan::new(SamplingMethod::Random, count, 5, inputs).unwrap(),
            Correlation::new(inputs, pairs).unwrap(),
        );
        let mut sums = Array2::<f64>::zeros((inputs, inputs));
        for case in 0..count {
            let mut u = vec![0.0; inputs];
            plan.point(case, &mut u);
            together.apply(&mut u);
            let z: Vec<f64> = u.iter().map(|u| normal::score(*u)).collect();
            for (at, sum) in sums.indexed_iter_mut() {
                *sum += z[at.0] * z[at.1];
            }
        }
        let scale = sums.diag().mapv(f64::sqrt);
        Array2::from_shape_fn((inputs, inputs), |(i, j)| sums[[i, j]] / (scale[i] * scale[j]))
    }

    #[test]
    fn wanted_correlations_come_back_within_their_sampling_error() {
        let pairs = [(0, 1, 0.8), (1, 3, -0.5), (0, 3, -0.1)];
        let count = 20_000;
        let found = recovered(&pairs, 4, count);
        for i in 0..4 {
            for j in 0..i {
                let want = pairs.iter().find(|p| (p.0, p.1) == (j, i)).map_or(0.0, |p| p.2);
                let error = (1.0 - want * want) / (count as f64).sqrt();
                let got = found[[i, j]];
                assert!((got - want).abs() < 3.5 * error, "{j}, {i}: {got} ± {error} against {want}");
            }
        }
    }

    #[test]
    fn the_range_left_to_a_clashing_pair_is_just_what_is_accepted() {
        let others = [(0, 1, 0.7), (1, 2, 0.6)];
        let half = (0.51_f64 * 0.64).sqrt();
        let Err(CorrelationFault::Clash { pair, possible }) =
            Correlation::new(3, &[others[0], others[1], (2, 0, -0.9)])
        else {
            panic!("a clash was wanted")
        };
        assert_eq!(pair, (2, 0, -0.9));
        assert!((possible.0 - (0.42 - half)).abs() < 1e-12 && (possible.1 - (0.42 + half)).abs() < 1e-12);
        for (rho, fits) in [
            (possible.0 - 1e-3, false),
            (possible.0 + 1e-3, true),
            (possible.1 - 1e-3, true),
            (possible.1 + 1e-3, false),
        ] {
            assert_eq!(Correlation::new(3, &[others[0], others[1], (0, 2, rho)]).is_ok(), fits, "{rho}");
        }
    }

    #[test]
    fn pairs_that_make_no_sense_are_told_apart() {
        use CorrelationFault as F;
        let fault = |pairs: &[Pair]| Correlation::new(3, pairs).unwrap_err();
        assert_eq!(fault(&[(0, 3, 0.1)]), F::NoSuchInput { found: 3, inputs: 3 });
        assert_eq!(fault(&[(1, 1, 0.1)]), F::SameInput { input: 1 });
        assert_eq!(fault(&[(0, 1, 0.1), (1, 0, 0.2)]), F::Twice { pair: (1, 0) });
        assert_eq!(fault(&[(0, 1, 1.0)]), F::OutOfRange { pair: (0, 1, 1.0) });
        let twice = [(0, 1, 0.9), (1, 2, 0.9), (0, 2, -0.9), (3, 4, 0.9), (4, 5, 0.9), (3, 5, -0.9)];
        assert_eq!(Correlation::new(6, &twice), Err(F::Contradiction));
    }

    #[test]
    fn inputs_without_correlation_are_left_exactly_as_they_are() {
        let together = Correlation::new(4, &[(1, 2, 0.6)]).unwrap();
        let mut u = [0.123, 0.456, 0.789, 0.321, 0.999];
        together.apply(&mut u);
        assert_eq!(vec![u[0], u[1], u[3], u[4]], vec![0.123, 0.456, 0.321, 0.999]);
        let score = 0.6 * normal::score(0.456) + 0.8 * normal::score(0.789);
        assert!((u[2] - normal::below(score)).abs() < 1e-15);
    }
}
