//! A heat problem by its numbers alone: what each temperature holds and loses, and what flows from one to the other.

use super::mesh::EDGES;
use super::shape::Bilinear;
use std::collections::BTreeMap;

/// A heat problem.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Network {
    /// Area that belongs to each unknown, mm²; one that is not there may have next to none.
    pub(crate) capacity_mm2: Vec<f64>,
    /// Free surface of each unknown, mm.
    pub(crate) skin_mm: Vec<f64>,
    /// Lower triangle of the conduction matrix by column and row, without unit.
    pub(crate) conduction: BTreeMap<(usize, usize), f64>,
}

/// A quadrilateral as heat sees it.
pub(crate) struct Quadrilateral {
    /// Its corners, around it.
    pub(crate) corners: [usize; 4],
    /// Where they stand, mm.
    pub(crate) places_mm: [[f64; 2]; 4],
    /// Its Gauss points.
    pub(crate) points: [Bilinear; 4],
}

impl Network {
    /// Of quadrilaterals whose corners have so many unknowns, each holding at least so much, mm²; `unknown` is that of a corner.
    pub(crate) fn of(
        unknowns: usize,
        least_mm2: f64,
        quadrilaterals: impl Iterator<Item = Quadrilateral>,
        unknown: impl Fn(usize) -> usize,
    ) -> Self {
        let (mut capacity_mm2, mut conduction) = (vec![least_mm2; unknowns], BTreeMap::new());
        let mut edges: Vec<([usize; 2], f64)> = Vec::new();
        for Quadrilateral { corners, places_mm, points } in quadrilaterals {
            let own = corners.map(&unknown);
            for point in points {
                for a in 0..4 {
                    capacity_mm2[own[a]] += point.shares[a] * point.area_mm2;
                    for b in 0..=a {
                        let dot: f64 = (0..2).map(|c| point.slopes[a][c] * point.slopes[b][c]).sum();
                        let place = (own[a].min(own[b]), own[a].max(own[b]));
                        *conduction.entry(place).or_insert(0.0) += dot * point.area_mm2;
                    }
                }
            }
            edges.extend(EDGES.map(|[a, b]| {
                let ([x0, y0], [x1, y1]) = (places_mm[a], places_mm[b]);
                let ends = [corners[a].min(corners[b]), corners[a].max(corners[b])];
                (ends, (x1 - x0).hypot(y1 - y0))
            }));
        }
        let mut skin_mm = vec![0.0; unknowns];
        edges.sort_unstable_by_key(|edge| edge.0);
        // an edge that belongs to one quadrilateral only is free
        for edge in edges.chunk_by(|a, b| a.0 == b.0).filter(|same| same.len() == 1) {
            let (ends, length) = edge[0];
            let ends = ends.map(&unknown);
            // Tied corners lie across a plate: there it goes on, or ends in an edge too small to matter.
            if ends[0] != ends[1] {
                ends.into_iter().for_each(|end| skin_mm[end] += length / 2.0);
            }
        }
        Self { capacity_mm2, skin_mm, conduction }
    }

    /// The same with the diagonal the sum of what flows between unknowns, where some corners share one.
    #[must_use]
    pub(crate) fn closed(mut self) -> Self {
        self.conduction.retain(|(column, row), _| column != row);
        for ((column, row), k) in self.conduction.clone() {
            for end in [column, row] {
                *self.conduction.entry((end, end)).or_insert(0.0) -= k;
            }
        }
        self
    }
}
