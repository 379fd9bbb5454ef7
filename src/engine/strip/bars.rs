//! Equilibrium: every point of the section a bar, all bars together a section that stays plane.
//!
//! Three unknowns, stretch and two bends, whatever the number of bars. Each bar is elastic–plastic with properties of
//! its temperature; stress across it is left out, which changes forces by about 1 % (4 % in thick flanges).

use super::conduction::IntegrationPoint;
use crate::joint_solver::{
    Failure, Hot, MaterialLaw, Memory, SectionSteel, SolveError, Tally, bar_answer, solve_three,
};
use crate::steel::molten::SOLIDUS_C;

/// Newton iterations after which a step has failed; three are usual.
const MOST_ITERATIONS: usize = 40;
/// Times a step that leaves more unbalanced is halved.
const MOST_SHORTER: u32 = 12;
/// Unbalanced over total force at which a step is done.
const TOLERANCE: f64 = 1e-9;
/// What is unbalanced is measured against at least this, N.
const NO_FORCE: f64 = 1.0;
/// Length that makes curvatures comparable to strains, mm.
const SCALE_MM: f64 = 100.0;
/// Rows of a property table for each kelvin.
const ROWS_PER_K: f64 = 2.0;

/// Properties over temperature, kept for quick reading.
#[derive(Debug, Clone)]
struct Properties {
    steel: SectionSteel,
    rows: Vec<Hot>,
}

impl Properties {
    /// Of a steel.
    fn new(steel: SectionSteel) -> Self {
        // Beyond the solidus nothing changes any more; other laws are read directly.
        let last = if matches!(steel.law, MaterialLaw::Hot(_)) { SOLIDUS_C + 2.0 } else { 0.0 };
        let rows = ((last - 20.0).max(0.0) * ROWS_PER_K) as usize;
        Self { steel, rows: (0..rows).map(|k| steel.at(20.0 + k as f64 / ROWS_PER_K)).collect() }
    }

    fn at(&self, t_c: f64) -> Hot {
        let place = ((t_c - 20.0) * ROWS_PER_K).max(0.0);
        let k = place as usize;
        let (Some(a), Some(b)) = (self.rows.get(k), self.rows.get(k + 1)) else {
            return self.rows.last().map_or_else(|| self.steel.at(t_c), |last| *last);
        };
        let part = place - k as f64;
        let mix = |a: f64, b: f64| a + part * (b - a);
        Hot {
            e_mpa: mix(a.e_mpa, b.e_mpa),
            yield_mpa: mix(a.yield_mpa, b.yield_mpa),
            hardening_mpa: mix(a.hardening_mpa, b.hardening_mpa),
            elongation: mix(a.elongation, b.elongation),
            annealed: b.annealed,
        }
    }
}

/// The bars.
#[derive(Debug, Clone)]
pub(crate) struct Bars {
    properties: Properties,
    e_mpa: f64,
    modes: Vec<[f64; 3]>,
    area_mm2: Vec<f64>,
    middle_mm: f64,
    plane: [f64; 3],
    held: bool,
    /// Bars that bear, four a quadrilateral.
    alive: Vec<bool>,
    /// Strain less elongation at which a bar is free of stress.
    reference: Vec<f64>,
    hot: Vec<Hot>,
    memory: Vec<Memory>,
    trial: Vec<Memory>,
    stress: Vec<f64>,
    tangent: Vec<f64>,
    /// What it took so far.
    pub(crate) tally: Tally,
}

impl Bars {
    /// Bars at 20 °C under an even stress, MPa; `alive` tells for each quadrilateral. Curvature is taken about `middle_mm`.
    pub(crate) fn new(
        points: &[IntegrationPoint],
        steel: SectionSteel,
        alive: &[bool],
        middle_mm: f64,
        held: bool,
        prior_mpa: f64,
    ) -> Self {
        let n = points.len();
        let modes = |s: &IntegrationPoint| [1.0, s.at_mm[0] / SCALE_MM, (s.at_mm[1] - middle_mm) / SCALE_MM];
        Self {
            e_mpa: steel.e_mpa,
            modes: points.iter().map(modes).collect(),
            area_mm2: points.iter().map(|s| s.area_mm2).collect(),
            middle_mm,
            plane: [0.0; 3],
            held,
            alive: alive.to_vec(),
            reference: vec![-prior_mpa / steel.e_mpa; n],
            hot: vec![steel.at(20.0); n],
            memory: vec![Memory::default(); n],
            trial: vec![Memory::default(); n],
            stress: vec![0.0; n],
            tangent: vec![0.0; n],
            tally: Tally::default(),
            properties: Properties::new(steel),
        }
    }

    fn total_strain(&self, bar: usize) -> f64 {
        let [a, b, c] = self.modes[bar];
        self.plane[0] * a + self.plane[1] * b + self.plane[2] * c
    }

    /// Strain of the section at [z, y]: of its axis y = 0 and changes per mm of z and of y.
    pub(crate) fn plane(&self) -> [f64; 3] {
        let [e, h, g] = [self.plane[0], self.plane[1] / SCALE_MM, self.plane[2] / SCALE_MM];
        [e - g * self.middle_mm, h, g]
    }

