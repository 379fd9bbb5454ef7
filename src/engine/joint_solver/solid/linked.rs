//! A slice as one of many along a joint: its balance, its factor and its corrections, for whoever couples it with others.

use super::super::bordered::Movements;
use super::super::contact::{Meeting, opening};
use super::super::mesh::Facing;
use super::super::slice::modes;
use super::super::stiffness::force;
use super::{NO_FORCE, Solid, SolveError};

/// How far a slice is from balance.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Balance {
    /// Sum of squares of what is unbalanced at the nodes.
    pub(crate) loose: f64,
    /// Sum of squares of the forces of the elements.
    pub forces: f64,
    /// Sum of squares of what pulls at the nodes.
    pub pulls: f64,
    /// Largest unbalanced resultant of the plane over the amounts in it.
    pub(crate) plane: f64,
}

impl Balance {
    /// What is unbalanced over the forces there are.
    pub(crate) fn left(&self) -> f64 {
        if !self.loose.is_finite() {
            return f64::INFINITY;
        }
        let there = (self.forces.sqrt() + self.pulls.sqrt()).max(NO_FORCE);
        (self.loose.sqrt() / there).max(self.plane)
    }
}

impl Solid<'_> {
    /// Stress, inner forces and resultants of the present displacements, and what is unbalanced.
    pub(crate) fn balance(&mut self) -> Balance {
        self.inner.fill(0.0);
        self.inner_plane = [0.0; 3];
        let (mut forces, mut amounts) = (0.0, [0.0; 3]);
        for element in 0..self.mesh.elements.len() {
            let mut own = [0.0; 16];
            for k in 0..4 {
                let p = 4 * element + k;
                let total = self.total_strain(element, k);
                self.respond(p, self.alive[element], &total);
                let point = &self.points[p];
                force(point, &self.stress[p], &mut own);
                let along = self.stress[p][0] * point.area_mm2;
                for (m, mode) in modes(point.at_mm).into_iter().enumerate() {
                    self.inner_plane[m] += along * mode;
                    amounts[m] += (along * mode).abs();
                }
            }
            for (dof, f) in self.layout.dofs[element].iter().zip(own) {
                self.inner[*dof] += f;
                forces += f * f;
            }
        }
        for (pair, meeting) in self.mesh.facing.iter().zip(&self.meetings) {
            for (c, [push, _]) in meeting.force(&self.steel, &self.moved, pair).into_iter().enumerate() {
                self.inner[2 * pair.lower + c] -= push;
                self.inner[2 * pair.upper + c] += push;
            }
        }
        let loose = (0..self.inner.len())
            .filter(|&i| !self.held[i])
            .map(|i| (self.pull[i] - self.inner[i]).powi(2))
            .sum();
        let pulls = self.pull.iter().map(|p| p * p).sum();
        let mut plane: f64 = 0.0;
        if !self.plane_held {
            for ((pull, inner), amount) in self.plane_pull.iter().zip(self.inner_plane).zip(amounts) {
                plane = plane.max((pull - inner).abs() / (amount + pull.abs()).max(NO_FORCE));
            }
        }
        Balance { loose, forces, pulls, plane }
    }

    /// A new factor of the tangent, with a spring to the ground at some degrees of freedom, N/mm².
    pub(crate) fn renew(&mut self, springs: &[(usize, f64)]) -> Result<(), SolveError> {
        let Self { layout, points, tangent, mesh, moved, steel, system, held, plane_held, meetings, .. } =
            self;
        let grounds: Vec<(usize, f64)> =
            springs.iter().filter_map(|&(dof, k)| system.slot(dof, dof).map(|slot| (slot, k))).collect();
        system.renew(held, *plane_held, |values, border| {
            let core = layout.assemble(points, tangent, values, border);
            for ((pair, slots), meeting) in mesh.facing.iter().zip(&layout.facing).zip(meetings.iter()) {
                for (slots, [_, stiff]) in slots.iter().zip(meeting.force(steel, moved, pair)) {
                    slots.iter().zip([stiff, stiff, -stiff]).for_each(|(&slot, k)| values[slot] += k);
                }
            }
            grounds.iter().for_each(|&(slot, k)| values[slot] += k);
            core
        })
    }

    /// Faces that touch nowhere from now on.
    pub(crate) fn part_faces(&mut self) {
        self.meetings.fill(Meeting::Apart);
        self.system.forget();
    }

    /// Joins the faces at those pairs that are not joined yet, as they are.
    pub(crate) fn join_faces(&mut self, wanted: impl Fn(&Facing) -> bool) {
        for (pair, meeting) in self.mesh.facing.iter().zip(&mut self.meetings) {
            if wanted(pair) && !matches!(meeting, Meeting::Joined(_)) {
                *meeting = Meeting::Joined(opening(&self.moved, pair));
            }
        }
        self.system.forget();
    }

    /// Temperatures of the points, °C, for the next balance.
    pub(crate) fn warm(&mut self, t_c: &[f64]) {
        self.steel.heat(&mut self.hot, t_c);
    }

    /// Pull at some degrees of freedom, N/mm; all others are let be.
    pub(crate) fn pull_at(&mut self, pulls: impl Iterator<Item = (usize, f64)>) {
        pulls.for_each(|(dof, pull)| self.pull[dof] = pull);
    }

    /// Movement that the last factor gives for what is unbalanced: of the nodes, and of the plane.
    pub(crate) fn answer_to_rest(&mut self) -> Result<Movements, SolveError> {
        let mut loads: Vec<f64> = (0..self.moved.len())
            .map(|i| if self.held[i] { 0.0 } else { self.pull[i] - self.inner[i] })
            .collect();
        let rest = std::array::from_fn(|m| self.plane_pull[m] - self.inner_plane[m]);
        let plane = self.system.correct(&mut loads, rest)?;
        Ok((loads, plane))
    }

    /// Movements that the last factor gives for a unit pull at each of some degrees of freedom.
    pub(crate) fn answers_to(&mut self, dofs: &[usize]) -> Result<Vec<Movements>, SolveError> {
        self.system.unit_answers(self.moved.len(), dofs)
    }

    /// Moves nodes and plane by a part of these.
    pub(crate) fn shift(&mut self, moved: &[f64], plane: &[f64; 3], part: f64) {
        self.moved.iter_mut().zip(moved).for_each(|(u, du)| *u += part * du);
        self.plane.iter_mut().zip(plane).for_each(|(p, dp)| *p += part * dp);
    }

    /// Keeps what the points have come to.
    pub(crate) fn keep(&mut self) {
        self.memory.copy_from_slice(&self.trial);
    }

    /// Where it is: nodes and plane.
    pub(crate) fn state(&self) -> Movements {
        (self.moved.clone(), self.plane)
    }

    /// What it has moved by since it was there.
    pub(crate) fn moved_since(&self, state: &Movements) -> Movements {
        let moved = self.moved.iter().zip(&state.0).map(|(now, before)| now - before).collect();
        (moved, std::array::from_fn(|m| self.plane[m] - state.1[m]))
    }

    /// Goes back to where it was.
    pub(crate) fn return_to(&mut self, state: &Movements) {
        self.moved.copy_from_slice(&state.0);
        self.plane = state.1;
    }
}
