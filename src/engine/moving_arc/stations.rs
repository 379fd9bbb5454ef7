//! Where slices are joined with their neighbours: stations on the middle planes of flange and web.
//!
//! A slice knows what its plates do across; what they do along the joint, twist, bend and shear, goes from slice to slice
//! through these stations.

use crate::joint_solver::{ElementKind, Joint, Mesh};
use crate::steel::POISSON;
use crate::welding::Side;

/// Where the stations of a plate stand, as parts of its free width beyond the fillet.
const PARTS: [f64; 3] = [0.15, 0.5, 1.0];

/// A plate of the joint between its stations.
pub(super) struct Plate {
    /// Its stations in order.
    pub stations: Vec<usize>,
    /// Where they stand, mm.
    pub places_mm: Vec<f64>,
    /// Width that belongs to each, mm.
    pub(crate) widths_mm: Vec<f64>,
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Degree of freedom of its plane, of 0 across and 1 up; the other is across it.
    pub(crate) plane: usize,
}

/// Stations and plates of a joint.
pub(super) struct Stations {
    /// Node of each station.
    pub nodes: Vec<usize>,
    /// Flange and web.
    pub plates: [Plate; 2],
    /// Station at the foot of the web, at its top, at the far and near edges of the flange.
    pub foot: usize,
    /// At the top of the web.
    pub top: usize,
    /// At the flange's edges, far and near.
    pub edges: [usize; 2],
}

impl Stations {
    /// Of a joint and its mesh.
    pub(super) fn of(joint: &Joint, mesh: &Mesh) -> Self {
        let half = joint.flange_width_mm / 2.0;
        let depth = -joint.flange_mm / 2.0;
        let leg = |side| joint.leg_mm(side).or(joint.near_leg_mm).or(joint.far_leg_mm).unwrap_or(0.0);
        let out = |from: f64, to: f64| PARTS.map(|part| from + part * (to - from));
        let toe = |side| joint.web_mm / 2.0 + leg(side);
        let (far, near) = (out(toe(Side::Far), half), out(toe(Side::Near), half));
        let across: Vec<f64> =
            far.iter().rev().map(|y| -y).chain([0.0]).chain(near.iter().copied()).collect();
        let above = out(leg(Side::Near).max(leg(Side::Far)), joint.web_stub_mm);
        let nodes: Vec<usize> = across
            .iter()
            .map(|&y| nearest(mesh, ElementKind::Flange, [y, depth]))
            .chain(above.iter().map(|&z| nearest(mesh, ElementKind::Web, [0.0, z])))
            .collect();
        let count = across.len();
        let foot = count / 2;
        let flange = plate(mesh, &nodes, (0..count).collect(), joint.flange_mm, 0, [-half, half]);
        let web_stations: Vec<usize> = std::iter::once(foot).chain(count..nodes.len()).collect();
        let web = plate(mesh, &nodes, web_stations, joint.web_mm, 1, [0.0, joint.web_stub_mm]);
        let top = nodes.len() - 1;
        Self { nodes, plates: [flange, web], foot, top, edges: [0, count - 1] }
    }

    /// Degrees of freedom of the slice at the stations: across and up of each in turn.
    pub(crate) fn dofs(&self) -> Vec<usize> {
        self.nodes.iter().flat_map(|&n| [2 * n, 2 * n + 1]).collect()
    }
}

fn plate(
    mesh: &Mesh,
    nodes: &[usize],
    stations: Vec<usize>,
    thickness_mm: f64,
    plane: usize,
    ends: [f64; 2],
) -> Plate {
    let places_mm: Vec<f64> = stations.iter().map(|&s| mesh.nodes_mm[nodes[s]][plane].max(ends[0])).collect();
    let last = places_mm.len() - 1;
    let border = |k: usize| match k {
        0 => ends[0],
        k if k > last => ends[1],
        k => f64::midpoint(places_mm[k - 1], places_mm[k]),
    };
    let widths_mm = (0..=last).map(|k| border(k + 1) - border(k)).collect();
    Plate { stations, places_mm, widths_mm, thickness_mm, plane }
}

/// Node of a part nearest to a place, its line across before its depth.
fn nearest(mesh: &Mesh, part: ElementKind, [y, z]: [f64; 2]) -> usize {
    let far = |n: usize| {
        let at = mesh.nodes_mm[n];
        let (off, deep) = ((at[0] - y).abs(), (at[1] - z).abs());
        if part == ElementKind::Flange { off + deep / 64.0 } else { deep + off / 64.0 }
    };
    let nodes = mesh.elements.iter().filter(|e| e.part == part).flat_map(|e| e.nodes);
    nodes.min_by(|&a, &b| far(a).total_cmp(&far(b)).then(a.cmp(&b))).unwrap_or_default()
}

impl Plate {
    /// Stiffness of the plate along the joint between stations, as (station, station, what of them, value).
    /// Shear in its plane G t b.
    pub(crate) fn shear(&self, e_mpa: f64) -> Vec<f64> {
        let g = e_mpa / (2.0 * (1.0 + POISSON));
        self.widths_mm.iter().map(|b| g * self.thickness_mm * b).collect()
    }

    /// Resistance to twist between neighbouring stations, N mm² over mm² of their distance: 2 D (1 − ν)/Δ.
    pub(super) fn twist(&self, e_mpa: f64) -> Vec<f64> {
        let d = self.bending(e_mpa);
        self.places_mm.windows(2).map(|w| 2.0 * d * (1.0 - POISSON) / (w[1] - w[0])).collect()
    }

    /// Plate stiffness D, N mm.
    pub(super) fn bending(&self, e_mpa: f64) -> f64 {
        e_mpa * self.thickness_mm.powi(3) / (12.0 * (1.0 - POISSON * POISSON))
    }
}
