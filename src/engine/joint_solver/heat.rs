//! Heat in a cross-section over time: conduction, convection, radiation, fusion.
//!
//! Bilinear elements on the corner nodes with lumped capacity. The unknown of a node is its heat content; conduction
//! acts on the potential ∫k dT, so its matrix never changes. In time TR-BDF2: a trapezoidal stage and a backward
//! difference over one step, second order and L-stable. Backward Euler with growing steps would leave a permanent
//! error of some percent in every temperature rise, which tests beside this file show.

use super::mesh::Mesh;
use super::network::{Network, Quadrilateral};
use super::shape::Point;
use super::slice::Failure;
use super::solve::{Grouping, SolveError, SolverTime, Symmetric};
use super::thermal::{Thermal, ThermalTable};
use serde::Serialize;

/// Stefan–Boltzmann constant, W/(mm² K⁴) (CODATA 2018: 5.670 374e-8 W/(m² K⁴); exact since 2019).
const RADIATION: f64 = 5.670_374e-14;
/// 0 °C in kelvin (by definition).
const ZERO_C_IN_K: f64 = 273.15;
/// Newton iterations after which a stage has failed; four are usual.
const MOST_ITERATIONS: usize = 40;
/// Unbalanced over total heat at which a stage is done: far below the 0.1 % asked of the energy balance.
const HEAT_TOLERANCE: f64 = 1e-9;
/// Heat of 1 K in cold steel, J/mm³ (EN 1993-1-2: 440 J/kgK at 20 °C).
const ONE_KELVIN_J_PER_MM3: f64 = 7.85e-6 * 440.0;

/// What the free faces lose.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Surface {
    /// Convection, W/(m² K).
    pub convection_w_per_m2_k: f64,
    /// Emissivity.
    pub emissivity: f64,
    /// Temperature around, °C.
    pub ambient_c: f64,
}

impl Surface {
    /// 25 W/(m² K) and 0.7 in 20 °C: our choice. 25 is what EN 1991-1-2 has beside a fire and 0.7 the emissivity of EN 1993-1-2 2.2
    /// (memory); a plate that cools in a shop loses 5 to 10 W/(m² K) beside its radiation. Forces vary by ±4 % over 0–100.
    pub(crate) const AIR: Self = Self { convection_w_per_m2_k: 25.0, emissivity: 0.7, ambient_c: 20.0 };
    /// No loss at all.
    pub const INSULATED: Self = Self { convection_w_per_m2_k: 0.0, emissivity: 0.0, ambient_c: 20.0 };

    /// Flow, W/mm², and its change with temperature.
    fn flow(&self, t_c: f64) -> (f64, f64) {
        let (t, ambient) = ((t_c + ZERO_C_IN_K).max(0.0), self.ambient_c + ZERO_C_IN_K);
        let (convection, radiation) = (self.convection_w_per_m2_k * 1e-6, self.emissivity * RADIATION);
        let flow = convection * (t_c - self.ambient_c) + radiation * (t.powi(4) - ambient.powi(4));
        (flow, convection + 4.0 * radiation * t.powi(3))
    }
}

/// How a step is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Stepping {
    /// Trapezoidal stage, then backward difference: second order.
    TrBdf2,
    /// Backward Euler, first order: kept to show its permanent error.
    BackwardEuler,
}

/// The elements that are there, as a heat problem.
pub struct Heat<'a> {
    table: &'a ThermalTable,
    surface: Surface,
    stepping: Stepping,
    /// Mesh node → own index; coincident nodes share one.
    index: Vec<Option<usize>>,
    capacity_mm2: Vec<f64>,
    skin_mm: Vec<f64>,
    /// Lower triangle of the conduction matrix: row, column, value, slot.
    conduction: Vec<(usize, usize, f64, usize)>,
    diagonal: Vec<usize>,
    system: Symmetric,
    content: Vec<f64>,
    scratch: Vec<Thermal>,
    /// Heat lost through the skin so far, J/mm.
    pub(crate) lost_j_per_mm: f64,
    /// Newton iterations so far.
    pub iterations: usize,
}

/// γ of TR-BDF2, which makes the matrices of both stages equal.
const GAMMA: f64 = 2.0 - std::f64::consts::SQRT_2;

