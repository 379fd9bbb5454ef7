//! A pair of stiffeners that a pad may bear on.

use super::local::PHI_BEARING;
use crate::member::Member;
use serde::Serialize;

/// A plate on each side of the web, fitted to both flanges, over the whole depth.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Stiffener {
    /// Where, mm from the start end.
    pub x_mm: f64,
    /// Width of the plate on each side, mm.
    pub width_mm: f64,
    /// Its thickness, mm.
    pub thickness_mm: f64,
}

/// Corner cut free of the seam, mm (choice).
const CLIP_MM: f64 = 20.0;

/// Resistance factor of compression (AISC 360-22 E1; memory).
const PHI_COMPRESSION: f64 = 0.90;

/// Web that works with the plates, over its thickness, inside the member and at an end (AISC 360-22 J10.8; memory).
const WEB_STRIP: (f64, f64) = (25.0, 12.0);

/// Effective length over the depth (AISC 360-22 J10.8; memory).
const EFFECTIVE: f64 = 0.75;

/// Widest plate over its thickness and √(E/F_y) (AISC 360-22 Table B4.1a, projecting plate; memory).
const SLENDER: f64 = 0.56;

impl Stiffener {
    /// Force that the pair carries under a pad, N: the smaller of bearing on the flange (AISC 360-22 J7) and of the column of both
    /// plates and a strip of web (J10.8, E3; all memory). Nothing if the plates would buckle by themselves.
    ///
    /// Plates 80 × 10 on a 600 × 6 web of 345 MPa: bearing 0.75·1.8·345·2·60·10 = 559 kN comes before the column's 750 kN.
    pub(crate) fn stands_n(&self, member: &Member) -> f64 {
        let (fy, e) = (member.steel.yield_mpa, member.steel.e_mpa);
        if self.width_mm / self.thickness_mm > SLENDER * (e / fy).sqrt() {
            return 0.0;
        }
        let plates = member.plates_at(self.x_mm);
        let (web, depth) = (plates.web_mm, member.depth.depth_mm(self.x_mm));
        let on_flange = 2.0 * (self.width_mm - CLIP_MM).max(0.0) * self.thickness_mm;
        let bearing = PHI_BEARING * 1.8 * fy * on_flange;
        let to_end = self.x_mm.min(member.length_mm - self.x_mm);
        let strip = if to_end < depth { WEB_STRIP.1 } else { WEB_STRIP.0 } * web;
        let area = 2.0 * self.width_mm * self.thickness_mm + strip * web;
        let across = 2.0 * self.width_mm + web;
        let radius = (self.thickness_mm * across.powi(3) / 12.0 / area).sqrt();
        let euler = std::f64::consts::PI.powi(2) * e / (EFFECTIVE * depth / radius).powi(2);
        let stress = if fy / euler <= 2.25 { 0.658_f64.powf(fy / euler) * fy } else { 0.877 * euler };
        bearing.min(PHI_COMPRESSION * stress * area)
    }
}
