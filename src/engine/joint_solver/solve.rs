//! Sparse systems: their pattern, where entries go, which unknowns are held. The library behind them is known to `factor` alone.
//!
//! A symmetric positive definite matrix whose pattern never changes is filled and factorised hundreds of times. So
//! the ordering and the symbolic factor are made once, the values and workspaces are kept, and every element knows
//! beforehand where its entries go. One thread, hence the same bits each time on one machine.

mod factor;
mod factorising;

use super::clock::Clock;
use factor::Factor;
pub use factorising::SolveError;
pub(crate) use factorising::{Grouping, MOST_SIDES};
use std::ops::Add;
use std::time::Duration;

/// Time spent in the sparse solver.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct SolverTime {
    /// In factorising.
    pub factorising: Duration,
    /// In solving with factors.
    pub solving: Duration,
}

impl Add for SolverTime {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self { factorising: self.factorising + other.factorising, solving: self.solving + other.solving }
    }
}

/// A symmetric positive definite system of fixed pattern; the lower triangle is stored.
pub(crate) struct Symmetric {
    /// Entries of the lower triangle, column after column.
    pub values: Vec<f64>,
    factor: Factor,
    /// Time spent so far.
    pub time: SolverTime,
}

impl Symmetric {
    /// The pattern in which all unknowns of one group (an element, a contact pair) are coupled with each other.
    ///
    /// # Errors
    /// `NoMemory` if the symbolic factor does not fit.
    pub(crate) fn new<'a>(
        n: usize,
        groups: impl Iterator<Item = &'a [usize]> + Clone,
        grouping: Grouping,
    ) -> Result<Self, SolveError> {
        let (column_starts, rows) = pattern(n, groups);
        let values = vec![0.0; rows.len()];
        let factor = Factor::new(column_starts, rows, grouping)?;
        Ok(Self { values, factor, time: SolverTime::default() })
    }

    /// Where the entry of two coupled unknowns stands in `values`; `None` if they are not coupled.
    pub(crate) fn slot(&self, a: usize, b: usize) -> Option<usize> {
        let (column, row) = (a.min(b), a.max(b));
        let (start, end) = (*self.factor.starts.get(column)?, *self.factor.starts.get(column + 1)?);
        self.factor.rows[start..end].binary_search(&row).ok().map(|k| start + k)
    }

    /// Every entry of the lower triangle: row, column, place in `values`.
    pub(crate) fn entries(&self) -> impl Iterator<Item = (usize, usize, usize)> {
        let Factor { n, starts, rows, .. } = &self.factor;
        let span = move |column: usize| starts[column]..starts[column + 1];
        (0..*n).flat_map(move |column| span(column).map(move |k| (rows[k], column, k)))
    }

    /// Takes unknowns out of the system: their rows and columns become those of the unit matrix.
    pub(crate) fn hold(&mut self, held: &[bool]) {
        let Factor { starts, rows, .. } = &self.factor;
        for (column, span) in starts.windows(2).enumerate() {
            for k in span[0]..span[1] {
                if held[column] || held[rows[k]] {
                    self.values[k] = if rows[k] == column { 1.0 } else { 0.0 };
                }
            }
        }
    }

    /// Factorises the present values.
    ///
    /// # Errors
    /// `NotPositiveDefinite` at a pivot that is negative, zero or not a number.
    pub(crate) fn factorise(&mut self) -> Result<(), SolveError> {
        let start = Clock::start();
        let done = self.factor.fill(&self.values);
        self.time.factorising += start.elapsed();
        done
    }

    /// Solves in place with the last factor; `sides` holds one to [`MOST_SIDES`] right-hand sides one after another.
    ///
    /// # Errors
    /// `NotFinite` if the solution is not.
    pub(crate) fn solve(&mut self, sides: &mut [f64]) -> Result<(), SolveError> {
        let start = Clock::start();
        self.factor.solve(sides);
        self.time.solving += start.elapsed();
        if sides.iter().all(|x| x.is_finite()) { Ok(()) } else { Err(SolveError::NotFinite) }
    }
}

fn pattern<'a>(n: usize, groups: impl Iterator<Item = &'a [usize]> + Clone) -> (Vec<usize>, Vec<usize>) {
    let mut columns: Vec<Vec<usize>> = (0..n).map(|i| vec![i]).collect();
    for group in groups {
        for &a in group {
            columns[a].extend(group.iter().copied().filter(|&b| b > a));
        }
    }
    let (mut starts, mut rows) = (vec![0], Vec::new());
    for column in &mut columns {
        column.sort_unstable();
        column.dedup();
        rows.append(column);
        starts.push(rows.len());
    }
    (starts, rows)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A chain of springs 1 held at its first node by another spring.
    fn chain(n: usize, grouping: Grouping) -> Symmetric {
        let pairs: Vec<[usize; 2]> = (1..n).map(|i| [i - 1, i]).collect();
        let mut chain = Symmetric::new(n, pairs.iter().map(|p| &p[..]), grouping).unwrap();
        let ground = chain.slot(0, 0).unwrap();
        chain.values[ground] += 1.0;
        for [a, b] in pairs {
            for (i, j, k) in [(a, a, 1.0), (b, b, 1.0), (a, b, -1.0)] {
                let slot = chain.slot(i, j).unwrap();
                chain.values[slot] += k;
            }
        }
        chain
    }

    #[test]
    fn a_chain_of_springs_stretches_evenly_for_every_side_at_once() {
        let n = 50;
        for grouping in [Grouping::Single, Grouping::Blocks] {
            let mut chain = chain(n, grouping);
            let mut sides = vec![0.0; MOST_SIDES * n];
            for side in 0..MOST_SIDES {
                sides[side * n + n - 1] = 1.0 + side as f64;
            }
            chain.factorise().unwrap();
            chain.solve(&mut sides).unwrap();
            for (k, x) in sides.iter().enumerate() {
                let want = (1 + k % n) as f64 * (1 + k / n) as f64;
                assert!((x - want).abs() < 1e-9, "{grouping:?}, node {k}: {x} against {want}");
            }
        }
    }

    #[test]
    fn a_held_unknown_stays_and_the_rest_is_that_of_the_smaller_system() {
        let mut chain = chain(3, Grouping::Single);
        chain.hold(&[false, true, false]);
        chain.factorise().unwrap();
        let mut side = vec![2.0, 0.0, 3.0];
        chain.solve(&mut side).unwrap();
        for (got, want) in side.iter().zip([1.0, 0.0, 3.0]) {
            assert!((got - want).abs() < 1e-12, "{side:?}");
        }
    }

    #[test]
    fn a_loose_system_and_one_without_numbers_are_refused() {
        let mut chain = chain(3, Grouping::Single);
        let ground = chain.slot(0, 0).unwrap();
        chain.values[ground] = -1.0;
        assert_eq!(chain.factorise(), Err(SolveError::NotPositiveDefinite));
        chain.values[ground] = f64::NAN;
        assert_eq!(chain.factorise(), Err(SolveError::NotPositiveDefinite));
        assert_eq!(chain.slot(0, 2), None);
    }
}