impl<'a> Heat<'a> {
    /// The problem of the elements that are `there`, at the given temperature of each mesh node, °C.
    ///
    /// # Errors
    /// `NoMemory` of the solver.
    pub fn new(
        mesh: &Mesh,
        points: &[Point],
        there: &[bool],
        table: &'a ThermalTable,
        surface: Surface,
        stepping: Stepping,
        t_c: &[f64],
    ) -> Result<Self, SolveError> {
        let first = mesh.coincident();
        let mut index = vec![None; mesh.nodes_mm.len()];
        let mut own_c = Vec::new();
        let mut quadrilaterals = Vec::new();
        let present = mesh.elements.iter().zip(points.chunks_exact(4)).zip(there).filter(|(_, t)| **t);
        for ((element, points), _) in present {
            let nodes = [0, 1, 2, 3].map(|k| element.nodes[k]);
            let corners = nodes.map(|node| {
                let own = *index[first[node]].get_or_insert_with(|| {
                    own_c.push(t_c[first[node]]);
                    own_c.len() - 1
                });
                index[node] = Some(own);
                own
            });
            quadrilaterals.push(Quadrilateral {
                corners,
                places_mm: nodes.map(|node| mesh.nodes_mm[node]),
                points: [0, 1, 2, 3].map(|k| points[k].bilinear()),
            });
        }
        let network = Network::of(own_c.len(), 0.0, quadrilaterals.into_iter(), |own| own);
        let heat = Self::of_network(network, table, surface, &own_c)?;
        Ok(Self { stepping, index, ..heat })
    }

    /// The problem of a network, at the given temperature of each of its unknowns, °C; those are its nodes. Steps are of TR-BDF2.
    ///
    /// # Errors
    /// `NoMemory` of the solver.
    pub(crate) fn of_network(
        network: Network,
        table: &'a ThermalTable,
        surface: Surface,
        t_c: &[f64],
    ) -> Result<Self, SolveError> {
        let Network { capacity_mm2, skin_mm, conduction } = network;
        let n = capacity_mm2.len();
        let pairs: Vec<[usize; 2]> = conduction.keys().map(|&(column, row)| [column, row]).collect();
        let system = Symmetric::new(n, pairs.iter().map(|p| &p[..]), Grouping::Single)?;
        let flows = |column, row| conduction.get(&(column, row)).copied().unwrap_or_default();
        let entries = system.entries().map(|(row, column, slot)| (row, column, flows(column, row), slot));
        Ok(Self {
            table,
            surface,
            stepping: Stepping::TrBdf2,
            index: (0..n).map(Some).collect(),
            capacity_mm2,
            skin_mm,
            conduction: entries.collect(),
            diagonal: (0..n).filter_map(|i| system.slot(i, i)).collect(),
            system,
            content: t_c.iter().map(|t| table.heat_j_per_mm3(*t)).collect(),
            scratch: vec![table.at(0.0); n],
            lost_j_per_mm: 0.0,
            iterations: 0,
        })
    }

    /// Number of unknowns.
    pub const fn unknowns(&self) -> usize {
        self.content.len()
    }

    /// Time spent in the sparse solver.
    pub const fn time(&self) -> SolverTime {
        self.system.time
    }

    /// Temperature of each mesh node, °C, written over `t_c`; nodes that take no part keep theirs.
    pub fn temperatures(&self, t_c: &mut [f64]) {
        for (t, own) in t_c.iter_mut().zip(&self.index) {
            if let Some(own) = own {
                *t = self.table.at(self.content[*own]).t_c;
            }
        }
    }

    /// Heat held since 20 °C, J/mm.
    pub(crate) fn held_j_per_mm(&self) -> f64 {
        self.content.iter().zip(&self.capacity_mm2).map(|(h, c)| h * c).sum()
    }

    /// Gathers shares of mesh nodes, such as those of a source, into own unknowns.
    pub(crate) fn gathered(&self, shares: &[f64]) -> Vec<f64> {
        let mut own = vec![0.0; self.content.len()];
        for (share, index) in shares.iter().zip(&self.index) {
            if let Some(index) = index {
                own[*index] += share;
            }
        }
        own
    }

