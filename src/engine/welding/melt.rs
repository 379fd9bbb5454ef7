//! Melt-off: how much wire a submerged arc melts, and the section that makes.

use super::{Arc, Polarity};
use crate::sources::{Constant, Trust, record};
use crate::steel::DENSITY_KG_PER_MM3;

/// Part of the melted wire that ends in the weld. Submerged arc 0.98–1.0 (memory, sure).
const DEPOSITION_EFFICIENCY: f64 = 0.99;

/// Melt-off by the arc, kg/h per A, of a wire that is positive.
const ARC_POSITIVE: f64 = 0.010_37;
/// The same of a negative one.
const ARC_NEGATIVE: f64 = 0.016_11;
/// Melt-off by the resistance of the extension, kg·mm/h per A², of a wire that is positive.
const EXTENSION_POSITIVE: f64 = 2.2426e-6;
/// The same of a negative one.
const EXTENSION_NEGATIVE: f64 = 2.0855e-6;

/// Melt-off coefficients (a, b) of kg/h = a·I + b·L·I²/d² for one wire, I in A, extension L and diameter d
/// in mm. Chandel, Welding Journal 66(5), 1987, 135-s, recalled and to be confirmed; within 4–6 % of
/// Norrish's coefficients scaled by wire section.
const fn coefficients(polarity: Polarity) -> (f64, f64) {
    match polarity {
        Polarity::ElectrodePositive => (ARC_POSITIVE, EXTENSION_POSITIVE),
        Polarity::ElectrodeNegative => (ARC_NEGATIVE, EXTENSION_NEGATIVE),
    }
}

/// Extension used when a procedure gives none, mm: about ten wire diameters, between 20 and 32 mm
/// (common practice, no source).
///
/// ```
/// use weldbow_engine::welding::melt::default_extension_mm;
/// assert_eq!([1.6, 2.4, 4.0].map(default_extension_mm), [20.0, 24.0, 32.0]);
/// ```
pub fn default_extension_mm(wire_diameter_mm: f64) -> f64 {
    (10.0 * wire_diameter_mm).clamp(20.0, 32.0)
}

/// Deposition of one arc, kg/h: 0.99·n·(a·I + b·L·I²/d²) with the current I of each of its n wires, extension L and diameter d;
/// `None` without a wire diameter. The wires share the current equally.
///
/// ```
/// use weldbow_engine::welding::{Arc, Polarity, melt::deposition_kg_per_h};
/// let arc = |wires, d: f64, extension_mm| Arc {
///     wires,
///     wire_diameter_mm: Some(d),
///     current_a: 600.0,
///     voltage_v: 30.0,
///     polarity: Polarity::ElectrodePositive,
///     extension_mm,
/// };
/// // one 4.0 mm wire melts 6.22 + 1.61 = 7.84 kg/h, two of 1.6 mm at 300 A each 2 · (3.11 + 1.58) = 9.38
/// let rate = [arc(1, 4.0, 32.0), arc(2, 1.6, 20.0)].map(|a| deposition_kg_per_h(&a).unwrap_or(0.0));
/// assert!((rate[0] - 0.99 * 7.837).abs() < 1e-3 && (rate[1] - 0.99 * 9.376).abs() < 1e-3);
/// ```
pub fn deposition_kg_per_h(arc: &Arc) -> Option<f64> {
    let d = arc.wire_diameter_mm?;
    let (a, b) = coefficients(arc.polarity);
    let wires = f64::from(arc.wires);
    let current = arc.current_a / wires;
    let melted = wires * (a * current + b * arc.extension_mm * current * current / (d * d));
    Some(melted * DEPOSITION_EFFICIENCY)
}

/// Section of weld metal laid at that rate (kg/h) and speed (mm/s), mm²: rate over density and speed.
///
/// ```
/// // 7.758 kg/h at 10 mm/s: 7.758/(3600 · 7.85e-6 · 10)
/// assert!((weldbow_engine::welding::melt::section_mm2(7.758, 10.0) - 27.45).abs() < 5e-3);
/// ```
pub fn section_mm2(deposition_kg_per_h: f64, travel_speed_mm_s: f64) -> f64 {
    deposition_kg_per_h / 3600.0 / DENSITY_KG_PER_MM3 / travel_speed_mm_s
}

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    record!(DEPOSITION_EFFICIENCY, "", "deposited over melted wire, submerged arc")
        .known(Trust::MemorySure, "handbooks of submerged arc welding, 0.99"),
    record!(ARC_POSITIVE, "kg/h per A", "melt-off of a positive wire by the arc")
        .known(Trust::MemoryCheck, "Chandel, Welding Journal 66(5), 1987, 135-s"),
    record!(ARC_NEGATIVE, "kg/h per A", "the same of a negative wire")
        .known(Trust::MemoryCheck, "Chandel, as above"),
    record!(
        EXTENSION_POSITIVE,
        "kg·mm/h per A²",
        "melt-off of a positive wire by the resistance of its extension"
    )
    .known(Trust::MemoryCheck, "Chandel, as above"),
    record!(EXTENSION_NEGATIVE, "kg·mm/h per A²", "the same of a negative wire")
        .known(Trust::MemoryCheck, "Chandel, as above"),
];

#[cfg(test)]
mod tests {
    use super::*;

    fn arc(wires: u32, d: f64, current_a: f64, extension_mm: f64) -> Arc {
        let polarity = Polarity::ElectrodePositive;
        Arc { wires, wire_diameter_mm: Some(d), current_a, voltage_v: 30.0, polarity, extension_mm }
    }

    #[test]
    fn two_thin_wires_melt_more_than_one_thick_one_at_the_same_current() {
        let thick = deposition_kg_per_h(&arc(1, 4.0, 600.0, 32.0)).unwrap();
        let twin = deposition_kg_per_h(&arc(2, 1.6, 600.0, 20.0)).unwrap();
        assert!(twin > 1.15 * thick, "twin {twin:.2} kg/h against single {thick:.2} kg/h");
    }

    #[test]
    fn a_longer_extension_and_negative_polarity_melt_more() {
        let base = arc(2, 1.6, 600.0, 20.0);
        let long = Arc { extension_mm: 30.0, ..base.clone() };
        let negative = Arc { polarity: Polarity::ElectrodeNegative, ..base.clone() };
        let rate = |a: &Arc| deposition_kg_per_h(a).unwrap();
        assert!(rate(&long) > rate(&base), "{} > {}", rate(&long), rate(&base));
        assert!(rate(&negative) > rate(&base), "{} > {}", rate(&negative), rate(&base));
    }

    #[test]
    fn without_a_wire_diameter_there_is_no_deposit() {
        let unknown = Arc { wire_diameter_mm: None, ..arc(2, 1.6, 600.0, 20.0) };
        assert_eq!(deposition_kg_per_h(&unknown), None);
    }
}
