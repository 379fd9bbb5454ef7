//! Shape functions of the eight-node quadrilateral at its two by two Gauss points.

use super::mesh::{Element, Mesh};
use crate::numerics::GAUSS_2;

/// One Gauss point of an element: everything geometry decides.
#[derive(Debug, Clone, Copy)]
pub struct Point {
    /// Place [across, up], mm.
    pub at_mm: [f64; 2],
    /// Area that belongs to it, mm².
    pub area_mm2: f64,
    /// Derivatives of the eight shape functions to [across, up], 1/mm.
    pub slopes: [[f64; 2]; 8],
    /// The four bilinear functions of the corner nodes.
    pub corners: [f64; 4],
    /// Derivatives of the corner functions to [across, up], 1/mm.
    pub(crate) corner_slopes: [[f64; 2]; 4],
}

/// One Gauss point of a quadrilateral by its four corners alone.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Bilinear {
    /// Place, mm.
    pub(crate) at_mm: [f64; 2],
    /// Area that belongs to it, mm².
    pub(crate) area_mm2: f64,
    /// Share of each corner in a value here.
    pub(crate) shares: [f64; 4],
    /// Slope of each share, 1/mm.
    pub(crate) slopes: [[f64; 2]; 4],
}

impl Point {
    /// What the corners alone say there.
    pub(super) const fn bilinear(&self) -> Bilinear {
        let Self { at_mm, area_mm2, corners: shares, corner_slopes: slopes, .. } = *self;
        Bilinear { at_mm, area_mm2, shares, slopes }
    }
}

/// The four points of a quadrilateral; its corners may run either way around.
pub(crate) fn bilinear_points(corners_mm: &[[f64; 2]; 4]) -> [Bilinear; 4] {
    gauss_places().map(|place| {
        let (shares, local) = four(place);
        let (at_mm, area_mm2, slope) = placed(&shares, &local, corners_mm);
        Bilinear { at_mm, area_mm2: area_mm2.abs(), shares, slopes: local.map(slope) }
    })
}

const CORNERS: [[f64; 2]; 4] = [[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]];

/// The four points of an element, row by row.
pub fn points(mesh: &Mesh, element: &Element) -> [Point; 4] {
    gauss_places().map(|place| point(mesh, element, place))
}

/// The two by two Gauss points of the square of side 2, row by row; each of their four weights is 1.
fn gauss_places() -> [[f64; 2]; 4] {
    let place = |k: usize| 2.0 * GAUSS_2[k].0 - 1.0;
    [[0, 0], [1, 0], [1, 1], [0, 1]].map(|[i, j]| [place(i), place(j)])
}

fn point(mesh: &Mesh, element: &Element, r: [f64; 2]) -> Point {
    let (values, local) = eight(r);
    let (corners, corner_local) = four(r);
    let (at_mm, area_mm2, slope) = placed(&values, &local, &element.nodes.map(|n| mesh.nodes_mm[n]));
    Point { at_mm, area_mm2, slopes: local.map(&slope), corners, corner_slopes: corner_local.map(slope) }
}

/// Place of a point [across, up], mm, the area that one of the square of side 2 becomes there, mm² (negative if the nodes run
/// clockwise), and what makes a derivative on the square one to [across, up], 1/mm.
fn placed<const N: usize>(
    values: &[f64; N],
    local: &[[f64; 2]; N],
    nodes_mm: &[[f64; 2]; N],
) -> ([f64; 2], f64, impl Fn([f64; 2]) -> [f64; 2] + use<N>) {
    let (mut at_mm, mut j) = ([0.0; 2], [[0.0; 2]; 2]);
    for k in 0..N {
        for c in 0..2 {
            at_mm[c] += values[k] * nodes_mm[k][c];
            for d in 0..2 {
                j[d][c] += local[k][d] * nodes_mm[k][c];
            }
        }
    }
    let det = j[0][0] * j[1][1] - j[0][1] * j[1][0];
    let slope =
        move |l: [f64; 2]| [(j[1][1] * l[0] - j[0][1] * l[1]) / det, (j[0][0] * l[1] - j[1][0] * l[0]) / det];
    (at_mm, det, slope)
}

/// The four bilinear functions of the corners at a point of the square of side 2, and their derivatives there.
fn four([r, s]: [f64; 2]) -> ([f64; 4], [[f64; 2]; 4]) {
    let values = CORNERS.map(|[a, b]| (1.0 + a * r) * (1.0 + b * s) / 4.0);
    (values, CORNERS.map(|[a, b]| [a * (1.0 + b * s) / 4.0, b * (1.0 + a * r) / 4.0]))
}

/// The same four functions on the square of side 1.
pub(super) const fn bilinear(r: f64, s: f64) -> [f64; 4] {
    [(1.0 - r) * (1.0 - s), r * (1.0 - s), r * s, (1.0 - r) * s]
}

fn eight([r, s]: [f64; 2]) -> ([f64; 8], [[f64; 2]; 8]) {
    let (mut values, mut slopes) = ([0.0; 8], [[0.0; 2]; 8]);
    for (k, [a, b]) in CORNERS.into_iter().enumerate() {
        let (p, q) = (1.0 + a * r, 1.0 + b * s);
        values[k] = p * q * (a * r + b * s - 1.0) / 4.0;
        slopes[k] = [a * q * (2.0 * a * r + b * s) / 4.0, b * p * (2.0 * b * s + a * r) / 4.0];
    }
    for (k, sign) in [(4, -1.0), (6, 1.0)] {
        values[k] = (1.0 - r * r) * (1.0 + sign * s) / 2.0;
        slopes[k] = [-r * (1.0 + sign * s), sign * (1.0 - r * r) / 2.0];
    }
    for (k, sign) in [(5, 1.0), (7, -1.0)] {
        values[k] = (1.0 + sign * r) * (1.0 - s * s) / 2.0;
        slopes[k] = [sign * (1.0 - s * s) / 2.0, -s * (1.0 + sign * r)];
    }
    (values, slopes)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::joint_solver::mesh::ElementKind;

    #[test]
    fn points_of_a_skewed_element_hold_its_area_and_differentiate_a_quadratic() {
        // Straight edges, so that a quadratic is still one of its functions.
        let skew = |[x, y]: [f64; 2]| [2.0 * x + 0.3 * y, 1.5 * y - 0.2 * x];
        let mesh = Mesh::block(&[0.0, 1.0], &[0.0, 1.0], ElementKind::Flange).unwrap().mapped(skew);
        let points = points(&mesh, &mesh.elements[0]);
        let area: f64 = points.iter().map(|p| p.area_mm2).sum();
        assert!((area - 3.06).abs() < 1e-12, "{area}");
        for point in points {
            let [x, y] = point.at_mm;
            let want = [2.0 * x + 3.0 * y, 3.0 * x - 8.0 * y];
            for (c, want) in want.into_iter().enumerate() {
                let got: f64 = (0..8)
                    .map(|k| {
                        let [x, y] = mesh.nodes_mm[mesh.elements[0].nodes[k]];
                        point.slopes[k][c] * (x * x + 3.0 * x * y - 4.0 * y * y)
                    })
                    .sum();
                assert!((got - want).abs() < 1e-12, "{got} against {want}");
            }
            let whole: f64 = point.corners.iter().sum();
            assert!((whole - 1.0).abs() < 1e-14);
        }
    }
}
