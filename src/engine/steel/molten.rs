//! Carbon steel from 20 °C through melting: EN 1993-1-2 to 1200 °C, and what we add above.
//!
//! The standard ends at 1200 °C. Beyond it stand our choices, each named here: specific heat and slope of elongation
//! go on as at 1200 °C, fusion takes its heat evenly between [`SOLIDUS_C`] and [`LIQUIDUS_C`], expansion ends at the
//! solidus since a melt shifts no plate, conductivity grows while melting because the pool is stirred, and
//! strength and stiffness keep a hundredth of their cold values so that a liquid still is a body to the solver.

use super::hot::{COLDEST_C, HOTTEST_C, elongation, k_elastic, k_proportional, k_yield};
use crate::sources::{Constant, Trust, record};
use serde::Serialize;

/// First melt, °C (a choice; a structural steel melts between about 1450 and 1530, memory).
pub const SOLIDUS_C: f64 = 1440.0;
/// All molten, °C (a choice, as [`SOLIDUS_C`]).
pub const LIQUIDUS_C: f64 = 1500.0;
/// Heat of fusion, J/kg (memory; 247–277 kJ/kg are quoted).
const FUSION_J_PER_KG: f64 = 270_000.0;
/// Conductivity of the stirred melt, W/(m K) (a choice: about twice that of the solid).
const MOLTEN_W_PER_M_K: f64 = 60.0;
/// Least part of the cold strength and stiffness that is kept (a choice: a hundredth).
const FLOOR: f64 = 0.01;

/// Specific heat beyond the range of the standard, J/(kg K): its value from 900 °C on.
const HOTTEST_J_PER_KG_K: f64 = 650.0;
/// Conductivity from 800 °C to the solidus, W/(m K) (EN 1993-1-2 formula 3.3b).
const HOT_W_PER_M_K: f64 = 27.3;

/// Heat to bring 1 kg from 20 °C to T, J/kg: the closed integral of EN 1993-1-2 formulas 3.2a–d, 650 J/(kg K) beyond
/// 1200 °C, and `FUSION_J_PER_KG`. Below 20 °C it goes on with the specific heat at 20 °C. A NaN gives NaN.
///
/// ```
/// let h = weldbow_engine::steel::molten::heat_content_j_per_kg(1000.0);
/// // 900 … 1000 °C take 650 J/(kg K).
/// assert!((h - weldbow_engine::steel::molten::heat_content_j_per_kg(900.0) - 65_000.0).abs() < 1e-6);
/// ```
pub fn heat_content_j_per_kg(t_c: f64) -> f64 {
    let polynomial = |t: f64| t * (425.0 + t * (0.773 / 2.0 + t * (-1.69e-3 / 3.0 + t * 2.22e-6 / 4.0)));
    if t_c < COLDEST_C {
        return (t_c - COLDEST_C) * 439.801_76;
    }
    let to = |end: f64| t_c.min(end);
    let mut heat = polynomial(to(600.0)) - polynomial(COLDEST_C);
    if t_c > 600.0 {
        let t = to(735.0);
        heat += 666.0 * (t - 600.0) + 13_002.0 * (138.0 / (738.0 - t)).ln();
    }
    if t_c > 735.0 {
        let t = to(900.0);
        heat += 545.0 * (t - 735.0) + 17_820.0 * ((t - 731.0) / 4.0).ln();
    }
    if t_c > 900.0 {
        heat += HOTTEST_J_PER_KG_K * (t_c - 900.0);
    }
    heat + FUSION_J_PER_KG * ((t_c - SOLIDUS_C) / (LIQUIDUS_C - SOLIDUS_C)).clamp(0.0, 1.0)
}

/// Integral of the conductivity from 20 °C to T, W/m: EN 1993-1-2 formulas 3.3a–b, 27.3 to the solidus, then rising
/// evenly to `MOLTEN_W_PER_M_K` at the liquidus. Below 20 °C it goes on with the conductivity at 20 °C.
///
/// Heat flows down the gradient of this potential alone, however the conductivity varies.
///
/// ```
/// let p = weldbow_engine::steel::molten::conduction_potential_w_per_m(100.0);
/// // 80 K · (53.334 + 50.670)/2
/// assert!((p - 4160.16).abs() < 1e-9);
/// ```
pub fn conduction_potential_w_per_m(t_c: f64) -> f64 {
    let solid = |t: f64| t * (54.0 - 3.33e-2 / 2.0 * t);
    if t_c < COLDEST_C {
        return (t_c - COLDEST_C) * (54.0 - 3.33e-2 * COLDEST_C);
    }
    let mut sum = solid(t_c.min(800.0)) - solid(COLDEST_C);
    if t_c > 800.0 {
        sum += HOT_W_PER_M_K * (t_c - 800.0);
    }
    let gain = MOLTEN_W_PER_M_K - HOT_W_PER_M_K;
    let range = LIQUIDUS_C - SOLIDUS_C;
    let melting = (t_c - SOLIDUS_C).clamp(0.0, range);
    sum + gain * melting * melting / (2.0 * range) + gain * (t_c - LIQUIDUS_C).max(0.0)
}

