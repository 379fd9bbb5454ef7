//! A window onto the joint, placed on paper.

use super::bands::{Vertex, clipped};
use crate::chart::ChartError;
use crate::chart::paper::{Paper, Point};
use crate::chart::theme::{BLACK, FULL, GREY, Stroke};
use crate::section::{EDGES, Mesh, Part};
use std::collections::BTreeMap;

/// Outer edges of the joint.
pub(super) const SKIN: Stroke = Stroke::new(BLACK, 1.2, FULL);
/// Where parts meet.
pub(super) const JOIN: Stroke = Stroke::new(GREY, 0.8, FULL);

/// What of the joint is shown, mm, and where, px.
#[derive(Debug, Clone, Copy)]
pub(super) struct View {
    /// Left, lower, right and upper end of the window, mm.
    pub window: [f64; 4],
    /// px per mm.
    pub scale: f64,
    /// Left upper corner on paper.
    pub corner: Point,
}

impl View {
    /// The largest view of a window inside a box of that size, px, at a corner; narrower windows are centred.
    pub(super) fn fitted(window: [f64; 4], corner: Point, (width, height): (f64, f64)) -> Self {
        let (wide, tall) = (window[2] - window[0], window[3] - window[1]);
        let scale = (width / wide).min(height / tall);
        let left = corner.0 + 0.5 * (width - scale * wide);
        Self { window, scale, corner: (left, corner.1) }
    }

    /// Place of a point of the joint.
    pub(super) fn at(&self, [across, up]: [f64; 2]) -> Point {
        (
            self.corner.0 + (across - self.window[0]) * self.scale,
            self.corner.1 + (self.window[3] - up) * self.scale,
        )
    }

    /// Right lower corner on paper.
    pub(super) fn end(&self) -> Point {
        self.at([self.window[2], self.window[1]])
    }

    /// The part of a convex shape inside the window.
    pub(super) fn inside(&self, shape: &[Vertex]) -> Vec<Vertex> {
        let [left, low, right, high] = self.window;
        let walls: [fn(&Vertex, f64) -> f64; 4] =
            [|v, w| v.at[0] - w, |v, w| v.at[1] - w, |v, w| w - v.at[0], |v, w| w - v.at[1]];
        let mut shape = shape.to_vec();
        for (wall, place) in walls.into_iter().zip([left, low, right, high]) {
            shape = clipped(&shape, |v| wall(v, place));
        }
        shape
    }

    /// A straight line of the joint, cut off at the window.
    pub(super) fn line(
        &self,
        paper: &Paper<'_>,
        ends: [[f64; 2]; 2],
        stroke: Stroke,
    ) -> Result<(), ChartError> {
        let [left, low, right, high] = self.window;
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for (c, least, most) in [(0, left, right), (1, low, high)] {
            let (start, run) = (ends[0][c], ends[1][c] - ends[0][c]);
            if run.abs() < 1e-12 {
                if start < least - 1e-9 || start > most + 1e-9 {
                    return Ok(());
                }
                continue;
            }
            let (a, b) = ((least - start) / run, (most - start) / run);
            from = from.max(a.min(b));
            to = to.min(a.max(b));
        }
        if to - from < 1e-9 {
            return Ok(());
        }
        let at = |part: f64| self.at([0, 1].map(|c| ends[0][c] + part * (ends[1][c] - ends[0][c])));
        paper.line(&[at(from), at(to)], stroke)
    }

    /// Outer edges, and lines where parts meet.
    pub(super) fn outlines(&self, paper: &Paper<'_>, mesh: &Mesh, shown: &[bool]) -> Result<(), ChartError> {
        for (ends, is_skin) in outlines(mesh, shown) {
            let ends = ends.map(|n| mesh.nodes_mm[n]);
            self.line(paper, ends, if is_skin { SKIN } else { JOIN })?;
        }
        Ok(())
    }
}

/// Edges of one shown element only (true), or between two parts (false), as pairs of corner nodes.
pub(super) fn outlines(mesh: &Mesh, shown: &[bool]) -> Vec<([usize; 2], bool)> {
    let mut edges: BTreeMap<[usize; 2], Vec<Part>> = BTreeMap::new();
    for (element, _) in mesh.elements.iter().zip(shown).filter(|(_, shown)| **shown) {
        for [a, b] in EDGES {
            let (a, b) = (element.nodes[a], element.nodes[b]);
            edges.entry([a.min(b), a.max(b)]).or_default().push(element.part);
        }
    }
    let kind = |(ends, parts): ([usize; 2], Vec<Part>)| match parts.as_slice() {
        [_] => Some((ends, true)),
        [one, other] if one != other => Some((ends, false)),
        _ => None,
    };
    edges.into_iter().filter_map(kind).collect()
}

/// Every edge of the shown elements once.
pub(super) fn all_edges(mesh: &Mesh, shown: &[bool]) -> Vec<[usize; 2]> {
    let mut edges: Vec<[usize; 2]> = mesh
        .elements
        .iter()
        .zip(shown)
        .filter(|(_, shown)| **shown)
        .flat_map(|(e, _)| EDGES.map(|[a, b]| [e.nodes[a].min(e.nodes[b]), e.nodes[a].max(e.nodes[b])]))
        .collect();
    edges.sort_unstable();
    edges.dedup();
    edges
}
