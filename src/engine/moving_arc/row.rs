//! Slices side by side in equilibrium together.

use super::link::Link;
use super::stations::Stations;
use crate::joint_solver::{Balance, Failure, Solid, SolveError};
use rayon::prelude::*;

/// Spring at each station that keeps the factor of a slice regular, N/mm²; taken off again where slices are joined.
const SPRING: f64 = 2e4;
/// New factors after which a step has failed.
const MOST_ITERATIONS: usize = 40;
/// A factor is kept while it takes the unbalanced force of its slice below this part (a choice).
const GOOD: f64 = 0.15;
/// A correction that makes things worse is shortened by halves down to this part.
const LEAST_PART: f64 = 0.1;

/// One slice and what it says to its neighbours.
pub(super) struct One<'a> {
    /// The slice.
    pub solid: Solid<'a>,
    /// Movements under a unit pull at each station.
    answers: Vec<(Vec<f64>, [f64; 3])>,
    /// Stiffness seen from the stations, with the springs, row by row.
    stiff: Vec<f64>,
    balance: Balance,
    /// The factor is to be made anew.
    stale: bool,
    step: (Vec<f64>, [f64; 3]),
    before: (Vec<f64>, [f64; 3]),
    last: (Vec<f64>, [f64; 3]),
    /// Factors so far.
    pub factors: usize,
}

/// All slices.
pub(super) struct Row<'a> {
    /// In order along the joint.
    pub slices: Vec<One<'a>>,
    /// What joins them.
    pub(crate) link: Link,
    dofs: Vec<usize>,
    tolerance: f64,
    /// Corrections so far; largest part left unbalanced.
    pub iterations: usize,
    /// Largest part left unbalanced in a step.
    pub worst_left: f64,
    closed: bool,
}

impl<'a> One<'a> {
    pub(super) fn new(solid: Solid<'a>) -> Self {
        let state = solid.state();
        let nothing = (vec![0.0; state.0.len()], [0.0; 3]);
        Self {
            solid,
            answers: Vec::new(),
            stiff: Vec::new(),
            balance: Balance::default(),
            stale: true,
            step: nothing.clone(),
            before: state,
            last: nothing,
            factors: 0,
        }
    }

    /// What it is made of has changed: its factor is of no use.
    pub(super) const fn changed(&mut self) {
        self.stale = true;
    }

    fn renew(&mut self, dofs: &[usize]) -> Result<(), SolveError> {
        let springs: Vec<(usize, f64)> = dofs.iter().map(|&dof| (dof, SPRING)).collect();
        self.solid.renew(&springs)?;
        self.answers = self.solid.answers_to(dofs)?;
        let gives: Vec<f64> =
            dofs.iter().flat_map(|&dof| self.answers.iter().map(move |(u, _)| u[dof])).collect();
        self.stiff = inverse(gives, dofs.len()).ok_or(SolveError::NotPositiveDefinite)?;
        self.stale = false;
        self.factors += 1;
        Ok(())
    }
}

impl<'a> Row<'a> {
    pub(super) fn new(slices: Vec<One<'a>>, link: Link, stations: &Stations, tolerance: f64) -> Self {
        Self { slices, link, dofs: stations.dofs(), tolerance, iterations: 0, worst_left: 0.0, closed: false }
    }

    /// Holds these stations: (slice, degree of freedom); no others.
    pub(super) fn hold(&mut self, held: &[(usize, usize)]) {
        let moved = self.moved();
        self.closed &= !self.link.hold(held, &moved);
    }

    /// Forces of what holds the stations, N/mm.
    pub(crate) fn reactions(&self) -> Vec<f64> {
        self.link.reactions(&self.moved())
    }

    /// Loads the stations, N/mm.
    pub(super) fn load(&mut self, loads: Vec<f64>) {
        self.link.loads = loads;
    }

    /// Movements of the stations of all slices.
    fn moved(&self) -> Vec<f64> {
        self.slices.iter().flat_map(|one| self.dofs.iter().map(|&dof| one.solid.moved_mm()[dof])).collect()
    }

    /// What is unbalanced over the forces there are.
    fn evaluate(&mut self) -> f64 {
        let pulls = self.link.pulls(&self.moved());
        let (dofs, ports) = (&self.dofs, self.link.ports);
        self.slices.par_iter_mut().zip(pulls.par_chunks(ports)).for_each(|(one, pulls)| {
            one.solid.pull_at(dofs.iter().copied().zip(pulls.iter().copied()));
            one.balance = one.solid.balance();
        });
        let mut sum = Balance::default();
        for one in &self.slices {
            sum.loose += one.balance.loose;
            sum.forces += one.balance.forces;
            sum.pulls += one.balance.pulls;
            sum.plane = sum.plane.max(one.balance.plane);
        }
        sum.left()
    }