    /// One step of `dt_s` under a power for each unknown, W/mm.
    ///
    /// # Errors
    /// [`Failure`]; the state is then that before the step.
    pub fn step(&mut self, dt_s: f64, power: &[f64]) -> Result<(), Failure> {
        let before = self.content.clone();
        let done = match self.stepping {
            Stepping::TrBdf2 => self.tr_bdf2(dt_s, power, &before),
            Stepping::BackwardEuler => {
                let base = before.clone();
                self.stage(&base, dt_s, power).map(|loss| dt_s * loss)
            }
        };
        match done {
            Ok(lost) => self.lost_j_per_mm += lost,
            Err(_) => self.content = before,
        }
        done.map(|_| ())
    }

    /// Returns the heat lost.
    fn tr_bdf2(&mut self, dt_s: f64, power: &[f64], before: &[f64]) -> Result<f64, Failure> {
        let part = GAMMA / 2.0 * dt_s;
        let (flow, loss0) = self.flow(power);
        let base: Vec<f64> =
            before.iter().zip(&flow).zip(&self.capacity_mm2).map(|((h, f), c)| h + part * f / c).collect();
        let loss1 = self.stage(&base, part, power)?;
        let whole = GAMMA * (2.0 - GAMMA);
        let (now, old) = (1.0 / whole, (1.0 - GAMMA) * (1.0 - GAMMA) / whole);
        let base: Vec<f64> = before.iter().zip(&self.content).map(|(h0, h1)| now * h1 - old * h0).collect();
        let loss2 = self.stage(&base, part, power)?;
        Ok(now * part * (loss0 + loss1) + part * loss2)
    }

    /// Net flow into each unknown, W/mm, and what the skin loses in all.
    fn flow(&mut self, power: &[f64]) -> (Vec<f64>, f64) {
        let mut flow = power.to_vec();
        let mut loss = 0.0;
        for (i, f) in flow.iter_mut().enumerate() {
            self.scratch[i] = self.table.at(self.content[i]);
            let out = self.skin_mm[i] * self.surface.flow(self.scratch[i].t_c).0;
            *f -= out;
            loss += out;
        }
        for &(row, column, k, _) in &self.conduction {
            flow[row] -= k * self.scratch[column].potential;
            if row != column {
                flow[column] -= k * self.scratch[row].potential;
            }
        }
        (flow, loss)
    }

    /// Solves content = base + part · flow(content)/capacity; returns what the skin loses, W/mm.
    fn stage(&mut self, base: &[f64], part: f64, power: &[f64]) -> Result<f64, Failure> {
        let mut left = f64::INFINITY;
        let arriving = part * power.iter().map(|p| p.abs()).sum::<f64>();
        // a section at ambient temperature holds nothing to measure a remainder by
        let least = ONE_KELVIN_J_PER_MM3 * self.capacity_mm2.iter().sum::<f64>();
        for _ in 0..MOST_ITERATIONS {
            let (flow, loss) = self.flow(power);
            let mut residual: Vec<f64> = (0..flow.len())
                .map(|i| part * flow[i] - self.capacity_mm2[i] * (self.content[i] - base[i]))
                .collect();
            let total: f64 = base.iter().zip(&self.capacity_mm2).map(|(h, c)| (h * c).abs()).sum();
            left = residual.iter().map(|r| r.abs()).sum::<f64>() / (total + arriving).max(least);
            if left < HEAT_TOLERANCE {
                return Ok(loss);
            }
            self.iterations += 1;
            self.assemble(part);
            self.system.factorise()?;
            self.system.solve(&mut residual)?;
            for (i, dp) in residual.iter().enumerate() {
                self.content[i] += dp / self.scratch[i].dp_dh;
            }
        }
        Err(Failure::Diverged(left))
    }

    fn assemble(&mut self, part: f64) {
        for &(_, _, k, slot) in &self.conduction {
            self.system.values[slot] = part * k;
        }
        for (i, &slot) in self.diagonal.iter().enumerate() {
            let state = self.scratch[i];
            let skin = self.skin_mm[i] * self.surface.flow(state.t_c).1 * state.dt_dh;
            self.system.values[slot] += (self.capacity_mm2[i] + part * skin) / state.dp_dh;
        }
    }
}

#[cfg(test)]
#[path = "heat_tests.rs"]
mod tests;
