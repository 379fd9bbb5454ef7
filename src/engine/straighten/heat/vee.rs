//! Rotation of one vee heat.

use serde::Serialize;

/// Coefficient of variation of a single heat (choice within 0.3–0.5: "may vary considerably", FHWA guide chapter 5).
pub(crate) const SCATTER: f64 = 0.4;
/// Largest vee angle, degrees (common in highway practice, source not recorded).
const WIDEST_DEG: f64 = 20.0;

/// φ = (load_free + load_gain·M_j/M_p)·stress·basic·sin(angle/3): the form of the FHWA manual IF-99-004.
///
/// Its coefficients are recalled with doubt ("memory, low"), for plates; give your own measured [`VeeTurn`] as soon as
/// one heat has been measured.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct VeeModel {
    /// Basic rotation φ_b, rad (memory, low).
    pub basic_rad: f64,
    /// Load factor without jack (memory, low).
    pub load_free: f64,
    /// Its growth with M_j/M_p (memory, low).
    pub load_gain: f64,
    /// Stress factor F_s (memory, low; 1 for a plate).
    pub stress: f64,
}

impl VeeModel {
    /// The recalled coefficients for a plate at 650 °C (memory, low).
    pub const RECALLED: Self = Self { basic_rad: 0.0147, load_free: 0.6, load_gain: 2.0, stress: 1.0 };
}

/// How much one heat turns.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum VeeTurn {
    /// By the manual's form with these coefficients.
    Model(VeeModel),
    /// Measured in the shop on this kind of member, rad per heat.
    Measured(f64),
}

impl VeeTurn {
    /// Rotation of one heat, rad, for a vee angle (degrees) and a jack ratio M_j/M_p, held to 0 … 0.5; never more than
    /// full confinement allows.
    ///
    /// 20° and a quarter of M_p: (0.6 + 0.5)·0.0147·sin 6.67° = 1.877 mrad.
    /// ```
    /// use weldbow_engine::straighten::heat::{VeeTurn, VeeModel};
    /// let phi = VeeTurn::Model(VeeModel::RECALLED).rotation_rad(20.0, 0.25, 650.0);
    /// assert!((phi - 1.877e-3).abs() < 1e-6);
    /// ```
    pub fn rotation_rad(&self, angle_deg: f64, jack_ratio: f64, most_c: f64) -> f64 {
        match *self {
            Self::Measured(rad) => rad,
            Self::Model(m) => {
                let load = m.load_free + m.load_gain * jack_ratio.clamp(0.0, 0.5);
                let phi = load * m.stress * m.basic_rad * (angle_deg.to_radians() / 3.0).sin();
                phi.min(bound_rad(angle_deg, most_c))
            }
        }
    }

    /// How it is known, for the screen.
    pub const fn trust(&self) -> &'static str {
        match self {
            Self::Model(_) => "coefficients recalled with doubt: verify on the first heat",
            Self::Measured(_) => "measured in the shop",
        }
    }
}

/// Free thermal strain from 70 °F up to a temperature in °C: α·ΔT with α = (6.1 + 0.0019 T)·10⁻⁶ per °F at T, held to 100–1150 °F
/// (AISC manual, memory). 0.00936 at 1200 °F.
///
/// ```
/// use weldbow_engine::straighten::heat::free_strain;
/// // 1200 °F: (6.1 + 0.0019·1150)e-6·1130
/// assert!((free_strain(648.89) - 0.009362).abs() < 1e-6);
/// ```
pub fn free_strain(to_c: f64) -> f64 {
    let f = to_c * 1.8 + 32.0;
    (6.1 + 0.0019 * f.clamp(100.0, 1150.0)) * 1e-6 * (f - 70.0).max(0.0)
}

/// Most a full-depth vee can turn, rad: 2·ε_T·tan(angle/2), held fast lengthwise all over (own bound).
///
/// ```
/// use weldbow_engine::straighten::heat::bound_rad;
/// // 30°: 2·0.009362·tan 15°
/// assert!((bound_rad(30.0, 648.89) - 0.005017).abs() < 1e-6);
/// ```
pub fn bound_rad(angle_deg: f64, most_c: f64) -> f64 {
    2.0 * free_strain(most_c) * (0.5 * angle_deg.to_radians()).tan()
}

/// Shape of a vee: open end at the long (convex) side.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Vee {
    /// Angle at the apex, degrees.
    pub angle_deg: f64,
    /// Depth from the open end to the apex, mm.
    pub depth_mm: f64,
    /// Width of the open end, mm.
    pub base_mm: f64,
}

impl Vee {
    /// Largest width of the open end, mm (6 in; read in a plan form for heat straightening, whose author and year were not recorded).
    pub(crate) const WIDEST_MM: f64 = 152.0;

    /// The widest allowed vee of that depth: 20°, or less so that the open end stays within 152 mm and within that width, mm.
    ///
    /// 200 mm deep: 20° and 70.5 mm.
    pub(crate) fn within(depth_mm: f64, widest_mm: f64) -> Self {
        let full = 2.0 * depth_mm * (0.5 * WIDEST_DEG.to_radians()).tan();
        let base_mm = full.min(Self::WIDEST_MM).min(widest_mm);
        Self { angle_deg: angle_deg(depth_mm, base_mm), depth_mm, base_mm }
    }
}

/// Angle of a vee whose open end is that wide, degrees.
fn angle_deg(depth_mm: f64, base_mm: f64) -> f64 {
    2.0 * (0.5 * base_mm / depth_mm).atan().to_degrees()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_vee_of_200_mm_has_20_degrees_and_is_70_mm_wide() {
        let v = Vee::within(200.0, Vee::WIDEST_MM);
        assert!((v.base_mm - 70.5).abs() < 0.05 && (v.angle_deg - 20.0).abs() < 1e-9);
    }
}
