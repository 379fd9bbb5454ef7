//! Values between nodes, and values at nodes from those at points: what pictures and readings along lines need.

use super::mesh::{ElementKind, Mesh};
use super::shape::bilinear;

/// How far outside an element a place still counts as inside it, in its own coordinates (rounding).
const EDGE: f64 = 1e-9;
/// Newton steps to find a place in a quadrilateral; a parallelogram takes one.
const MOST_STEPS: usize = 20;

/// Values at the nodes of a mesh, straight between corner nodes along every edge.
#[derive(Debug, Clone, Copy)]
pub struct NodalField<'a> {
    mesh: &'a Mesh,
    values: &'a [f64],
}

impl<'a> NodalField<'a> {
    /// One value for each node of the mesh.
    pub const fn new(mesh: &'a Mesh, values: &'a [f64]) -> Self {
        Self { mesh, values }
    }

    /// Value at a place [across, up], mm, in the first element of a wanted part that holds it; `None` outside.
    pub fn at(&self, place_mm: [f64; 2], wanted: impl Fn(ElementKind) -> bool) -> Option<f64> {
        self.mesh.elements.iter().filter(|e| wanted(e.part)).find_map(|element| {
            let corners = [0, 1, 2, 3].map(|k| self.mesh.nodes_mm[element.nodes[k]]);
            let weights = inside(&corners, place_mm)?;
            Some((0..4).map(|k| weights[k] * self.values[element.nodes[k]]).sum())
        })
    }
}

/// Bilinear weights of the corners at a place; `None` if it lies outside.
fn inside(corners: &[[f64; 2]; 4], place: [f64; 2]) -> Option<[f64; 4]> {
    for c in 0..2 {
        let (low, high) = corners
            .iter()
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), p| (low.min(p[c]), high.max(p[c])));
        if place[c] < low - EDGE || place[c] > high + EDGE {
            return None;
        }
    }
    let (mut r, mut s) = (0.5, 0.5);
    for _ in 0..MOST_STEPS {
        let weights = bilinear(r, s);
        let miss = [0, 1].map(|c| place[c] - (0..4).map(|k| weights[k] * corners[k][c]).sum::<f64>());
        let along =
            [0, 1].map(|c| (1.0 - s) * (corners[1][c] - corners[0][c]) + s * (corners[2][c] - corners[3][c]));
        let up =
            [0, 1].map(|c| (1.0 - r) * (corners[3][c] - corners[0][c]) + r * (corners[2][c] - corners[1][c]));
        let det = along[0] * up[1] - along[1] * up[0];
        let step =
            [(miss[0] * up[1] - miss[1] * up[0]) / det, (along[0] * miss[1] - along[1] * miss[0]) / det];
        r += step[0];
        s += step[1];
        if step[0].abs().max(step[1].abs()) < 1e-12 {
            break;
        }
    }
    let within = |x: f64| (-1e-6..=1.0 + 1e-6).contains(&x);
    (within(r) && within(s)).then(|| bilinear(r, s))
}

/// Values at nodes from those at the four points of each element that counts: carried on bilinearly to its corners, mean
/// of the elements that meet there; nodes amid edges take the mean of their ends. NaN where nothing counts.
///
/// Points and corners of an element run round alike, and points stand at 1/√3 of the corners.
pub fn at_nodes(mesh: &Mesh, at_points: &[f64], counts: &[bool]) -> Vec<f64> {
    let far = 3.0_f64.sqrt();
    let (own, beside, across) =
        ((1.0 + far) * (1.0 + far) / 4.0, (1.0 - far * far) / 4.0, (1.0 - far) * (1.0 - far) / 4.0);
    let (mut sums, mut times) = (vec![0.0; mesh.nodes_mm.len()], vec![0.0; mesh.nodes_mm.len()]);
    let present = || mesh.elements.iter().zip(at_points.chunks_exact(4)).zip(counts).filter(|(_, c)| **c);
    for ((element, values), _) in present() {
        for k in 0..4 {
            let node = element.nodes[k];
            sums[node] += own * values[k]
                + beside * (values[(k + 1) % 4] + values[(k + 3) % 4])
                + across * values[(k + 2) % 4];
            times[node] += 1.0;
        }
    }
    let mut nodes: Vec<f64> = sums.iter().zip(&times).map(|(sum, times)| sum / times).collect();
    for ((element, _), _) in present() {
        for (k, [a, b]) in super::mesh::EDGES.into_iter().enumerate() {
            nodes[element.nodes[4 + k]] = f64::midpoint(nodes[element.nodes[a]], nodes[element.nodes[b]]);
        }
    }
    nodes
}

#[cfg(test)]
mod tests {
    use super::super::shape::points;
    use super::super::{Fineness, Joint, Root};
    use super::*;

    const TEE: Joint = Joint {
        flange_width_mm: 100.0,
        flange_mm: 8.0,
        web_mm: 6.0,
        web_stub_mm: 60.0,
        near_leg_mm: Some(5.0),
        far_leg_mm: Some(3.0),
        root: Root::Tied,
    };

    #[test]
    fn a_plane_is_found_again_at_nodes_and_between_them() {
        let mesh = TEE.mesh(Fineness::COARSE).unwrap();
        let plane = |[y, z]: [f64; 2]| 7.0 + 0.3 * y - 1.1 * z;
        let at_points: Vec<f64> =
            mesh.elements.iter().flat_map(|e| points(&mesh, e)).map(|p| plane(p.at_mm)).collect();
        let nodes = at_nodes(&mesh, &at_points, &vec![true; mesh.elements.len()]);
        for (place, value) in mesh.nodes_mm.iter().zip(&nodes) {
            assert!((value - plane(*place)).abs() < 1e-9, "{value} at {place:?}");
        }
        let field = NodalField::new(&mesh, &nodes);
        for place in [[0.0, -8.0], [33.3, -2.2], [-2.9, 41.0], [4.1, 1.3], [-4.0, 0.5], [50.0, 0.0]] {
            let value = field.at(place, |_| true).unwrap();
            assert!((value - plane(place)).abs() < 1e-6, "{value} at {place:?}");
        }
        for outside in [[50.1, -1.0], [0.0, 60.5], [9.0, 4.0]] {
            assert_eq!(field.at(outside, |_| true), None, "{outside:?}");
        }
        assert_eq!(
            field.at([4.0, 0.5], |part| part == ElementKind::Web),
            None,
            "the fillet is not asked for"
        );
    }

    #[test]
    fn elements_that_do_not_count_leave_no_value() {
        let mesh = TEE.mesh(Fineness::COARSE).unwrap();
        let counts: Vec<bool> = mesh.elements.iter().map(|e| e.part == ElementKind::Flange).collect();
        let nodes = at_nodes(&mesh, &vec![1.0; 4 * mesh.elements.len()], &counts);
        for (place, value) in mesh.nodes_mm.iter().zip(nodes) {
            assert_eq!(value.is_nan(), place[1] > 1e-9, "{value} at {place:?}");
        }
    }
}
