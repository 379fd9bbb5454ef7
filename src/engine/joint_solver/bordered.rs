//! The section's linear system with the three dense rows of the plane kept out of the sparse matrix.
//!
//! K u + G p = r, Gᵀ u + C p = s: solved with the factor of K and the 3 × 3 Schur complement C − Gᵀ K⁻¹ G. Factor and
//! response K⁻¹ G stay good for further corrections until the tangent has changed too much.

use super::slice::solve_three;
use super::solve::{MOST_SIDES, SolveError, SolverTime, Symmetric};

/// Movements of the unknowns, and of the plane.
pub(crate) type Movements = (Vec<f64>, [f64; 3]);

/// The system.
pub(crate) struct Bordered {
    system: Symmetric,
    /// G, three columns one after another; empty if the plane is held.
    border: Vec<f64>,
    /// K⁻¹ G.
    response: Vec<f64>,
    schur: [[f64; 3]; 3],
    ready: bool,
    /// Factorisations so far.
    pub(crate) factorisations: usize,
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

impl Bordered {
    /// Around a sparse system that is not filled yet.
    pub(crate) const fn new(system: Symmetric) -> Self {
        Self {
            system,
            border: Vec::new(),
            response: Vec::new(),
            schur: [[0.0; 3]; 3],
            ready: false,
            factorisations: 0,
        }
    }

    /// Whether there is a factor to correct with.
    pub(crate) const fn ready(&self) -> bool {
        self.ready
    }

    /// Forgets the factor: what is held or solid has changed.
    pub(crate) const fn forget(&mut self) {
        self.ready = false;
    }

    /// Where the entry of two unknowns stands among the values that are filled.
    pub(crate) fn slot(&self, a: usize, b: usize) -> Option<usize> {
        self.system.slot(a, b)
    }

    /// Time spent in the sparse solver.
    pub(crate) const fn time(&self) -> SolverTime {
        self.system.time
    }

    /// Factorises anew. `fill` writes the values of K and, unless the plane is held, the columns of G; it returns C.
    ///
    /// # Errors
    /// Those of the solver.
    pub(crate) fn renew(
        &mut self,
        held: &[bool],
        plane_held: bool,
        fill: impl FnOnce(&mut [f64], &mut [f64]) -> [[f64; 3]; 3],
    ) -> Result<(), SolveError> {
        self.ready = false;
        let n = held.len();
        self.border.clear();
        self.border.resize(if plane_held { 0 } else { 3 * n }, 0.0);
        self.schur = fill(&mut self.system.values, &mut self.border);
        self.system.hold(held);
        for column in self.border.chunks_exact_mut(n) {
            column.iter_mut().zip(held).filter(|(_, held)| **held).for_each(|(g, _)| *g = 0.0);
        }
        self.system.factorise()?;
        self.factorisations += 1;
        self.response.clone_from(&self.border);
        if !plane_held {
            self.system.solve(&mut self.response)?;
            for (a, column) in self.border.chunks_exact(n).enumerate() {
                for (b, response) in self.response.chunks_exact(n).enumerate() {
                    self.schur[a][b] -= dot(column, response);
                }
            }
        }
        self.ready = true;
        Ok(())
    }

    /// Turns the loads into displacements in place; `rest` is the load of the plane, its movement comes back.
    ///
    /// # Errors
    /// Those of the solver.
    pub(crate) fn correct(&mut self, loads: &mut [f64], rest: [f64; 3]) -> Result<[f64; 3], SolveError> {
        self.system.solve(loads)?;
        self.close(loads, rest)
    }

    /// The same for unit loads at these unknowns and none of the plane, several at a time.
    ///
    /// # Errors
    /// Those of the solver.
    pub(crate) fn unit_answers(&mut self, n: usize, at: &[usize]) -> Result<Vec<Movements>, SolveError> {
        let mut answers = Vec::with_capacity(at.len());
        for some in at.chunks(MOST_SIDES) {
            let mut loads = vec![0.0; some.len() * n];
            some.iter().enumerate().for_each(|(k, &dof)| loads[k * n + dof] = 1.0);
            self.system.solve(&mut loads)?;
            for column in loads.chunks_exact_mut(n) {
                let plane = self.close(column, [0.0; 3])?;
                answers.push((column.to_vec(), plane));
            }
        }
        Ok(answers)
    }

    /// Gives the plane its part of what the sparse matrix alone answers.
    fn close(&self, loads: &mut [f64], rest: [f64; 3]) -> Result<[f64; 3], SolveError> {
        if self.border.is_empty() {
            return Ok([0.0; 3]);
        }
        let n = loads.len();
        let mut side = rest;
        for (s, column) in side.iter_mut().zip(self.border.chunks_exact(n)) {
            *s -= dot(column, loads);
        }
        let plane = solve_three(self.schur, side).ok_or(SolveError::NotPositiveDefinite)?;
        for (p, response) in plane.iter().zip(self.response.chunks_exact(n)) {
            loads.iter_mut().zip(response).for_each(|(u, r)| *u -= p * r);
        }
        Ok(plane)
    }
}
