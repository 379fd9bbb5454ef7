//! Faces of a slit root: they may part, and resist overlap.

use super::material::SectionSteel;
use super::mesh::Facing;

/// Stiffness with which the faces of a slit resist overlap, as thickness of cold steel, mm (a choice: about an element).
const CONTACT_MM: f64 = 1.0;

/// Opening of a slit there, mm; negative where its faces overlap.
pub fn overlap(moved: &[f64], pair: &Facing) -> f64 {
    moved[2 * pair.upper + 1] - moved[2 * pair.lower + 1]
}

/// Force by which they resist each millimetre of it, N/mm per mm of member.
pub fn resistance(steel: &SectionSteel, pair: &Facing) -> f64 {
    steel.e_mpa * pair.width_mm / CONTACT_MM
}
