//! Time and money of a method, and the chance that it is not enough.

use super::Rates;
use serde::Serialize;
use statrs::distribution::{ContinuousCDF, Normal};

/// Minutes, money, and the chance of failing.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Price {
    /// Minutes.
    pub minutes: f64,
    /// Money.
    pub cost: f64,
    /// Chance that the piece is still out of its limit after it.
    pub fails: f64,
    /// Cost + chance of failing · cost of what comes next.
    pub expected: f64,
}

impl Price {
    pub(super) fn of(rates: &Rates, minutes: f64, consumed: f64, fails: f64) -> Self {
        let cost = minutes / 60.0 * rates.per_hour + consumed;
        Self { minutes, cost, fails, expected: cost + fails * rates.rework }
    }

    /// Pushes at so many places.
    pub(super) fn pushes(rates: &Rates, places: usize, fails: f64) -> Self {
        let a_place = rates.position_min + rates.pushes_a_place * (rates.push_min + rates.measure_min);
        Self::of(rates, rates.press_setup_min + places as f64 * a_place, 0.0, fails)
    }

    /// Heats, two flanges or flange and web each, at so many places, with so many waits for steel to cool.
    pub(super) fn heats(rates: &Rates, heats: u32, waits: u32, places: usize, fails: f64) -> Self {
        let n = f64::from(heats);
        let minutes = rates.heat_setup_min
            + 2.0 * n * rates.fire_min
            + f64::from(waits) * rates.cool_min
            + places as f64 * rates.measure_min;
        Self::of(rates, minutes, 2.0 * n * rates.per_heat, fails)
    }

    /// Runs along a flange: how many along a length (mm).
    pub(super) fn runs(
        rates: &Rates,
        setup_min: f64,
        runs: impl Iterator<Item = (f64, f64)>,
        consumed: f64,
        fails: f64,
    ) -> Self {
        let one = |(runs, length_mm): (f64, f64)| {
            runs * (length_mm / 1e3 / rates.line_m_per_min + rates.measure_min)
        };
        Self::of(rates, setup_min + runs.map(one).sum::<f64>(), consumed, fails)
    }
}

/// Chance that an offset left (mm, expected size, standard deviation) is outside ± the tolerance.
///
/// Nothing left, tolerance two standard deviations: 4.6 %.
/// ```
/// assert!((weldbow_engine::straighten::plan::fails(0.0, 1.0, 2.0) - 0.0455).abs() < 1e-4);
/// ```
pub fn fails(left_mm: f64, sd_mm: f64, tolerance_mm: f64) -> f64 {
    let sd = sd_mm.max(f64::MIN_POSITIVE);
    let law = Normal::standard();
    let inside = law.cdf((tolerance_mm - left_mm) / sd) - law.cdf((-tolerance_mm - left_mm) / sd);
    (1.0 - inside).clamp(0.0, 1.0)
}
