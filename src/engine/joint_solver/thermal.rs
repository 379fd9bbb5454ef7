//! Heat content and conduction of a steel as tables over its heat content.
//!
//! Over heat content, temperature and conduction potential are smooth where over temperature they are not: the
//! change at 735 °C and fusion are stretches of low slope. So the solver works with heat content, and its Newton steps
//! cannot jump across a peak.

use crate::steel::{DENSITY_KG_PER_MM3, molten};

/// Intervals of a table; each is 0.2 K of cold steel.
const INTERVALS: usize = 8192;
/// Where a table ends, °C; beyond, its last slopes go on, so no heat is lost.
const LAST_C: f64 = 3000.0;

/// State of the steel at one heat content.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thermal {
    /// Temperature, °C.
    pub t_c: f64,
    /// Integral of the conductivity since 20 °C, J/(s mm).
    pub(crate) potential: f64,
    /// Change of temperature with heat content, K mm³/J.
    pub(crate) dt_dh: f64,
    /// Change of the potential with heat content, mm²/s: the diffusivity.
    pub(crate) dp_dh: f64,
}

/// A steel as heat sees it.
#[derive(Debug, Clone)]
pub struct ThermalTable {
    step: f64,
    /// Temperature and potential at each multiple of `step`.
    rows: Vec<[f64; 2]>,
}

impl ThermalTable {
    /// EN 1993-1-2 with fusion, as [`crate::steel::molten`].
    pub fn steel() -> Self {
        Self::new(
            |t| molten::heat_content_j_per_kg(t) * DENSITY_KG_PER_MM3,
            |t| molten::conduction_potential_w_per_m(t) * 1e-3,
        )
    }

    /// Constant volumetric heat ρc, J/(mm³ K), and conductivity, W/(m K): for comparison with closed forms.
    pub fn constant(heat_j_per_mm3_k: f64, conductivity_w_per_m_k: f64) -> Self {
        Self::new(|t| heat_j_per_mm3_k * (t - 20.0), |t| conductivity_w_per_m_k * 1e-3 * (t - 20.0))
    }

    /// From heat content, J/mm³, and conduction potential, J/(s mm), both rising and zero at 20 °C.
    fn new(heat: impl Fn(f64) -> f64, potential: impl Fn(f64) -> f64) -> Self {
        let step = heat(LAST_C) / INTERVALS as f64;
        let row = |k: usize| {
            let t = inverse(&heat, step * k as f64);
            [t, potential(t)]
        };
        Self { step, rows: (0..=INTERVALS).map(row).collect() }
    }

    /// State at a heat content of h J/mm³ since 20 °C; negative when colder.
    pub fn at(&self, h: f64) -> Thermal {
        let place = h / self.step;
        let k = (place.max(0.0) as usize).min(INTERVALS - 1);
        let ([t0, p0], [t1, p1]) = (self.rows[k], self.rows[k + 1]);
        let part = place - k as f64;
        Thermal {
            t_c: t0 + part * (t1 - t0),
            potential: p0 + part * (p1 - p0),
            dt_dh: (t1 - t0) / self.step,
            dp_dh: (p1 - p0) / self.step,
        }
    }

    /// Heat content at a temperature, J/mm³: the inverse of [`ThermalTable::at`].
    pub(crate) fn heat_j_per_mm3(&self, t_c: f64) -> f64 {
        let k = self.rows.partition_point(|row| row[0] <= t_c).clamp(1, INTERVALS) - 1;
        let (t0, t1) = (self.rows[k][0], self.rows[k + 1][0]);
        self.step * (k as f64 + (t_c - t0) / (t1 - t0))
    }
}

/// Temperature at which a rising function has that value, by bisection to the last bit.
fn inverse(heat: impl Fn(f64) -> f64, value: f64) -> f64 {
    let (mut low, mut high) = (20.0, LAST_C);
    for _ in 0..60 {
        let middle = (low + high) / 2.0;
        if heat(middle) < value { low = middle } else { high = middle }
    }
    (low + high) / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_gives_back_the_steel_it_was_made_from() {
        let table = ThermalTable::steel();
        for t in [20.0, 100.3, 599.0, 700.0, 734.9, 735.1, 850.0, 1200.0, 1439.0, 1470.0, 1501.0, 2500.0] {
            let heat = molten::heat_content_j_per_kg(t) * DENSITY_KG_PER_MM3;
            let state = table.at(heat);
            let potential = molten::conduction_potential_w_per_m(t) * 1e-3;
            assert!((state.t_c - t).abs() < 0.02, "{} against {t} °C", state.t_c);
            assert!((state.potential / potential.max(1e-3) - 1.0).abs() < 1e-3 || t < 21.0, "at {t} °C");
            let back = table.at(table.heat_j_per_mm3(t)).t_c;
            assert!((back - t).abs() < 1e-9, "{back} against {t} °C");
        }
    }

    #[test]
    fn beyond_its_ends_the_table_goes_on_straight() {
        let table = ThermalTable::constant(4.5e-3, 40.0);
        for t in [-30.0, 20.0, 5000.0] {
            let state = table.at(4.5e-3 * (t - 20.0));
            assert!(
                (state.t_c - t).abs() < 1e-6 && (state.potential - 0.04 * (t - 20.0)).abs() < 1e-6,
                "{state:?}"
            );
            assert!((state.dp_dh - 0.04 / 4.5e-3).abs() < 1e-9);
        }
    }
}
