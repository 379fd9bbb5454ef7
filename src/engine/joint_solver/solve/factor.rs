//! The factor of a sparse symmetric positive definite matrix: the only file that knows the library behind it.

use super::factorising::{Grouping, MOST_SIDES, SolveError};
use faer::dyn_stack::{MemBuffer, MemStack, StackReq};
use faer::linalg::cholesky::llt::factor::LltRegularization;
use faer::sparse::linalg::SupernodalThreshold;
use faer::sparse::linalg::cholesky::{
    CholeskySymbolicParams, LltRef, SymbolicCholesky, SymmetricOrdering, factorize_symbolic_cholesky,
};
use faer::sparse::{SparseColMatRef, SymbolicSparseColMatRef};
use faer::{Conj, MatMut, Par, Side};

/// A pattern, its symbolic factor, made once, and the values of the last factor filled.
pub(super) struct Factor {
    /// Unknowns.
    pub(super) n: usize,
    /// Where each column of the lower triangle starts, and one past the last.
    pub(super) starts: Vec<usize>,
    /// The rows of its entries, column after column.
    pub(super) rows: Vec<usize>,
    symbolic: SymbolicCholesky<usize>,
    values: Vec<f64>,
    workspace: MemBuffer,
}

impl Factor {
    /// For the lower triangle given by columns.
    ///
    /// # Errors
    /// `NoMemory` if the factor does not fit.
    pub(super) fn new(starts: Vec<usize>, rows: Vec<usize>, grouping: Grouping) -> Result<Self, SolveError> {
        let n = starts.len() - 1;
        let matrix = SymbolicSparseColMatRef::new_checked(n, n, &starts, None, &rows);
        let supernodal_flop_ratio_threshold = match grouping {
            Grouping::Single => SupernodalThreshold::FORCE_SIMPLICIAL,
            Grouping::Blocks => SupernodalThreshold::FORCE_SUPERNODAL,
        };
        let params = CholeskySymbolicParams { supernodal_flop_ratio_threshold, ..Default::default() };
        let symbolic = factorize_symbolic_cholesky(matrix, Side::Lower, SymmetricOrdering::Amd, params)
            .map_err(|_| SolveError::NoMemory { unknowns: n })?;
        let need = StackReq::any_of(&[
            symbolic.factorize_numeric_llt_scratch::<f64>(Par::Seq, Default::default()),
            symbolic.solve_in_place_scratch::<f64>(MOST_SIDES, Par::Seq),
        ]);
        let workspace = MemBuffer::try_new(need).map_err(|_| SolveError::NoMemory { unknowns: n })?;
        let values = vec![0.0; symbolic.len_val()];
        Ok(Self { n, starts, rows, symbolic, values, workspace })
    }

    /// Factorises the values of the same pattern.
    ///
    /// # Errors
    /// `NotPositiveDefinite` at a pivot that is negative, zero or not a number.
    pub(super) fn fill(&mut self, values: &[f64]) -> Result<(), SolveError> {
        let pattern = SymbolicSparseColMatRef::new_checked(self.n, self.n, &self.starts, None, &self.rows);
        self.symbolic
            .factorize_numeric_llt(
                &mut self.values,
                SparseColMatRef::new(pattern, values),
                Side::Lower,
                LltRegularization::default(),
                Par::Seq,
                MemStack::new(&mut self.workspace),
                Default::default(),
            )
            .map(|_| ())
            .map_err(|_| SolveError::NotPositiveDefinite)
    }

    /// Solves in place; `sides` holds right-hand sides one after another.
    pub(super) fn solve(&mut self, sides: &mut [f64]) {
        let columns = sides.len() / self.n.max(1);
        let matrix = MatMut::from_column_major_slice_mut(sides, self.n, columns);
        LltRef::<'_, usize, f64>::new(&self.symbolic, &self.values).solve_in_place_with_conj(
            Conj::No,
            matrix,
            Par::Seq,
            MemStack::new(&mut self.workspace),
        );
    }
}
