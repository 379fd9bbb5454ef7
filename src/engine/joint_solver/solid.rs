//! Generalised plane strain: a thermo-plastic slice whose sections stay plane.
//!
//! Unknowns are the displacements of the nodes and the three of the plane. Newton's method with the consistent tangent;
//! the three dense rows are kept out of the sparse matrix and closed by a 3 × 3 Schur complement.

use super::bordered::Bordered;
use super::contact::Meeting;
use super::material::{Hot, SectionSteel};
use super::mesh::Mesh;
use super::plasticity::{Four, Memory, Tangent, answer};
use super::shape::Point;
use super::slice::{Failure, QUIET_E_MPA, RELEASE, Slice, SliceHold, Supports, Tally, halved, modes};
use super::solve::{SolveError, SolverTime};
use super::stiffness::{MatrixLayout, strain};

/// A factor is kept while so many corrections with it promise to be enough (a choice: they cost as much as a new one).
const CORRECTIONS: i32 = 3;
/// A correction with a new factor that makes things worse is shortened by halves down to this part (a choice).
const LEAST_PART: f64 = 0.1;
/// New factors after which a step has failed; one or two are usual.
const MOST_ITERATIONS: usize = 16;
/// What is unbalanced is measured against at least this, N/mm: a stress of 1 MPa on an element of 1 mm.
const NO_FORCE: f64 = 1.0;
/// Times a stage of a release is halved before it is given up.
const RELEASE_CUTS: u32 = 5;

/// Unbalanced over element forces of a polished state.
const POLISHED: f64 = 1e-8;

/// The slice.
pub struct Solid<'a> {
    mesh: &'a Mesh,
    points: &'a [Point],
    steel: SectionSteel,
    supports: Supports,
    tolerance: f64,
    layout: MatrixLayout,
    system: Bordered,
    moved: Vec<f64>,
    plane: [f64; 3],
    last: (Vec<f64>, [f64; 3]),
    alive: Vec<bool>,
    meetings: Vec<Meeting>,
    reference: Vec<Four>,
    hot: Vec<Hot>,
    memory: Vec<Memory>,
    trial: Vec<Memory>,
    stress: Vec<Four>,
    tangent: Vec<Tangent>,
    inner: Vec<f64>,
    inner_plane: [f64; 3],
    held: Vec<bool>,
    plane_held: bool,
    pull: Vec<f64>,
    plane_pull: [f64; 3],
    step: Vec<f64>,
    plane_step: [f64; 3],
    /// What the last correction left of the unbalanced force.
    rate: f64,
    tally: Tally,
}

impl<'a> Solid<'a> {
    /// A slice at 20 °C free of stress; elements not `alive` are quiet until born. `tolerance` is the unbalanced force
    /// over the norm of the element forces at which a step is done.
    ///
    /// # Errors
    /// `NoMemory` of the solver.
    pub fn new(
        mesh: &'a Mesh,
        points: &'a [Point],
        steel: SectionSteel,
        supports: Supports,
        alive: Vec<bool>,
        tolerance: f64,
    ) -> Result<Self, SolveError> {
        let (layout, system) = MatrixLayout::new(mesh)?;
        let (n, gauss) = (mesh.unknowns(), points.len());
        let mut held = vec![false; n];
        supports.always.iter().for_each(|&dof| held[dof] = true);
        Ok(Self {
            mesh,
            points,
            steel,
            supports,
            tolerance,
            layout,
            system: Bordered::new(system),
            moved: vec![0.0; n],
            plane: [0.0; 3],
            last: (vec![0.0; n], [0.0; 3]),
            alive,
            meetings: vec![Meeting::default(); mesh.facing.len()],
            reference: vec![[0.0; 4]; gauss],
            hot: vec![steel.at(20.0); gauss],
            memory: vec![Memory::default(); gauss],
            trial: vec![Memory::default(); gauss],
            stress: vec![[0.0; 4]; gauss],
            tangent: vec![Tangent::default(); gauss],
            inner: vec![0.0; n],
            inner_plane: [0.0; 3],
            held,
            plane_held: false,
            pull: vec![0.0; n],
            plane_pull: [0.0; 3],
            step: vec![0.0; n],
            plane_step: [0.0; 3],
            rate: 0.0,
            tally: Tally::default(),
        })
    }

