//! A piecewise-linear table with flat ends.

use super::along;

/// Points (x, y), x rising strictly; before the first and after the last the end value holds.
#[derive(Debug, Clone, Copy)]
pub struct LinearTable<const N: usize>(pub [(f64, f64); N]);

impl<const N: usize> LinearTable<N> {
    /// Value at x.
    ///
    /// ```
    /// use weldbow_engine::numerics::LinearTable;
    /// let t = LinearTable([(0.0, 1.0), (10.0, 3.0)]);
    /// assert_eq!([t.at(-1.0), t.at(5.0), t.at(99.0)], [1.0, 2.0, 3.0]);
    /// ```
    pub fn at(&self, x: f64) -> f64 {
        along(&self.0, x)
    }
}
