//! From tangents at points to the stiffness of the section: where entries go, and what they are.

use super::mesh::Mesh;
use super::plasticity::{Four, Tangent};
use super::shape::Point;
use super::slice::modes;
use super::solve::{Grouping, SolveError, Symmetric};

/// Entries of the lower triangle of an element's 16 × 16 stiffness.
const LOWER: usize = 136;

/// Where each element's numbers go.
pub(super) struct MatrixLayout {
    /// Degrees of freedom of each element: across and up of each node in turn.
    pub(crate) dofs: Vec<[usize; 16]>,
    /// For each pair of facing nodes, across and up: lower–lower, upper–upper, upper–lower.
    pub(crate) facing: Vec<[[usize; 3]; 2]>,
    slots: Vec<[u32; LOWER]>,
}

impl MatrixLayout {
    /// The layout of a mesh and the system to fill.
    ///
    /// # Errors
    /// `NoMemory` of the solver.
    pub(super) fn new(mesh: &Mesh) -> Result<(Self, Symmetric), SolveError> {
        let dofs: Vec<[usize; 16]> =
            mesh.elements.iter().map(|e| std::array::from_fn(|i| 2 * e.nodes[i / 2] + i % 2)).collect();
        let pairs: Vec<[[usize; 2]; 2]> =
            mesh.facing.iter().map(|f| [0, 1].map(|c| [2 * f.lower + c, 2 * f.upper + c])).collect();
        let groups = dofs.iter().map(|d| &d[..]).chain(pairs.iter().flatten().map(|p| &p[..]));
        let system = Symmetric::new(mesh.unknowns(), groups, Grouping::Blocks)?;
        let slot = |a, b| system.slot(a, b).unwrap_or_default();
        let slots = dofs
            .iter()
            .map(|dofs| {
                let mut own = [0; LOWER];
                for i in 0..16 {
                    for j in 0..=i {
                        own[i * (i + 1) / 2 + j] = slot(dofs[i], dofs[j]) as u32;
                    }
                }
                own
            })
            .collect();
        let facing =
            pairs.iter().map(|pair| pair.map(|[l, u]| [slot(l, l), slot(u, u), slot(u, l)])).collect();
        Ok((Self { dofs, facing, slots }, system))
    }

    /// Fills `values` with the stiffness of these tangents and, if `border` holds three columns, those with the coupling
    /// to the plane; returns the 3 × 3 stiffness of the plane.
    pub(crate) fn assemble(
        &self,
        points: &[Point],
        tangents: &[Tangent],
        values: &mut [f64],
        border: &mut [f64],
    ) -> [[f64; 3]; 3] {
        values.fill(0.0);
        let (mut core, n) = ([[0.0; 3]; 3], border.len() / 3);
        for (element, slots) in self.slots.iter().enumerate() {
            let mut stiff = [[0.0; 16]; 16];
            for p in 4 * element..4 * element + 4 {
                let d = tangents[p].matrix();
                add_stiffness(&points[p], &d, &mut stiff);
                if n > 0 {
                    self.couple(element, &points[p], &d, border, &mut core);
                }
            }
            for i in 0..16 {
                for j in 0..=i {
                    values[slots[i * (i + 1) / 2 + j] as usize] += stiff[j][i];
                }
            }
        }
        core
    }

    fn couple(
        &self,
        element: usize,
        point: &Point,
        d: &[Four; 4],
        border: &mut [f64],
        core: &mut [[f64; 3]; 3],
    ) {
        let n = border.len() / 3;
        let modes = modes(point.at_mm);
        let mut forces = [0.0; 16];
        force(point, &[d[0][0], d[1][0], d[2][0], d[3][0]], &mut forces);
        for a in 0..3 {
            for (dof, f) in self.dofs[element].iter().zip(forces) {
                border[a * n + dof] += modes[a] * f;
            }
            for b in 0..3 {
                core[a][b] += modes[a] * modes[b] * d[0][0] * point.area_mm2;
            }
        }
    }
}

/// Adds BᵀDB of a point to the entries [column][row] with row not above column.
fn add_stiffness(point: &Point, d: &[Four; 4], stiff: &mut [[f64; 16]; 16]) {
    for b in 0..8 {
        let [y, z] = point.slopes[b].map(|s| s * point.area_mm2);
        let one = [d[1][1] * y + d[1][3] * z, d[2][1] * y + d[2][3] * z, d[3][1] * y + d[3][3] * z];
        let two = [d[1][2] * z + d[1][3] * y, d[2][2] * z + d[2][3] * y, d[3][2] * z + d[3][3] * y];
        for a in b..8 {
            let [y, z] = point.slopes[a];
            stiff[2 * b][2 * a] += y * one[0] + z * one[2];
            stiff[2 * b][2 * a + 1] += z * one[1] + y * one[2];
            stiff[2 * b + 1][2 * a] += y * two[0] + z * two[2];
            stiff[2 * b + 1][2 * a + 1] += z * two[1] + y * two[2];
        }
    }
}

/// Strain of a point: `along`, and the in-plane ones of these displacements.
pub(crate) fn strain(point: &Point, dofs: &[usize; 16], moved: &[f64], along: f64) -> Four {
    let mut strain = [along, 0.0, 0.0, 0.0];
    for (k, [y, z]) in point.slopes.iter().enumerate() {
        let (v, w) = (moved[dofs[2 * k]], moved[dofs[2 * k + 1]]);
        strain[1] += y * v;
        strain[2] += z * w;
        strain[3] += z * v + y * w;
    }
    strain
}

/// Adds the node forces of a stress at a point.
pub(crate) fn force(point: &Point, stress: &Four, forces: &mut [f64; 16]) {
    for (k, slope) in point.slopes.iter().enumerate() {
        let [y, z] = slope.map(|s| s * point.area_mm2);
        forces[2 * k] += y * stress[1] + z * stress[3];
        forces[2 * k + 1] += z * stress[2] + y * stress[3];
    }
}
