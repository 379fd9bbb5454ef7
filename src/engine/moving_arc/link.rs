//! What the plates do along the joint, from slice to slice, and the system that closes all slices together.

use super::stations::Stations;
use crate::joint_solver::{Grouping, SolveError, Symmetric};

/// Stiffness with which a station is held where it may not move, N/mm².
const HELD: f64 = 1e7;
/// What takes hold of a plate that stands off closes so much of it in every step (a choice: rolls run on, they do not snap shut).
const LEFT_OPEN: f64 = 0.5;

/// Elastic plates between slices: a symmetric matrix over the stations of all slices, per millimetre of joint.
pub(super) struct Link {
    /// Unknowns of a slice.
    pub(crate) ports: usize,
    slices: usize,
    /// Lower triangle: row, column, value; sorted, each place once.
    plates: Vec<(usize, usize, f64)>,
    /// Unknowns that are held, and where, mm.
    holds: Vec<(usize, f64)>,
    /// What loads the stations, N/mm.
    pub(crate) loads: Vec<f64>,
    system: Symmetric,
    /// Place in the system of each entry of a slice's own block, of each of `plates`, of each diagonal.
    blocks: Vec<usize>,
    slots: Vec<usize>,
    diagonal: Vec<usize>,
}

impl Link {
    /// Of so many slices a spacing apart.
    pub(super) fn new(
        stations: &Stations,
        e_mpa: f64,
        slices: usize,
        spacing_mm: f64,
    ) -> Result<Self, SolveError> {
        let ports = 2 * stations.nodes.len();
        let plates = entries(stations, e_mpa, slices, spacing_mm);
        let groups: Vec<Vec<usize>> =
            (0..slices).map(|s| (s * ports..((s + 3).min(slices)) * ports).collect()).collect();
        let system = Symmetric::new(slices * ports, groups.iter().map(|g| &g[..]), Grouping::Blocks)?;
        let slot = |a, b| system.slot(a, b).unwrap_or_default();
        let blocks = (0..slices)
            .flat_map(|s| (0..ports).flat_map(move |i| (0..=i).map(move |j| (s * ports + i, s * ports + j))))
            .map(|(a, b)| slot(a, b))
            .collect();
        let slots = plates.iter().map(|&(a, b, _)| slot(a, b)).collect();
        let diagonal = (0..slices * ports).map(|a| slot(a, a)).collect();
        Ok(Self {
            ports,
            slices,
            plates,
            holds: Vec::new(),
            loads: vec![0.0; slices * ports],
            system,
            blocks,
            slots,
            diagonal,
        })
    }

    /// Holds these stations, (slice, degree of freedom), and no others: those that stand off are brought nearer to where they belong.
    /// Whether others are held than before.
    pub(super) fn hold(&mut self, held: &[(usize, usize)], moved: &[f64]) -> bool {
        let before = std::mem::take(&mut self.holds);
        let stands = |a: usize| before.iter().find(|(held, _)| *held == a).map_or(moved[a], |(_, at)| *at);
        let unknowns = held.iter().map(|(slice, port)| slice * self.ports + port);
        self.holds = unknowns.map(|a| (a, LEFT_OPEN * stands(a))).collect();
        !self.holds.iter().map(|h| h.0).eq(before.iter().map(|h| h.0))
    }

    /// Forces of what holds at these movements, N/mm.
    pub(crate) fn reactions(&self, moved: &[f64]) -> Vec<f64> {
        let mut forces = vec![0.0; moved.len()];
        self.holds.iter().for_each(|&(a, at)| forces[a] = -HELD * (moved[a] - at));
        forces
    }

    /// Pull of plates and holds on the stations at these movements.
    pub(crate) fn pulls(&self, moved: &[f64]) -> Vec<f64> {
        let mut pulls = self.loads.clone();
        for &(a, b, k) in &self.plates {
            pulls[a] -= k * moved[b];
            if a != b {
                pulls[b] -= k * moved[a];
            }
        }
        self.holds.iter().for_each(|&(a, at)| pulls[a] -= HELD * (moved[a] - at));
        pulls
    }

    /// Factorises with the stiffness of each slice at its stations, row by row, less `spring` on its diagonal.
    pub(crate) fn renew(&mut self, own: &[&[f64]], spring: f64) -> Result<(), SolveError> {
        let Self { system, ports, blocks, slots, diagonal, plates, holds, slices, .. } = self;
        system.values.fill(0.0);
        let per = *ports * (*ports + 1) / 2;
        for s in 0..*slices {
            let mut k = s * per;
            for i in 0..*ports {
                for j in 0..=i {
                    system.values[blocks[k]] += own[s][i * *ports + j];
                    k += 1;
                }
                system.values[diagonal[s * *ports + i]] -= spring;
            }
        }
        plates.iter().zip(slots.iter()).for_each(|(&(_, _, k), &slot)| system.values[slot] += k);
        holds.iter().for_each(|&(a, _)| system.values[diagonal[a]] += HELD);
        system.factorise()
    }

    /// Solves in place.
    pub(crate) fn solve(&mut self, side: &mut [f64]) -> Result<(), SolveError> {
        self.system.solve(side)
    }
}

fn entries(stations: &Stations, e_mpa: f64, slices: usize, h: f64) -> Vec<(usize, usize, f64)> {
    let ports = 2 * stations.nodes.len();
    let mut all: std::collections::BTreeMap<(usize, usize), f64> = std::collections::BTreeMap::new();
    // Adds k (Σ c u)² / 2.
    let mut square = |terms: &[(usize, f64)], k: f64| {
        for &(a, ca) in terms {
            for &(b, cb) in terms {
                if b <= a {
                    *all.entry((a, b)).or_default() += k * ca * cb;
                }
            }
        }
    };
    for plate in &stations.plates {
        let (plane, off) = (plate.plane, 1 - plate.plane);
        let port =
            |slice: usize, station: usize, dof: usize| slice * ports + 2 * plate.stations[station] + dof;
        let (shear, twist, bending) = (plate.shear(e_mpa), plate.twist(e_mpa), plate.bending(e_mpa));
        for s in 1..slices {
            for (j, k) in shear.iter().enumerate() {
                square(&[(port(s - 1, j, plane), -1.0), (port(s, j, plane), 1.0)], k / (h * h));
            }
            for (j, k) in twist.iter().enumerate() {
                let terms = [
                    (port(s - 1, j, off), 1.0),
                    (port(s - 1, j + 1, off), -1.0),
                    (port(s, j, off), -1.0),
                    (port(s, j + 1, off), 1.0),
                ];
                square(&terms, k / (h * h));
            }
        }
        for s in 1..slices.saturating_sub(1) {
            for (j, b) in plate.widths_mm.iter().enumerate() {
                let terms = [(port(s - 1, j, off), 1.0), (port(s, j, off), -2.0), (port(s + 1, j, off), 1.0)];
                square(&terms, bending * b / h.powi(4));
            }
        }
    }
    all.into_iter().map(|((a, b), k)| (a, b, k)).collect()
}