    /// Number of displacement unknowns.
    pub const fn unknowns(&self) -> usize {
        self.moved.len()
    }

    /// Pulls at nodes, N/mm per degree of freedom, and the resultants [N, M across, M up] applied to the slice.
    pub fn load(&mut self, pull: &[f64], resultants: [f64; 3]) {
        self.pull.copy_from_slice(pull);
        self.plane_pull = resultants;
    }

    /// Puts nodes where they are told and holds them there: (degree of freedom, mm).
    pub fn place(&mut self, places: &[(usize, f64)]) {
        for &(dof, at) in places {
            self.moved[dof] = at;
            self.held[dof] = true;
        }
        self.system.forget();
    }

    /// Displacement of each degree of freedom, mm.
    pub(crate) fn moved_mm(&self) -> &[f64] {
        &self.moved
    }

    fn total_strain(&self, element: usize, k: usize) -> Four {
        let point = &self.points[4 * element + k];
        let along: f64 = modes(point.at_mm).iter().zip(self.plane).map(|(m, p)| m * p).sum();
        strain(point, &self.layout.dofs[element], &self.moved, along)
    }

    /// What is unbalanced at the present displacements over the forces there are.
    fn evaluate(&mut self) -> f64 {
        self.balance().left()
    }

    fn respond(&mut self, p: usize, alive: bool, total: &Four) {
        if !alive {
            let quiet = Hot { e_mpa: QUIET_E_MPA, yield_mpa: f64::INFINITY, ..Hot::default() };
            let answer = answer(total, &Memory::default(), &quiet);
            (self.stress[p], self.tangent[p]) = (answer.stress, answer.tangent);
            return;
        }
        let elongation = self.hot[p].elongation;
        let shift = |i: usize| if i < 3 { elongation } else { 0.0 };
        let strain: Four = std::array::from_fn(|i| total[i] - self.reference[p][i] - shift(i));
        let answer = answer(&strain, &self.memory[p], &self.hot[p]);
        (self.stress[p], self.tangent[p], self.trial[p]) = (answer.stress, answer.tangent, answer.memory);
    }

    /// One step toward balance, with a new factor or the last one.
    fn improve(&mut self, anew: bool) -> Result<(), Failure> {
        if anew {
            self.renew(&[])?;
        }
        (self.step, self.plane_step) = self.answer_to_rest()?;
        self.go_back(-1.0);
        Ok(())
    }

    /// Takes back a part of the last correction.
    fn go_back(&mut self, part: f64) {
        (0..3).for_each(|m| self.plane[m] -= part * self.plane_step[m]);
        self.moved.iter_mut().zip(&self.step).for_each(|(u, du)| *u -= part * du);
    }

    /// Newton's method at the present temperatures.
    fn settle(&mut self, lead: f64) -> Result<(), Failure> {
        let before = self.state();
        if lead > 0.0 {
            for i in 0..self.moved.len() {
                if !self.held[i] {
                    self.moved[i] += lead * self.last.0[i];
                }
            }
            if !self.plane_held {
                (0..3).for_each(|m| self.plane[m] += lead * self.last.1[m]);
            }
        }
        let settled = self.iterate();
        if let Err(failure) = settled {
            self.system.forget();
            self.return_to(&before);
            return Err(failure);
        }
        self.last = self.moved_since(&before);
        self.keep();
        self.tally.steps += 1;
        Ok(())
    }

