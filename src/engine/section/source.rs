//! Where an arc puts its heat.

use super::Joint;
use super::mesh::Mesh;
use super::shape::Point;
use crate::welding::Side;
use serde::Serialize;

/// Radius of a fillet's source at 1000 J/mm, in legs (a choice; forces change by 1.3 % for two thirds or four thirds).
const RADIUS_LEGS: f64 = 1.5;
/// Radius of a bead's source at 1000 J/mm, mm (a choice, as that of a 6 mm leg).
const BEAD_RADIUS_MM: f64 = 9.0;

/// A round source: heat density falls as exp(−3 r²/a²), scaled so that what the material takes is exactly Q.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Source {
    /// Its centre [across, up], mm.
    pub centre_mm: [f64; 2],
    /// Radius a at which the density is e⁻³ of that at the centre, mm.
    pub radius_mm: f64,
    /// Net heat Q, J per mm of weld.
    pub heat_j_per_mm: f64,
}

impl Source {
    /// Of a fillet: in the centroid of its triangle, a = 1.5 z √(Q/1000); `None` if the joint has no such fillet.
    ///
    /// ```
    /// use weldbow_engine::section::{Joint, Root, Source};
    /// use weldbow_engine::welding::Side;
    /// let joint = Joint { flange_width_mm: 200.0, flange_mm: 12.0, web_mm: 8.0, web_stub_mm: 150.0,
    ///     near_leg_mm: Some(6.0), far_leg_mm: None, root: Root::Tied };
    /// let source = Source::fillet(&joint, Side::Near, 1000.0).ok_or("no fillet")?;
    /// assert_eq!((source.centre_mm, source.radius_mm), ([6.0, 2.0], 9.0));
    /// # Ok::<(), &str>(())
    /// ```
    pub fn fillet(joint: &Joint, side: Side, heat_j_per_mm: f64) -> Option<Self> {
        let leg = joint.leg_mm(side)?;
        let centre_mm = [side.sign() * (joint.web_mm / 2.0 + leg / 3.0), leg / 3.0];
        let radius_mm = RADIUS_LEGS * leg * (heat_j_per_mm / 1000.0).sqrt();
        Some(Self { centre_mm, radius_mm, heat_j_per_mm })
    }

    /// Of a bead without filler on a plate's face: a = 9 mm √(Q/1000).
    pub fn bead(centre_mm: [f64; 2], heat_j_per_mm: f64) -> Self {
        Self { centre_mm, radius_mm: BEAD_RADIUS_MM * (heat_j_per_mm / 1000.0).sqrt(), heat_j_per_mm }
    }

    /// Share of the heat that each node of the mesh receives, J/mm; only elements that are `there` take any.
    pub(super) fn shares(&self, mesh: &Mesh, points: &[Point], there: &[bool]) -> Vec<f64> {
        let mut shares = vec![0.0; mesh.nodes_mm.len()];
        for ((element, points), _) in
            mesh.elements.iter().zip(points.chunks_exact(4)).zip(there).filter(|(_, there)| **there)
        {
            for point in points {
                let r2: f64 = (0..2).map(|c| (point.at_mm[c] - self.centre_mm[c]).powi(2)).sum();
                let density = (-3.0 * r2 / (self.radius_mm * self.radius_mm)).exp() * point.area_mm2;
                for (k, share) in point.corners.into_iter().enumerate() {
                    shares[element.nodes[k]] += share * density;
                }
            }
        }
        let whole: f64 = shares.iter().sum();
        if whole > 0.0 {
            shares.iter_mut().for_each(|s| *s *= self.heat_j_per_mm / whole);
        }
        shares
    }
}
