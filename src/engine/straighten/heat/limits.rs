//! How hot, and how cold before the next heat.

use crate::straighten::decide::Delivery;

/// Steel must be below this before the next heat at the same place, °C (250 °F; common in highway
/// practice, source not recorded).
pub const NEXT_HEAT_C: f64 = 121.0;

/// No water or blown air on steel above this, °C (600 °F; common in highway practice, source not
/// recorded).
pub(crate) const NO_WATER_C: f64 = 316.0;

/// Highest temperature, °C: 650 for carbon and low-alloy steel (1 200 °F; FHWA guide chapter 5 and AISC 360-22 M2.1, read),
/// 590 for quenched and tempered (1 100 °F; AISC 360-22 M2.1, read; only under an approved procedure). None where the
/// steel maker's limit is needed first.
///
/// ```
/// use weldbow_engine::straighten::{decide::Delivery, heat::most_c};
/// assert_eq!(most_c(Delivery::Ordinary), Some(650.0));
/// assert_eq!(most_c(Delivery::Unknown), None);
/// ```
pub const fn most_c(delivery: Delivery) -> Option<f64> {
    match delivery {
        Delivery::Ordinary => Some(650.0),
        Delivery::QuenchedTempered => Some(590.0),
        Delivery::Thermomechanical | Delivery::ColdFormed | Delivery::Unknown | Delivery::NotStated => None,
    }
}