    /// Corrects with the last factor while that pays, else with a new one.
    fn iterate(&mut self) -> Result<(), Failure> {
        let mut left = self.evaluate();
        let mut renewed = 0;
        while left > self.tolerance {
            let anew = !self.system.ready() || left * self.rate.powi(CORRECTIONS) > self.tolerance;
            if anew && renewed == MOST_ITERATIONS {
                return Err(Failure::Diverged(left));
            }
            renewed += usize::from(anew);
            self.improve(anew)?;
            self.tally.iterations += 1;
            let before = std::mem::replace(&mut left, self.evaluate());
            let mut part = 1.0;
            while anew && left > before && part > LEAST_PART {
                part /= 2.0;
                self.go_back(part);
                left = self.evaluate();
            }
            if !anew && left > before {
                self.go_back(1.0);
                left = self.evaluate();
            }
            self.rate = left / before;
        }
        self.tally.worst_left = self.tally.worst_left.max(left);
        Ok(())
    }
}

impl Slice for Solid<'_> {
    fn advance(&mut self, t_c: &[f64], lead: f64) -> Result<(), Failure> {
        self.warm(t_c);
        self.settle(lead)
    }

    fn bear(&mut self, element: usize, t_c: &[f64]) {
        self.system.forget();
        self.alive[element] = true;
        for (k, &t) in t_c.iter().enumerate().take(4) {
            let p = 4 * element + k;
            let (total, elongation) = (self.total_strain(element, k), self.steel.at(t).elongation);
            self.reference[p] = std::array::from_fn(|i| total[i] - if i < 3 { elongation } else { 0.0 });
            (self.memory[p], self.trial[p]) = (Memory::default(), Memory::default());
        }
    }

    fn hold(&mut self, hold: SliceHold) {
        self.system.forget();
        for &dof in &self.supports.while_hot {
            self.held[dof] = hold.in_plane;
        }
        self.supports.always.iter().for_each(|&dof| self.held[dof] = true);
        self.plane_held = hold.lengthwise;
    }

    fn release(&mut self, hold: SliceHold, t_c: &[f64]) -> Result<(), Failure> {
        self.warm(t_c);
        self.evaluate();
        let (was_held, plane_was_held) = (self.held.clone(), self.plane_held);
        self.hold(hold);
        let freed = (0..was_held.len()).filter(|&i| was_held[i] && !self.held[i]);
        let reactions: Vec<(usize, f64)> = freed.map(|i| (i, self.inner[i])).collect();
        let along = (plane_was_held && !self.plane_held).then_some(self.inner_plane);
        let mut leave = |part: &f64, _| {
            reactions.iter().for_each(|&(dof, reaction)| self.pull[dof] = part * reaction);
            if let Some(along) = along {
                self.plane_pull = along.map(|r| part * r);
            }
            self.settle(0.0)
        };
        let mut left = 1.0;
        for part in RELEASE {
            halved(&mut leave, |a, b| f64::midpoint(*a, *b), (&left, &part), 0.0, RELEASE_CUTS)?;
            left = part;
        }
        Ok(())
    }

    fn plane(&self) -> [f64; 3] {
        self.plane
    }

    fn stress(&self) -> &[Four] {
        &self.stress
    }

    fn displaced_mm(&self) -> Option<Vec<[f64; 2]>> {
        Some(self.moved.chunks_exact(2).map(|u| [u[0], u[1]]).collect())
    }

    fn plastic(&self) -> Vec<f64> {
        self.memory.iter().map(Memory::size).collect()
    }

    fn tally(&self) -> Tally {
        Tally { factorisations: self.system.factorisations, ..self.tally }
    }

    fn solver_time(&self) -> SolverTime {
        self.system.time()
    }

    fn polish(&mut self) -> Result<(), Failure> {
        let usual = std::mem::replace(&mut self.tolerance, POLISHED);
        let settled = self.settle(0.0);
        self.tolerance = usual;
        settled
    }
}

mod linked;
pub(crate) use linked::Balance;

#[cfg(test)]
#[path = "solid_tests.rs"]
mod tests;