    /// One correction of all slices together.
    fn improve(&mut self) -> Result<(), SolveError> {
        let dofs = &self.dofs;
        let renewed: Vec<bool> = self
            .slices
            .par_iter_mut()
            .map(|one| if one.stale { one.renew(dofs).map(|()| true) } else { Ok(false) })
            .collect::<Result<_, _>>()?;
        if renewed.contains(&true) || !self.closed {
            let own: Vec<&[f64]> = self.slices.iter().map(|one| &one.stiff[..]).collect();
            self.link.renew(&own, SPRING)?;
            self.closed = true;
        }
        let ports = dofs.len();
        let sides: Vec<Vec<f64>> = self
            .slices
            .par_iter_mut()
            .map(|one| {
                one.step = one.solid.answer_to_rest()?;
                let alone: Vec<f64> = dofs.iter().map(|&dof| one.step.0[dof]).collect();
                Ok(times(&one.stiff, &alone))
            })
            .collect::<Result<_, SolveError>>()?;
        let mut joined = sides.concat();
        self.link.solve(&mut joined)?;
        self.slices.par_iter_mut().zip(joined.par_chunks(ports)).for_each(|(one, moves)| {
            let short: Vec<f64> = dofs.iter().zip(moves).map(|(&dof, q)| one.step.0[dof] - q).collect();
            let pulls = times(&one.stiff, &short);
            for ((answer, plane), pull) in one.answers.iter().zip(pulls) {
                one.step.0.iter_mut().zip(answer).for_each(|(u, a)| *u -= pull * a);
                (0..3).for_each(|m| one.step.1[m] -= pull * plane[m]);
            }
            one.solid.shift(&one.step.0, &one.step.1, 1.0);
        });
        Ok(())
    }

    fn go_back(&mut self, part: f64) {
        self.slices.par_iter_mut().for_each(|one| one.solid.shift(&one.step.0, &one.step.1, -part));
    }

    /// Comes to equilibrium at these temperatures of the points of each slice, °C; `lead` is the length of this step over the
    /// last one, for a first guess; 0 for none.
    ///
    /// # Errors
    /// [`Failure`]; the state is then that before.
    pub(super) fn advance(&mut self, t_c: &[Vec<f64>], lead: f64) -> Result<(), Failure> {
        self.slices.par_iter_mut().zip(t_c).for_each(|(one, t_c)| {
            one.solid.warm(t_c);
            one.before = one.solid.state();
            if lead > 0.0 {
                one.solid.shift(&one.last.0, &one.last.1, lead);
            }
        });
        let settled = self.iterate();
        self.slices.par_iter_mut().for_each(|one| {
            if settled.is_err() {
                one.solid.return_to(&one.before);
                one.stale = true;
                return;
            }
            one.last = one.solid.moved_since(&one.before);
            one.solid.keep();
        });
        settled
    }

    fn iterate(&mut self) -> Result<(), Failure> {
        let mut left = self.evaluate();
        let mut count = 0;
        while left > self.tolerance {
            if count == MOST_ITERATIONS || !left.is_finite() {
                return Err(Failure::Diverged(left));
            }
            count += 1;
            self.iterations += 1;
            let loose: Vec<f64> = self.slices.iter().map(|one| one.balance.loose).collect();
            let forces: f64 = self.slices.iter().map(|one| one.balance.forces).sum();
            self.improve()?;
            let before = std::mem::replace(&mut left, self.evaluate());
            let mut part = 1.0;
            while left > before && part > LEAST_PART {
                part /= 2.0;
                self.go_back(part);
                left = self.evaluate();
            }
            let small = self.tolerance * self.tolerance * forces / (4.0 * loose.len() as f64);
            for (one, was) in self.slices.iter_mut().zip(loose) {
                let good = one.balance.loose < small || one.balance.loose < GOOD * GOOD * was;
                one.stale = part < 1.0 || !good;
            }
        }
        self.worst_left = self.worst_left.max(left);
        Ok(())
    }
}

fn times(matrix: &[f64], vector: &[f64]) -> Vec<f64> {
    matrix.chunks_exact(vector.len()).map(|row| row.iter().zip(vector).map(|(a, b)| a * b).sum()).collect()
}

/// Inverse of a symmetric positive definite matrix, row by row.
fn inverse(mut a: Vec<f64>, n: usize) -> Option<Vec<f64>> {
    let mut out = vec![0.0; n * n];
    (0..n).for_each(|i| out[i * n + i] = 1.0);
    for i in 0..n {
        let pivot = a[i * n + i];
        if pivot.partial_cmp(&0.0) != Some(std::cmp::Ordering::Greater) {
            return None;
        }
        for k in 0..n {
            a[i * n + k] /= pivot;
            out[i * n + k] /= pivot;
        }
        for j in (0..n).filter(|&j| j != i) {
            let factor = a[j * n + i];
            if factor != 0.0 {
                for k in 0..n {
                    a[j * n + k] -= factor * a[i * n + k];
                    out[j * n + k] -= factor * out[i * n + k];
                }
            }
        }
    }
    out.iter().all(|x| x.is_finite()).then_some(out)
}
