//! Eight-node quadrilaterals over a cross-section.

use super::SectionError;
use super::error::within;
use crate::welding::Side;
use serde::Serialize;
use std::collections::BTreeMap;

/// Most displacement unknowns of a mesh; beyond it a mesh is refused.
pub(crate) const MOST_UNKNOWNS: usize = 1_000_000;

/// Points closer than this are one, mm.
pub(crate) const SAME_POINT_MM: f64 = 1e-6;

/// What an element is made from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ElementKind {
    /// Flange plate, or any other plate that is there from the start.
    Flange,
    /// Web stub.
    Web,
    /// The fillet on that side of the web, laid by its pass.
    Fillet(Side),
}

/// One element: nodes at the corners, counter-clockwise, then those amid the edges 0–1, 1–2, 2–3, 3–0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Element {
    /// Indices of its nodes.
    pub nodes: [usize; 8],
    /// What it is made from.
    pub part: ElementKind,
}

/// Two nodes at one place that may part but not overlap: the lower belongs to the flange, the upper to the web foot.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Facing {
    /// Node of the flange.
    pub lower: usize,
    /// Node of the web.
    pub upper: usize,
    /// Width of web foot that belongs to it, mm.
    pub width_mm: f64,
}

/// A meshed cross-section. Places are [across, up], mm: across the flange with the near side positive, up the web.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Mesh {
    /// Place of each node, mm.
    pub nodes_mm: Vec<[f64; 2]>,
    /// The elements.
    pub elements: Vec<Element>,
    /// Pairs of nodes across a slit.
    pub facing: Vec<Facing>,
}

/// The two corner nodes of each edge, in the order of the mid-edge nodes.
pub const EDGES: [[usize; 2]; 4] = [[0, 1], [1, 2], [2, 3], [3, 0]];

impl Mesh {
    /// A rectangle with lines at these places, all of one part.
    ///
    /// # Errors
    /// `TooLarge` if it would have more than `MOST_UNKNOWNS` unknowns, `OutOfRange` for fewer than two lines.
    pub fn block(across_mm: &[f64], up_mm: &[f64], part: ElementKind) -> Result<Self, SectionError> {
        let fewest = across_mm.len().min(up_mm.len()) as f64;
        within("lines of a block", fewest, 2.0, MOST_UNKNOWNS as f64)?;
        refuse_if_large(across_mm.len() as f64 * up_mm.len() as f64)?;
        let mut draft = Draft::default();
        draft.patch(across_mm.len() - 1, up_mm.len() - 1, part, |i, j| [across_mm[i], up_mm[j]]);
        Ok(draft.finish())
    }

    /// The same mesh with every node moved; the map must keep areas positive.
    #[cfg(test)]
    pub(super) fn mapped(mut self, map: impl Fn([f64; 2]) -> [f64; 2]) -> Self {
        for node in &mut self.nodes_mm {
            *node = map(*node);
        }
        self
    }

    /// Displacement unknowns, two a node.
    pub const fn unknowns(&self) -> usize {
        2 * self.nodes_mm.len()
    }

    /// For each node, the first node at the same place: itself, except on the upper face of a slit.
    pub(crate) fn coincident(&self) -> Vec<usize> {
        let mut first: Vec<usize> = (0..self.nodes_mm.len()).collect();
        for pair in &self.facing {
            first[pair.upper] = pair.lower;
        }
        first
    }
}

/// `TooLarge` if about `elements` elements have too many unknowns: three nodes each, two unknowns a node.
pub(crate) fn refuse_if_large(elements: f64) -> Result<(), SectionError> {
    let unknowns = 6.0 * elements;
    // Written so that a NaN is refused too.
    if unknowns <= MOST_UNKNOWNS as f64 {
        Ok(())
    } else {
        Err(SectionError::TooLarge { unknowns, most: MOST_UNKNOWNS })
    }
}

/// A mesh of four-node quadrilaterals in the making; corners at one place and on one layer are one node.
#[derive(Default)]
pub(crate) struct Draft {
    corners: Vec<[f64; 2]>,
    upper_face: Vec<bool>,
    known: BTreeMap<(i64, i64, bool), usize>,
    quads: Vec<([usize; 4], ElementKind)>,
    slit_half_mm: Option<f64>,
}

impl Draft {
    /// Parts the web foot from the flange where |across| is less than this, mm.
    pub(crate) const fn slit(&mut self, half_width_mm: f64) {
        self.slit_half_mm = Some(half_width_mm);
    }

    fn corner(&mut self, at: [f64; 2], part: ElementKind) -> usize {
        let open = self.slit_half_mm.is_some_and(|half| at[0].abs() < half - SAME_POINT_MM);
        let upper = part == ElementKind::Web && at[1].abs() < SAME_POINT_MM && open;
        let grid = |x: f64| (x / SAME_POINT_MM).round() as i64;
        let next = self.corners.len();
        let node = *self.known.entry((grid(at[0]), grid(at[1]), upper)).or_insert(next);
        if node == next {
            self.corners.push(at);
            self.upper_face.push(upper);
        }
        node
    }

