//! What the plates stand right under a ram and over a support.
//!
//! AISC 360-22 J10.2, J10.3, J7 and G2.1, and EN 1993-1-5 section 6, all recalled from the standards (memory; the
//! resistance factors of J10.3 were read): check them before you rely on a ratio near 1. The two forces of a
//! pair J10.5 (ram straight over a support) and the tension rule J10.1 do not arise in three- or four-point bending.

use serde::Serialize;

/// Plates and pad at one bearing.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Bearing {
    /// Web thickness t_w, mm.
    pub web_mm: f64,
    /// Clear web depth h_w, mm.
    pub depth_mm: f64,
    /// Width of the flange that is pressed, mm.
    pub flange_width_mm: f64,
    /// Its thickness t_f, mm.
    pub flange_mm: f64,
    /// Leg of the web-to-flange weld, mm.
    pub leg_mm: f64,
    /// Length of the pad along the member l_b, mm.
    pub pad_mm: f64,
    /// Distance to the nearer end of the member, mm.
    pub to_end_mm: f64,
    /// Yield strength, MPa.
    pub yield_mpa: f64,
    /// Modulus, MPa.
    pub e_mpa: f64,
}

/// Distance of stiffeners that stands for none, mm.
pub(crate) const UNSTIFFENED_MM: f64 = 1e6;
/// Resistance factor of web yielding (J10.2).
pub(crate) const PHI_YIELDING: f64 = 1.0;
/// Resistance factor of web crippling (J10.3).
pub(crate) const PHI_CRIPPLING: f64 = 0.75;
/// Resistance factor of bearing (J7).
pub(crate) const PHI_BEARING: f64 = 0.75;
/// Resistance factor of shear (G1).
pub(crate) const PHI_SHEAR: f64 = 0.90;

impl Bearing {
    fn whole_depth_mm(&self) -> f64 {
        self.depth_mm + 2.0 * self.flange_mm
    }

    /// Web local yielding R_n = F_y·t_w·(5k + l_b), 2.5k within a depth of the end; k = t_f + leg (AISC 360-22 J10.2), N.
    ///
    /// 600 × 6 web, 10 mm flange, 6 mm weld, 200 mm pad, 345 MPa: 345·6·(80 + 200) = 579.6 kN.
    pub fn web_yielding_n(&self) -> f64 {
        let spread = if self.to_end_mm > self.whole_depth_mm() { 5.0 } else { 2.5 };
        let k = self.flange_mm + self.leg_mm;
        self.yield_mpa * self.web_mm * (spread * k + self.pad_mm)
    }

    /// Web local crippling, Q_f = 1 (AISC 360-22 J10.3), N:
    /// 0.80 t_w²·(1 + 3·(l_b/d)·(t_w/t_f)^1.5)·√(E·F_y·t_f/t_w); half of it within d/2 of an end, where 3·l_b/d becomes
    /// 4·l_b/d − 0.2 for l_b/d > 0.2.
    pub fn web_crippling_n(&self) -> f64 {
        let (tw, tf) = (self.web_mm, self.flange_mm);
        let (d, near_end) = (self.whole_depth_mm(), self.to_end_mm < 0.5 * self.whole_depth_mm());
        let pad = self.pad_mm / d;
        let lengths = if near_end && pad > 0.2 { 4.0 * pad - 0.2 } else { 3.0 * pad };
        let front = if near_end { 0.40 } else { 0.80 };
        let root = (self.e_mpa * self.yield_mpa * tf / tw).sqrt();
        front * tw * tw * (1.0 + lengths * (tw / tf).powf(1.5)) * root
    }

    /// Patch load F_R = f_y·χ_F·l_y·t_w, γ_M1 = 1, on one flange of an unstiffened web (EN 1993-1-5 6.2–6.5), N.
    /// `panel_mm` is the distance of stiffeners (large if there are none). At an end k_F = 2 + 6·(s_s + c)/h_w ≤ 6, and l_y is the
    /// smallest of (6.10) to (6.12): l_e + t_f·√(m₁/2 + (l_e/t_f)² + m₂) and l_e + t_f·√(m₁ + m₂) with
    /// l_e = k_F·E·t_w²/(2·f_y·h_w) ≤ s_s + c (6.5(3), memory).
    ///
    /// 600 × 6 web, 200 × 10 flange, 345 MPa, E = 210 000 MPa, a pad of 200 mm flush with the end: k_F = 4, l_e = 73.0 mm, l_y = 175.7 mm
    /// (not 425.3 mm as inside), λ = 1.156 and 157.3 kN.
    pub fn patch_n(&self, panel_mm: f64) -> f64 {
        let (hw, tw, tf) = (self.depth_mm, self.web_mm, self.flange_mm);
        let ss = self.pad_mm.min(hw);
        let clear = self.to_end_mm - 0.5 * ss;
        let interior = 6.0 + 2.0 * (hw / panel_mm).powi(2);
        let at_end = (2.0 + 6.0 * (ss + clear.max(0.0)) / hw).min(6.0);
        let near_end = clear < 0.67 * hw;
        let k_f = if near_end { at_end } else { interior };
        let critical = 0.9 * k_f * self.e_mpa * tw.powi(3) / hw;
        let m1 = self.flange_width_mm / tw;
        let spread = (k_f * self.e_mpa * tw * tw / (2.0 * self.yield_mpa * hw)).min(ss + clear.max(0.0));
        let length = |m2: f64| {
            let inside = (ss + 2.0 * tf * (1.0 + (m1 + m2).sqrt())).min(panel_mm);
            if !near_end {
                return inside;
            }
            let one_sided = spread + tf * (0.5 * m1 + (spread / tf).powi(2) + m2).sqrt();
            inside.min(one_sided).min(spread + tf * (m1 + m2).sqrt())
        };
        let slender = |ly: f64| (ly * tw * self.yield_mpa / critical).sqrt();
        let stocky = length(0.0);
        let with_m2 = length(0.02 * (hw / tf).powi(2));
        let ly = if slender(with_m2) > 0.5 { with_m2 } else { stocky };
        let chi = (0.5 / slender(ly)).min(1.0);
        self.yield_mpa * chi * ly * tw
    }

    /// Bearing on one flange edge pushed from the side, R_n = 1.8 F_y·t_f·l_b (AISC 360-22 J7), N.
    pub(crate) fn edge_bearing_n(&self) -> f64 {
        1.8 * self.yield_mpa * self.flange_mm * self.pad_mm
    }

    /// Shear of the web V_n = 0.6 F_y·d·t_w·C_v1, k_v = 5.34, no stiffeners (AISC 360-22 G2.1), N.
    pub fn shear_n(&self) -> f64 {
        let slender = self.depth_mm / self.web_mm;
        let limit = 1.10 * (5.34 * self.e_mpa / self.yield_mpa).sqrt();
        0.6 * self.yield_mpa * self.whole_depth_mm() * self.web_mm * (limit / slender).min(1.0)
    }
}