    /// Whether a quadrilateral bears.
    pub(crate) fn bears(&self, quad: usize) -> bool {
        self.alive[quad]
    }

    /// What a bar pulls beyond an elastic one of the same strain, N; − if it wants to be shorter. Of weld metal, which
    /// the stiffness of the plates does not count, the whole pull.
    pub(crate) fn excess_n(&self, bar: usize, plate: bool, joined_strain: f64) -> f64 {
        let elastic = if plate { self.e_mpa * (self.total_strain(bar) - joined_strain) } else { 0.0 };
        (self.stress[bar] - elastic) * self.area_mm2[bar]
    }

    /// Comes to equilibrium at these temperatures of the bars, °C.
    ///
    /// # Errors
    /// [`Failure`]; the state is then that before.
    pub(crate) fn advance(&mut self, t_c: &[f64]) -> Result<(), Failure> {
        for (hot, t) in self.hot.iter_mut().zip(t_c) {
            *hot = self.properties.at(*t);
        }
        let before = self.plane;
        let mut settled = self.settle(0);
        if matches!(settled, Err(Failure::Diverged(_))) {
            // where most bars yield the full step may overshoot from one side to the other for ever
            self.plane = before;
            settled = self.settle(MOST_SHORTER);
        }
        if settled.is_err() {
            self.plane = before;
        }
        settled
    }

    /// Newton's steps, each halved up to `shorter` times until it leaves less unbalanced than before.
    fn settle(&mut self, shorter: u32) -> Result<(), Failure> {
        let mut last = f64::INFINITY;
        let (mut rest, mut core, mut left) = self.evaluate();
        for iteration in 0..MOST_ITERATIONS {
            if !left.is_finite() {
                return Err(SolveError::NotFinite.into());
            }
            if left <= TOLERANCE {
                self.memory.copy_from_slice(&self.trial);
                self.tally.steps += 1;
                self.tally.iterations += iteration;
                return Ok(());
            }
            last = left;
            let mut step = solve_three(core, rest).ok_or(SolveError::NotPositiveDefinite)?;
            (0..3).for_each(|m| self.plane[m] += step[m]);
            (rest, core, left) = self.evaluate();
            for _ in 0..shorter {
                if left < last {
                    break;
                }
                step = step.map(|s| 0.5 * s);
                (0..3).for_each(|m| self.plane[m] -= step[m]);
                (rest, core, left) = self.evaluate();
            }
        }
        Err(Failure::Diverged(last))
    }

    /// Resultants to be balanced, their tangent, and what is unbalanced over the forces there are.
    fn evaluate(&mut self) -> ([f64; 3], [[f64; 3]; 3], f64) {
        let (mut rest, mut amounts, mut core) = ([0.0; 3], [0.0; 3], [[0.0; 3]; 3]);
        for quad in (0..self.alive.len()).filter(|q| self.alive[*q]) {
            for bar in 4 * quad..4 * quad + 4 {
                let modes = self.modes[bar];
                let strain = self.plane[0] + self.plane[1] * modes[1] + self.plane[2] * modes[2]
                    - self.reference[bar]
                    - self.hot[bar].elongation;
                let (stress, memory, tangent) = bar_answer(strain, &self.memory[bar], &self.hot[bar]);
                (self.stress[bar], self.trial[bar], self.tangent[bar]) = (stress, memory, tangent);
                let (force, stiff) = (stress * self.area_mm2[bar], tangent * self.area_mm2[bar]);
                for a in 0..3 {
                    let part = force * modes[a];
                    rest[a] -= part;
                    amounts[a] += part.abs();
                    for b in 0..=a {
                        core[a][b] += stiff * modes[a] * modes[b];
                    }
                }
            }
        }
        for [a, b] in [[0, 1], [0, 2], [1, 2]] {
            core[a][b] = core[b][a];
        }
        let ratio = |m: usize| rest[m].abs() / amounts[m].max(NO_FORCE);
        let left = if self.held { 0.0 } else { (0..3).map(ratio).fold(0.0, f64::max) };
        (rest, core, left)
    }

    /// Makes a quadrilateral bear, free of stress at the present strain and these temperatures of its four bars, or at
    /// that strain without its change across z; returns the strain so taken at each bar.
    pub(crate) fn bear(&mut self, quad: usize, t_c: [f64; 4], straight: bool) -> [f64; 4] {
        self.alive[quad] = true;
        [0, 1, 2, 3].map(|k| {
            let bar = 4 * quad + k;
            let across = if straight { self.plane[1] * self.modes[bar][1] } else { 0.0 };
            let strain = self.total_strain(bar) - across;
            self.hot[bar] = self.properties.at(t_c[k]);
            self.reference[bar] = strain - self.hot[bar].elongation;
            (self.memory[bar], self.trial[bar]) = (Memory::default(), Memory::default());
            strain
        })
    }
}