    /// Adds columns × rows quadrilaterals; `place` gives the corner (column, row).
    pub(crate) fn patch(
        &mut self,
        columns: usize,
        rows: usize,
        part: ElementKind,
        place: impl Fn(usize, usize) -> [f64; 2],
    ) {
        for j in 0..rows {
            for i in 0..columns {
                let mut at = [place(i, j), place(i + 1, j), place(i + 1, j + 1), place(i, j + 1)];
                if area(&at) < 0.0 {
                    at.reverse();
                }
                let quad = at.map(|p| self.corner(p, part));
                self.quads.push((quad, part));
            }
        }
    }

    /// Adds the nodes amid the edges.
    pub(crate) fn finish(self) -> Mesh {
        let mut nodes_mm = self.corners;
        let mut amid: BTreeMap<[usize; 2], usize> = BTreeMap::new();
        let mut elements = Vec::with_capacity(self.quads.len());
        for (quad, part) in self.quads {
            let mut nodes = [0; 8];
            nodes[..4].copy_from_slice(&quad);
            for (k, [a, b]) in EDGES.into_iter().enumerate() {
                let (a, b) = (quad[a].min(quad[b]), quad[a].max(quad[b]));
                nodes[4 + k] = *amid.entry([a, b]).or_insert_with(|| {
                    nodes_mm.push([0, 1].map(|c| (nodes_mm[a][c] + nodes_mm[b][c]) / 2.0));
                    nodes_mm.len() - 1
                });
            }
            elements.push(Element { nodes, part });
        }
        let facing = self.slit_half_mm.map_or_else(Vec::new, |_| facing(&nodes_mm, &elements));
        Mesh { nodes_mm, elements, facing }
    }
}

/// Nodes at one place, with the width of the web foot shared out by Simpson's rule along its edges.
fn facing(nodes_mm: &[[f64; 2]], elements: &[Element]) -> Vec<Facing> {
    let on_foot = |n: usize| nodes_mm[n][1].abs() < SAME_POINT_MM;
    let mut width: BTreeMap<usize, f64> = BTreeMap::new();
    let mut lower: BTreeMap<i64, usize> = BTreeMap::new();
    for element in elements {
        for (k, [a, b]) in EDGES.into_iter().enumerate() {
            let edge = [element.nodes[a], element.nodes[4 + k], element.nodes[b]];
            if !edge.iter().all(|&n| on_foot(n)) {
                continue;
            }
            let length = (nodes_mm[edge[0]][0] - nodes_mm[edge[2]][0]).abs();
            for (n, share) in edge.into_iter().zip([1.0 / 6.0, 4.0 / 6.0, 1.0 / 6.0]) {
                if element.part == ElementKind::Web {
                    *width.entry(n).or_default() += share * length;
                } else {
                    lower.insert((nodes_mm[n][0] / SAME_POINT_MM).round() as i64, n);
                }
            }
        }
    }
    let pair = |(&upper, &width_mm): (&usize, &f64)| {
        let key = (nodes_mm[upper][0] / SAME_POINT_MM).round() as i64;
        let &lower = lower.get(&key)?;
        (lower != upper).then_some(Facing { lower, upper, width_mm })
    };
    width.iter().filter_map(pair).collect()
}

fn area(p: &[[f64; 2]; 4]) -> f64 {
    (0..4).map(|i| p[i][0] * p[(i + 1) % 4][1] - p[(i + 1) % 4][0] * p[i][1]).sum::<f64>() / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_block_shares_the_nodes_of_its_edges() {
        let mesh = Mesh::block(&[0.0, 1.0, 3.0], &[0.0, 2.0], ElementKind::Flange).unwrap();
        // 3 × 2 corners, 7 edges.
        assert_eq!((mesh.elements.len(), mesh.nodes_mm.len(), mesh.unknowns()), (2, 13, 26));
        assert_eq!(mesh.elements[0].nodes[5], mesh.elements[1].nodes[7], "the common edge has one mid node");
        assert!(mesh.facing.is_empty());
    }

    #[test]
    fn a_mesh_beyond_a_million_unknowns_is_refused_with_its_size() {
        let lines: Vec<f64> = (0..500).map(f64::from).collect();
        let refused = Mesh::block(&lines, &lines, ElementKind::Flange).unwrap_err();
        assert_eq!(refused, SectionError::TooLarge { unknowns: 1_500_000.0, most: MOST_UNKNOWNS });
        assert!(refuse_if_large(f64::NAN).is_err());
        assert!(Mesh::block(&[], &lines, ElementKind::Flange).is_err(), "no lines make no block");
    }
}
