//! What a force along a seam does to one section.

use crate::member::Section;
use crate::numerics::Number;
use serde::Serialize;

/// Strain of a section: at the centroid, and its gradients across y and z.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Strain {
    /// ε₀, − shortens.
    pub axial: f64,
    /// g = dε/dy, 1/mm.
    pub in_plane: f64,
    /// h = dε/dz, 1/mm.
    pub(crate) lateral: f64,
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
#[cfg_attr(wide, inline(always))]
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
    #[cfg_attr(wide, inline(always))]
    pub fn at(&self, section: &Section, y_mm: f64, z_mm: f64) -> f64 {
        self.axial + self.in_plane * (y_mm - section.centroid_mm) + self.lateral * z_mm
    }
}

/// Pull along one seam: how hard it wants to be shorter, and where.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize)]
pub struct Pull<N = f64> {
    /// Force along the seam, N, + shortens.
    pub force_n: N,
    /// Force times its distance from the seam into the web, N·mm.
    pub up_n_mm: N,
    /// Force times its distance from the web plane, N·mm, + near.
    pub near_n_mm: N,
}

impl<N: Number> Pull<N> {
    /// Both.
    #[cfg_attr(wide, inline(always))]
    #[must_use]
    pub(crate) fn plus(self, other: Self) -> Self {
        Self {
            force_n: self.force_n + other.force_n,
            up_n_mm: self.up_n_mm + other.up_n_mm,
            near_n_mm: self.near_n_mm + other.near_n_mm,
        }
    }

    /// So many times this.
    #[cfg_attr(wide, inline(always))]
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Self {
            force_n: self.force_n * factor,
            up_n_mm: self.up_n_mm * factor,
            near_n_mm: self.near_n_mm * factor,
        }
    }

    /// This without the other.
    #[must_use]
    pub(crate) fn less(self, other: Self) -> Self {
        self.plus(other.times(-1.0))
    }
}

/// Plane strain of a section carried on one line, the outer web edge y = 0, whatever parts are joined: so that strains of
/// stages with different centroids add up.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Plane<N = f64> {
    /// Strain at y = 0, z = 0, − shortens.
    pub(crate) at_edge: N,
    /// dε/dy, 1/mm.
    pub in_plane: N,
    /// dε/dz, 1/mm.
    pub(crate) lateral: N,
}

impl<N: Number> Plane<N> {
    /// That of one case.
    pub fn nth(&self, index: usize) -> Plane {
        Plane {
            at_edge: self.at_edge.nth(index),
            in_plane: self.in_plane.nth(index),
            lateral: self.lateral.nth(index),
        }
    }

    /// Strain in the web plane at y, mm.
    #[cfg_attr(wide, inline(always))]
    pub fn at(&self, y_mm: N) -> N {
        self.at_edge + self.in_plane * y_mm
    }

    /// So many times this.
    #[cfg_attr(wide, inline(always))]
    #[must_use]
    pub(crate) fn times(self, factor: f64) -> Self {
        Self {
            at_edge: self.at_edge * factor,
            in_plane: self.in_plane * factor,
            lateral: self.lateral * factor,
        }
    }

    /// Both.
    #[cfg_attr(wide, inline(always))]
    #[must_use]
    pub(crate) fn plus(self, other: Self) -> Self {
        Self {
            at_edge: self.at_edge + other.at_edge,
            in_plane: self.in_plane + other.in_plane,
            lateral: self.lateral + other.lateral,
        }
    }
}

/// What a section does under pulls along one seam: strains by unit force, by unit moment into the web, and by unit moment
/// out of its plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Response<N = f64> {
    /// By 1 N along the seam; `lateral` is that of 1 N·mm toward the near side.
    pub(crate) by_one: Plane<N>,
    /// Strain at y = 0 and dε/dy by 1 N·mm up the web.
    by_up: [N; 2],
}

/// How a section gives: what 1 N at its centroid and 1 N·mm about it do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Gives<N = f64> {
    centroid_mm: N,
    /// Strain by 1 N.
    stretch: N,
    /// Curvature by 1 N·mm in the web plane, and sideways, 1/mm.
    bends: [N; 2],
}

impl<N: Number> Gives<N> {
    /// Of a section of modulus E, MPa.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn of(section: &Section<N>, e_mpa: N) -> Self {
        let by = |stiffness: N| (e_mpa * stiffness).inverse();
        Self {
            centroid_mm: section.centroid_mm,
            stretch: by(section.area_mm2),
            bends: [by(section.i_z_mm4), by(section.i_y_mm4)],
        }
    }

    /// What it does under pulls along a seam at `seam_y_mm` that runs at an angle of cosine `along` to x; `into_web` is +1 where y runs from
    /// the seam into the web.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn under_pulls(&self, seam_y_mm: N, along: N, into_web: f64) -> Response<N> {
        let [bend, side] = self.bends;
        let bends = -along * bend;
        let in_plane = bends * (seam_y_mm - self.centroid_mm);
        let up = bends * into_web;
        Response {
            by_one: Plane {
                at_edge: -along * self.stretch - in_plane * self.centroid_mm,
                in_plane,
                lateral: -along * side,
            },
            by_up: [-up * self.centroid_mm, up],
        }
    }
}

impl<N: Number> Response<N> {
    /// Of a section of modulus E (MPa) to pulls along one seam, as `Gives::under_pulls`.
    #[cfg_attr(wide, inline(always))]
    pub fn of(section: &Section<N>, seam_y_mm: N, along: N, into_web: f64, e_mpa: N) -> Self {
        Gives::of(section, e_mpa).under_pulls(seam_y_mm, along, into_web)
    }

    /// Strain by a force along the seam, N, and a moment out of the web plane, N·mm.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn under_force(&self, force_n: N, near_n_mm: N) -> Plane<N> {
        Plane {
            at_edge: force_n * self.by_one.at_edge,
            in_plane: force_n * self.by_one.in_plane,
            lateral: near_n_mm * self.by_one.lateral,
        }
    }

    /// Strain by a pull along the seam.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn to(&self, pull: &Pull<N>) -> Plane<N> {
        Plane {
            at_edge: pull.force_n * self.by_one.at_edge + pull.up_n_mm * self.by_up[0],
            in_plane: pull.force_n * self.by_one.in_plane + pull.up_n_mm * self.by_up[1],
            lateral: pull.near_n_mm * self.by_one.lateral,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_ways_to_write_a_strain_agree_and_moments_act_where_they_should() {
        let section = Section { area_mm2: 5600.0, centroid_mm: 191.1, i_z_mm4: 2.276e8, i_y_mm4: 6.7e6 };
        let (force_n, y_mm, e) = (100e3, 600.0, 206e3);
        let centred = strain(&section, force_n, y_mm, 3e5, e);
        let inner = Response::of(&section, y_mm, 1.0, -1.0, e);
        let plane = inner.to(&Pull { force_n, up_n_mm: 0.0, near_n_mm: 3e5 });
        for y in [0.0, 191.1, 600.0] {
            let (a, b) = (centred.at(&section, y, 0.0), plane.at(y));
            assert!((a - b).abs() < 1e-15, "{a} and {b} at {y}");
        }
        assert!((plane.lateral - centred.lateral).abs() < 1e-20);
        // 10 mm up the web from the inner seam is a force at y = 590
        let up = inner.to(&Pull { force_n, up_n_mm: 10.0 * force_n, near_n_mm: 0.0 });
        let there = strain(&section, force_n, 590.0, 0.0, e);
        assert!((up.at(300.0) - there.at(&section, 300.0, 0.0)).abs() < 1e-15);
    }
}