/// Thermal elongation since 20 °C: EN 1993-1-2 to 1200 °C, going on with 2·10⁻⁵ a kelvin to the solidus, then fixed.
///
/// ```
/// // 2e-5 · 1440 − 6.2e-3
/// assert!((weldbow_engine::steel::molten::elongation_to_solidus(1600.0) - 0.0226).abs() < 1e-12);
/// ```
pub fn elongation_to_solidus(t_c: f64) -> f64 {
    elongation(t_c) + 2.0e-5 * (t_c.min(SOLIDUS_C) - HOTTEST_C).max(0.0)
}

/// Which hot strength of EN 1993-1-2 begins plastic flow.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Strength {
    /// k_y, the strength at 2 % strain: welding strains are of that size. The default.
    TwoPercent,
    /// k_p, the proportional limit: flow begins there, but the hardening after it is then missing. The two bracket
    /// the truth; shrinkage forces differ by about a fifth.
    Proportional,
}

impl Strength {
    /// Strength at T over that at 20 °C, at least `FLOOR`.
    pub fn factor(self, t_c: f64) -> f64 {
        let factor = match self {
            Self::TwoPercent => k_yield(t_c),
            Self::Proportional => k_proportional(t_c),
        };
        factor.max(FLOOR)
    }
}

/// Young's modulus at T (°C) over that at 20 °C, at least `FLOOR`: k_E of EN 1993-1-2 Table 3.1 to 1200 °C, a hundredth in the melt.
///
/// ```
/// use weldbow_engine::steel::molten::stiffness_factor;
/// assert!((stiffness_factor(500.0) - 0.60).abs() < 1e-12 && (stiffness_factor(1600.0) - 0.01).abs() < 1e-12);
/// ```
pub fn stiffness_factor(t_c: f64) -> f64 {
    k_elastic(t_c).max(FLOOR)
}

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    record!(SOLIDUS_C, "°C", "first melt")
        .known(Trust::Choice, "structural steel melts between about 1450 and 1530 °C"),
    record!(LIQUIDUS_C, "°C", "all molten").known(Trust::Choice, "as above"),
    record!(HOTTEST_J_PER_KG_K, "J/(kg K)", "specific heat from 900 °C on")
        .known(Trust::MemorySure, "EN 1993-1-2 formula 3.2d; beyond its range likewise"),
    record!(HOT_W_PER_M_K, "W/(m K)", "conductivity from 800 °C to the first melt")
        .known(Trust::MemorySure, "EN 1993-1-2 formula 3.3b"),
    record!(FUSION_J_PER_KG, "J/kg", "heat of fusion").known(Trust::MemoryCheck, "247–277 kJ/kg are quoted"),
    record!(MOLTEN_W_PER_M_K, "W/(m K)", "conductivity of the stirred melt")
        .known(Trust::Choice, "about twice that of the solid"),
    record!(FLOOR, "", "least part of cold strength kept by a melt")
        .known(Trust::Choice, "so that a liquid still is a body to the solver"),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::steel::hot::{conductivity_w_per_m_k, specific_heat_j_per_kg_k};

    /// Central difference of an integral against its integrand, away from the steps of the standard.
    fn slope_is(integral: fn(f64) -> f64, integrand: fn(f64) -> f64, places: &[f64]) {
        for &t in places {
            let got = (integral(t + 1e-3) - integral(t - 1e-3)) / 2e-3;
            let want = integrand(t);
            assert!((got / want - 1.0).abs() < 1e-5, "at {t} °C: slope {got}, integrand {want}");
        }
    }

    #[test]
    fn the_integrals_have_the_slopes_of_the_standard() {
        let places = [20.5, 300.0, 599.0, 650.0, 734.0, 736.0, 850.0, 1000.0, 1199.0];
        slope_is(heat_content_j_per_kg, specific_heat_j_per_kg_k, &places);
        slope_is(conduction_potential_w_per_m, conductivity_w_per_m_k, &places);
    }

    #[test]
    fn melting_takes_its_heat_and_adds_its_conductivity() {
        let melt = heat_content_j_per_kg(LIQUIDUS_C) - heat_content_j_per_kg(SOLIDUS_C);
        assert!((melt - (270_000.0 + 60.0 * 650.0)).abs() < 1e-6, "{melt}");
        let end = (conduction_potential_w_per_m(2000.0) - conduction_potential_w_per_m(1900.0)) / 100.0;
        assert!((end - MOLTEN_W_PER_M_K).abs() < 1e-9, "{end}");
        let amid = (conduction_potential_w_per_m(1470.1) - conduction_potential_w_per_m(1469.9)) / 0.2;
        assert!((amid - 43.65).abs() < 1e-6, "{amid}");
    }

    #[test]
    fn heat_and_potential_rise_with_temperature_everywhere() {
        for property in [heat_content_j_per_kg, conduction_potential_w_per_m] {
            for k in -100..30_000 {
                let t = f64::from(k) / 5.0;
                assert!(property(t + 0.2) > property(t), "at {t} °C");
            }
            assert!(property(f64::NAN).is_nan());
        }
    }

    #[test]
    fn strength_and_stiffness_end_at_a_hundredth() {
        for factor in
            [|t| Strength::TwoPercent.factor(t), |t| Strength::Proportional.factor(t), stiffness_factor]
        {
            assert!((factor(3000.0) - FLOOR).abs() < 1e-15 && (factor(20.0) - 1.0).abs() < 1e-15);
        }
    }
}
