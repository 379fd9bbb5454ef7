//! Faces that meet at a node: those of a slit may part and resist overlap; others touch nowhere, or are joined from some instant on.

use super::material::SectionSteel;
use super::mesh::Facing;

/// Stiffness with which faces resist overlap, or what joins them, as thickness of cold steel, mm (a choice: about an element).
const CONTACT_MM: f64 = 1.0;

/// What two faces do at a pair of nodes.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) enum Meeting {
    /// They may part and slide, but not overlap.
    #[default]
    Touching,
    /// They do not meet.
    Apart,
    /// They are joined with this opening [across, up], mm.
    Joined([f64; 2]),
}

/// Opening there [across, up], mm; negative up where faces overlap.
pub(crate) fn opening(moved: &[f64], pair: &Facing) -> [f64; 2] {
    [0, 1].map(|c| moved[2 * pair.upper + c] - moved[2 * pair.lower + c])
}

impl Meeting {
    /// Force on the upper face toward the lower one [across, up], N per mm of member, and how it grows with the opening, N/mm².
    pub(crate) fn force(&self, steel: &SectionSteel, moved: &[f64], pair: &Facing) -> [[f64; 2]; 2] {
        let (gap, k) = (opening(moved, pair), steel.e_mpa * pair.width_mm / CONTACT_MM);
        match self {
            Self::Touching if gap[1] < 0.0 => [[0.0, 0.0], [k * gap[1], k]],
            Self::Touching | Self::Apart => [[0.0; 2]; 2],
            Self::Joined(at) => [0, 1].map(|c| [k * (gap[c] - at[c]), k]),
        }
    }
}
