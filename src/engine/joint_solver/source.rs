//! Where an arc puts its heat.

use super::Joint;
use super::mesh::{ElementKind, Mesh};
use super::shape::Point;
use crate::steel::DENSITY_KG_PER_MM3;
use crate::steel::molten::heat_content_j_per_kg;
use crate::welding::Side;
use serde::Serialize;

/// Radius of a fillet's source at 1000 J/mm in the reference problem, in legs (a choice; forces change by 1.3 % for two thirds or four
/// thirds on thin flanges, by 5–9 % where the plastic zone just fails to reach the far face of a thick one).
pub(crate) const REFERENCE_LEGS: f64 = 1.5;
/// Travel speed where no procedure says it, mm/s (a choice: 0.7 m/min; from 6 to 20 mm/s cups change by 4 % and free tilts by 9 % in
/// three dimensions).
pub const USUAL_SPEED_MM_S: f64 = 12.0;
/// Radius of a bead's source at 1000 J/mm, mm (a choice, as that of a 6 mm leg).
const BEAD_RADIUS_MM: f64 = 9.0;

/// Temperature of a drop of steel wire under flux or gas, °C (memory: 2000–2700 °C; a choice at its lower end, so that no more heat
/// than that is put into the fillet).
const DROP_C: f64 = 2000.0;
/// Part of the net heat that a deposit holds at most (a choice; a submerged arc melts its deposit with a third of it).
const MOST_OF_HEAT: f64 = 0.6;

/// A round source: heat density falls as exp(−3 r²/a²), scaled so that what the material takes is exactly Q.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct RoundSource {
    /// Its centre [across, up], mm.
    pub centre_mm: [f64; 2],
    /// Radius a at which the density is e⁻³ of that at the centre, mm.
    pub radius_mm: f64,
    /// Net heat Q, J per mm of weld.
    pub heat_j_per_mm: f64,
}

impl RoundSource {
    /// Of a fillet: in the centroid of its triangle, a = 1.5 z √(Q/1000); `None` if the joint has no such fillet.
    ///
    /// ```
    /// use weldbow_engine::joint_solver::{Joint, RoundSource};
    /// use weldbow_engine::welding::Side;
    /// let source = RoundSource::fillet(&Joint::USUAL, Side::Near, 1000.0).ok_or("no fillet")?;
    /// assert_eq!((source.centre_mm, source.radius_mm), ([6.0, 2.0], 9.0));
    /// # Ok::<(), &str>(())
    /// ```
    pub fn fillet(joint: &Joint, side: Side, heat_j_per_mm: f64) -> Option<Self> {
        Self::fillet_of_radius(joint, side, heat_j_per_mm, REFERENCE_LEGS)
    }

    /// The same with another radius, in legs at 1000 J/mm.
    pub(crate) fn fillet_of_radius(joint: &Joint, side: Side, heat_j_per_mm: f64, legs: f64) -> Option<Self> {
        Some(Self::beside_web(joint.web_mm, joint.leg_mm(side)?, side, heat_j_per_mm, legs))
    }

    /// Of a fillet of that leg (mm) on a web (mm): its radius in legs at 1000 J/mm.
    pub fn beside_web(web_mm: f64, leg_mm: f64, side: Side, heat_j_per_mm: f64, legs: f64) -> Self {
        let centre_mm = [side.sign() * (web_mm / 2.0 + leg_mm / 3.0), leg_mm / 3.0];
        Self { centre_mm, radius_mm: legs * leg_mm * (heat_j_per_mm / 1000.0).sqrt(), heat_j_per_mm }
    }

    /// Heat density at [across, up] over that of the centre.
    pub(crate) fn density(&self, at_mm: [f64; 2]) -> f64 {
        let r2: f64 = (0..2).map(|c| (at_mm[c] - self.centre_mm[c]).powi(2)).sum();
        (-3.0 * r2 / (self.radius_mm * self.radius_mm)).exp()
    }

    /// Part of its heat that a molten deposit of that area (mm²) brings with it, J/mm.
    pub(crate) fn molten_j_per_mm(&self, area_mm2: f64) -> f64 {
        let drop_j_per_mm3 = heat_content_j_per_kg(DROP_C) * DENSITY_KG_PER_MM3;
        (drop_j_per_mm3 * area_mm2).min(MOST_OF_HEAT * self.heat_j_per_mm)
    }

    /// Time the source takes to pass a slice at that speed (mm/s), s: its heat along the weld, ∫exp(−3 x²/a²) dx = a·√(π/3), at full
    /// strength.
    ///
    /// ```
    /// use weldbow_engine::joint_solver::RoundSource;
    /// // 9 mm · 1.0233 / 12 mm/s
    /// assert!((RoundSource::bead([0.0, 0.0], 1000.0).passing_s(12.0) - 0.7675).abs() < 1e-4);
    /// ```
    pub fn passing_s(&self, speed_mm_s: f64) -> f64 {
        self.radius_mm * (std::f64::consts::PI / 3.0).sqrt() / speed_mm_s
    }

    /// Of a bead without filler on a plate's face: a = 9 mm √(Q/1000).
    pub fn bead(centre_mm: [f64; 2], heat_j_per_mm: f64) -> Self {
        Self { centre_mm, radius_mm: BEAD_RADIUS_MM * (heat_j_per_mm / 1000.0).sqrt(), heat_j_per_mm }
    }

    /// Share of the heat that each node of the mesh receives, J/mm; only elements that are `there` take any. A molten `deposit`
    /// has its own heat, spread evenly over it, and the source brings the rest.
    pub(crate) fn shares(
        &self,
        mesh: &Mesh,
        points: &[Point],
        there: &[bool],
        deposit: Option<Side>,
    ) -> Vec<f64> {
        let (mut own, mut area_mm2) = (Vec::new(), 1.0);
        if let Some(side) = deposit {
            let fillet = |e: usize| mesh.elements[e].part == ElementKind::Fillet(side);
            (own, area_mm2) = gathered(mesh, points, fillet, |point| point.area_mm2);
        }
        let molten = if own.is_empty() { 0.0 } else { self.molten_j_per_mm(area_mm2) };
        let dense = |point: &Point| self.density(point.at_mm) * point.area_mm2;
        let (mut shares, whole) = gathered(mesh, points, |e| there[e], dense);
        if whole > 0.0 {
            shares.iter_mut().for_each(|s| *s *= (self.heat_j_per_mm - molten) / whole);
        }
        own.iter_mut().for_each(|s| *s *= molten / area_mm2);
        shares.iter_mut().zip(own).for_each(|(share, own)| *share += own);
        shares
    }
}

/// What belongs to each node of an amount at the points, within some elements, and all of it.
fn gathered(
    mesh: &Mesh,
    points: &[Point],
    wanted: impl Fn(usize) -> bool,
    amount: impl Fn(&Point) -> f64,
) -> (Vec<f64>, f64) {
    let mut sums = vec![0.0; mesh.nodes_mm.len()];
    for (e, points) in points.chunks_exact(4).enumerate().filter(|(e, _)| wanted(*e)) {
        for point in points {
            let whole = amount(point);
            for (k, share) in point.corners.into_iter().enumerate() {
                sums[mesh.elements[e].nodes[k]] += share * whole;
            }
        }
    }
    let whole = sums.iter().sum();
    (sums, whole)
}
