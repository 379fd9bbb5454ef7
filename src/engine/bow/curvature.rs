//! What a force along a seam does to one section.

use crate::member::Section;

/// Strain of a section: at the centroid, and its gradients across y and z.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Strain {
    /// ε₀, − shortens.
    pub axial: f64,
    /// g = dε/dy, 1/mm.
    pub in_plane: f64,
    /// h = dε/dz, 1/mm.
    pub lateral: f64,
}

/// Strain by a contracting force N (along x, N, + shortens) at y_w (mm from the outer web edge) with a sideways
/// moment N·e_z (N·mm, + near side):
/// ε₀ = −N/(EA), g = −N·(y_w − y_c)/(E·I_z), h = −N·e_z/(E·I_y).
///
/// The junction of a 150 × 10 flange pulled by 100 kN, E = 205 000 MPa, on the 600 mm deep reference section:
/// ```
/// use weldbow_engine::{bow::strain, member::{Parts, Plates, properties}};
/// let plates = Plates { web_mm: 5.0, outer_mm: (150.0, 6.0), inner_mm: (150.0, 10.0) };
/// let s = properties(&plates, 584.0, 0.0, Parts::ALL);
/// let e = strain(&s, 100e3, 584.0, 0.0, 205e3);
/// assert!((e.axial + 100e3 / (205e3 * 5320.0)).abs() < 1e-15);
/// assert!(e.in_plane < 0.0, "the inner side shortens");
/// ```
#[inline]
pub fn strain(section: &Section, force_n: f64, y_mm: f64, moment_z_n_mm: f64, e_mpa: f64) -> Strain {
    let pull = -force_n / e_mpa;
    Strain {
        axial: pull / section.area_mm2,
        in_plane: pull * (y_mm - section.centroid_mm) / section.i_z_mm4,
        lateral: -moment_z_n_mm / e_mpa / section.i_y_mm4,
    }
}

impl Strain {
    /// Strain at y, z (mm) of a section with that centroid.
    #[inline]
    pub fn at(&self, section: &Section, y_mm: f64, z_mm: f64) -> f64 {
        self.axial + self.in_plane * (y_mm - section.centroid_mm) + self.lateral * z_mm
    }
}
