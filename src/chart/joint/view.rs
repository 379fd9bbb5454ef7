//! A window onto the joint, placed on paper.

use super::clip::{Vertex, clipped};
use crate::Done;
use crate::canvas::{At, Canvas, Point};
use crate::chains::chains;
use crate::theme::{BLACK, FULL, GREY, SMALL, Stroke};
use std::collections::BTreeMap;
use weldbow_engine::joint_solver::{EDGES, ElementKind, Mesh};

/// Outer edges of the joint.
pub(super) const SKIN: Stroke = Stroke::new(BLACK, 1.2, FULL);
/// Where parts meet.
pub(super) const JOIN: Stroke = Stroke::new(GREY, 0.8, FULL);

/// What of the joint is shown, mm, and where, px.
#[derive(Debug, Clone, Copy)]
pub(super) struct View {
    /// Left, lower, right and upper end of the window, mm.
    pub(crate) window: [f64; 4],
    /// px per mm.
    pub(crate) scale: f64,
    /// Left upper corner on paper.
    pub(crate) corner: Point,
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

    /// Names of the two sides, so far below the picture.
    pub(super) fn sides(&self, paper: &Canvas<'_>, below: f64) -> Done {
        let (middle, y) = (self.at([0.0, 0.0]).0, self.end().1 + below);
        paper.text((middle + 6.0, y), At::Left, "near side →", SMALL)?;
        paper.text((middle - 6.0, y), At::Right, "← far side", SMALL)
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

    /// A line through points of the joint, cut off at the window.
    pub(super) fn path(&self, paper: &Canvas<'_>, points: &[[f64; 2]], stroke: Stroke) -> Done {
        let mut piece: Vec<Point> = Vec::new();
        for ends in points.windows(2) {
            let Some([from, to]) = self.cut([ends[0], ends[1]]) else { continue };
            if piece.last().is_none_or(|last| (last.0 - from.0).hypot(last.1 - from.1) > 1e-6) {
                if piece.len() > 1 {
                    paper.line(&piece, stroke)?;
                }
                piece = vec![from];
            }
            piece.push(to);
        }
        if piece.len() > 1 { paper.line(&piece, stroke) } else { Ok(()) }
    }

    /// The part of a straight line inside the window, on paper.
    fn cut(&self, ends: [[f64; 2]; 2]) -> Option<[Point; 2]> {
        let [left, low, right, high] = self.window;
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for (c, least, most) in [(0, left, right), (1, low, high)] {
            let (start, run) = (ends[0][c], ends[1][c] - ends[0][c]);
            if run.abs() < 1e-12 {
                if start < least - 1e-9 || start > most + 1e-9 {
                    return None;
                }
                continue;
            }
            let (a, b) = ((least - start) / run, (most - start) / run);
            from = from.max(a.min(b));
            to = to.min(a.max(b));
        }
        let at = |part: f64| self.at([0, 1].map(|c| ends[0][c] + part * (ends[1][c] - ends[0][c])));
        (to - from > 1e-9).then(|| [at(from), at(to)])
    }

    /// Outer edges, and lines where parts meet.
    pub(super) fn outlines(&self, paper: &Canvas<'_>, mesh: &Mesh, shown: &[bool]) -> Done {
        for (chain, is_skin) in outlines(mesh, shown) {
            let points: Vec<[f64; 2]> = chain.into_iter().map(|n| mesh.nodes_mm[n]).collect();
            self.path(paper, &points, if is_skin { SKIN } else { JOIN })?;
        }
        Ok(())
    }
}

/// Lines through corner nodes along edges between two parts (false), then along edges of one shown element only (true).
pub(super) fn outlines(mesh: &Mesh, shown: &[bool]) -> Vec<(Vec<usize>, bool)> {
    let mut edges: BTreeMap<[usize; 2], Vec<ElementKind>> = BTreeMap::new();
    for (element, _) in mesh.elements.iter().zip(shown).filter(|(_, shown)| **shown) {
        for [a, b] in EDGES {
            let (a, b) = (element.nodes[a], element.nodes[b]);
            edges.entry([a.min(b), a.max(b)]).or_default().push(element.part);
        }
    }
    let (mut skin, mut joins) = (Vec::new(), Vec::new());
    for (ends, parts) in edges {
        match parts.as_slice() {
            [_] => skin.push(ends),
            [one, other] if one != other => joins.push(ends),
            _ => {}
        }
    }
    let chained = |edges: Vec<[usize; 2]>, is_skin| chains(edges).into_iter().map(move |c| (c, is_skin));
    chained(joins, false).chain(chained(skin, true)).collect()
}

/// Every edge of the mesh once, in lines.
pub(super) fn all_edges(mesh: &Mesh) -> Vec<Vec<usize>> {
    let mut edges: Vec<[usize; 2]> = mesh
        .elements
        .iter()
        .flat_map(|e| EDGES.map(|[a, b]| [e.nodes[a].min(e.nodes[b]), e.nodes[a].max(e.nodes[b])]))
        .collect();
    edges.sort_unstable();
    edges.dedup();
    chains(edges)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_cut_off_at_the_window() {
        let view = View { window: [0.0, 0.0, 10.0, 10.0], scale: 2.0, corner: (100.0, 50.0) };
        assert_eq!(view.cut([[-5.0, 5.0], [5.0, 5.0]]), Some([(100.0, 60.0), (110.0, 60.0)]));
        assert_eq!(view.cut([[-5.0, 11.0], [5.0, 11.0]]), None);
        assert_eq!(view.cut([[12.0, 0.0], [14.0, 5.0]]), None);
    }
}
