//! Section of the parts joined so far, as the beam sees it.
//!
//! A flange inclined by β to x has, along x, the stiffness E·A·cos³β with A square to its own axis
//! (a bar of length ds = dx/cos β strained by ε·cos²β and pulling with cos β), and its centroid at
//! t/(2 cos β) beyond the web edge.

use super::{Plates, Seam};
use crate::numerics::Number;
use serde::{Serialize, Serializer};

/// Which of the three plates are joined.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Parts(u8);

impl Parts {
    /// Nothing.
    pub const NONE: Self = Self(0);
    /// The web alone.
    pub const WEB: Self = Self(1);
    /// The outer flange alone.
    pub const OUTER_FLANGE: Self = Self(2);
    /// The inner flange alone.
    pub const INNER_FLANGE: Self = Self(4);
    /// The whole member.
    pub const ALL: Self = Self(7);

    /// These and those.
    pub const fn with(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Whether all of `other` is in.
    pub const fn contains(self, other: Self) -> bool {
        self.0 & other.0 == other.0
    }

    /// The flange at a seam.
    pub const fn flange(seam: Seam) -> Self {
        match seam {
            Seam::Outer => Self::OUTER_FLANGE,
            Seam::Inner => Self::INNER_FLANGE,
        }
    }

    /// Names in a fixed order: "web", "outer_flange", "inner_flange".
    pub fn names(self) -> impl Iterator<Item = &'static str> {
        [(Self::WEB, "web"), (Self::OUTER_FLANGE, "outer_flange"), (Self::INNER_FLANGE, "inner_flange")]
            .into_iter()
            .filter(move |(part, _)| self.contains(*part))
            .map(|(_, name)| name)
    }
}

impl Serialize for Parts {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.names())
    }
}

/// Stiffness of a section, each value divided by E.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Section<N = f64> {
    /// Axial: A, mm².
    pub area_mm2: N,
    /// Centroid from the outer web edge toward the inner flange, mm.
    pub centroid_mm: N,
    /// In-plane bending (camber): I about z through the centroid, mm⁴.
    pub i_z_mm4: N,
    /// Lateral bending (sweep): I about y through the web plane, mm⁴.
    pub i_y_mm4: N,
}

impl<N: Number> Section<N> {
    /// Strain at y (mm from the outer web edge) by unit force along there, times E, 1/mm²: 1/A + (y − y_c)²/I_z.
    ///
    /// ```
    /// use weldbow_engine::member::{Parts, Plates, properties};
    /// let plates = Plates { web_mm: 5.0, outer_mm: (150.0, 6.0), inner_mm: (150.0, 6.0) };
    /// let s = properties(&plates, 600.0, 0.0, Parts::ALL);
    /// // 1/4800 + 300²/(5·600³/12 + 2·900·303²), the flanges' own 5400 mm⁴ aside
    /// assert!((s.give_per_mm2(0.0) - (1.0 / 4800.0 + 9e4 / 255.26e6)).abs() < 1e-8);
    /// ```
    pub fn give_per_mm2(&self, y_mm: N) -> N {
        let lever = y_mm - self.centroid_mm;
        self.area_mm2.inverse() + lever * lever / self.i_z_mm4
    }
}

/// Section of the joined `parts` where the clear depth is `depth_mm` and the inner flange rises with
/// `slope` (dd/dx). The outer flange lies along x.
///
/// ```
/// use weldbow_engine::member::{Parts, Plates, properties};
/// let plates = Plates { web_mm: 5.0, outer_mm: (150.0, 6.0), inner_mm: (150.0, 10.0) };
/// let s = properties(&plates, 584.0, 0.0, Parts::ALL);
/// assert!((s.area_mm2 - 5320.0).abs() < 1e-9);
/// assert!((s.i_z_mm4 - 287_551_267.8).abs() < 0.1);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn properties(plates: &Plates, depth_mm: f64, slope: f64, parts: Parts) -> Section {
    inclined(plates, depth_mm, 1.0 / (1.0 + slope * slope).sqrt(), parts)
}

/// The same where the inner flange is inclined by an angle of cosine `cos`.
#[cfg_attr(wide, inline(always))]
pub(crate) fn inclined<N: Number>(plates: &Plates<N>, depth_mm: N, cos: N, parts: Parts) -> Section<N> {
    const TWELFTH: f64 = 1.0 / 12.0;
    let on = |part| f64::from(u8::from(parts.contains(part)));
    let web = plates.web_mm * depth_mm * on(Parts::WEB);
    let (outer_b, outer_t) = plates.outer_mm;
    let (inner_b, inner_t) = plates.inner_mm;
    let outer = outer_b * outer_t * on(Parts::OUTER_FLANGE);
    let inner = inner_b * inner_t * (cos * cos * cos) * on(Parts::INNER_FLANGE);

    let upright = inner_t / cos;
    let (web_y, outer_y, inner_y) = (depth_mm * 0.5, outer_t * -0.5, depth_mm + upright * 0.5);
    let area = web + outer + inner;
    let centroid = (web * web_y + outer * outer_y + inner * inner_y) / area;
    let about = |a: N, y: N, own: N| a * ((y - centroid) * (y - centroid) + own * own * TWELFTH);
    Section {
        area_mm2: area,
        centroid_mm: centroid,
        i_z_mm4: about(web, web_y, depth_mm)
            + about(outer, outer_y, outer_t)
            + about(inner, inner_y, upright),
        i_y_mm4: (web * plates.web_mm * plates.web_mm
            + outer * outer_b * outer_b
            + inner * inner_b * inner_b)
            * TWELFTH,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLATES: Plates = Plates { web_mm: 6.0, outer_mm: (200.0, 10.0), inner_mm: (250.0, 16.0) };

    #[test]
    fn a_missing_flange_leaves_a_tee() {
        let tee = properties(&PLATES, 874.0, 0.0, Parts::WEB.with(Parts::OUTER_FLANGE));
        assert!((tee.area_mm2 - (6.0 * 874.0 + 2000.0)).abs() < 1e-9);
        assert!(tee.centroid_mm < 437.0, "the tee's centroid is nearer its flange");
    }

    #[test]
    fn inclination_weakens_the_flange_with_the_third_power_of_the_cosine() {
        let slope = 15_f64.to_radians().tan();
        let parts = Parts::INNER_FLANGE;
        let level = properties(&PLATES, 874.0, 0.0, parts).area_mm2;
        let inclined = properties(&PLATES, 874.0, slope, parts).area_mm2;
        assert!((inclined / level - 15_f64.to_radians().cos().powi(3)).abs() < 1e-12);
    }

    #[test]
    fn parts_name_themselves_in_a_fixed_order() {
        let names: Vec<_> = Parts::INNER_FLANGE.with(Parts::WEB).names().collect();
        assert_eq!(names, ["web", "inner_flange"]);
    }
}
