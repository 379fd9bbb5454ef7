//! From quadrilaterals to points where stress is known and to the network through which heat flows.

use super::grid::{CellGrid, Quad};
use crate::joint_solver::{Network, four, gauss_places, placed};
use std::collections::BTreeMap;

/// Area of an unknown that is not there, mm²: next to none, so that its equation still has a solution.
const ABSENT_MM2: f64 = 1e-9;

/// One of the four Gauss points of a quadrilateral.
#[derive(Debug, Clone, Copy)]
pub(crate) struct IntegrationPoint {
    /// Place [z, y], mm.
    pub(crate) at_mm: [f64; 2],
    /// Area, mm².
    pub(crate) area_mm2: f64,
    /// Share of each corner in the temperature here.
    pub(crate) shares: [f64; 4],
    /// Slope of each share to [z, y], 1/mm.
    slopes: [[f64; 2]; 4],
}

/// The four points of a quadrilateral.
pub(crate) fn integration_points(grid: &CellGrid, quad: &Quad) -> [IntegrationPoint; 4] {
    gauss_places().map(|place| {
        let (shares, local) = four(place);
        let (at_mm, area_mm2, slope) = placed(&shares, &local, &quad.corners.map(|c| grid.corners_mm[c]));
        // Corners may run either way around.
        IntegrationPoint { at_mm, area_mm2: area_mm2.abs(), shares, slopes: local.map(slope) }
    })
}

/// The network of the quadrilaterals that are `there`.
pub(crate) fn network(grid: &CellGrid, points: &[IntegrationPoint], there: &[bool]) -> Network {
    let mut flows: BTreeMap<(usize, usize), f64> = BTreeMap::new();
    let mut capacity_mm2 = vec![ABSENT_MM2; grid.unknowns];
    let mut edges: BTreeMap<[usize; 2], (u32, f64)> = BTreeMap::new();
    for ((quad, points), _) in grid.quads.iter().zip(points.chunks_exact(4)).zip(there).filter(|(_, t)| **t) {
        let own = quad.corners.map(|c| grid.unknown[c]);
        for point in points {
            for a in 0..4 {
                capacity_mm2[own[a]] += point.shares[a] * point.area_mm2;
                for b in (0..a).filter(|&b| own[b] != own[a]) {
                    let dot: f64 = (0..2).map(|c| point.slopes[a][c] * point.slopes[b][c]).sum();
                    let pair = (own[a].min(own[b]), own[a].max(own[b]));
                    *flows.entry(pair).or_default() -= dot * point.area_mm2;
                }
            }
        }
        for k in 0..4 {
            let (a, b) = (quad.corners[k], quad.corners[(k + 1) % 4]);
            let ([z0, y0], [z1, y1]) = (grid.corners_mm[a], grid.corners_mm[b]);
            let edge = edges.entry([a.min(b), a.max(b)]).or_insert((0, (z1 - z0).hypot(y1 - y0)));
            edge.0 += 1;
        }
    }
    let mut skin_mm = vec![0.0; grid.unknowns];
    for ([a, b], (_, length)) in edges.into_iter().filter(|(_, (count, _))| *count == 1) {
        let ends = [a, b].map(|c| grid.unknown[c]);
        // Tied corners lie across a plate: there it goes on, or ends in an edge too small to matter.
        if ends[0] != ends[1] {
            ends.into_iter().for_each(|end| skin_mm[end] += length / 2.0);
        }
    }
    let couplings = flows.into_iter().map(|((a, b), flows)| (a, b, flows)).collect();
    Network { capacity_mm2, skin_mm, couplings }
}
