//! Which values part one shade from the next. Hot is dark: pale yellow to dark red, even in a grey print.

use super::bands::Bands;
use crate::number::ticks;
use crate::ramp::{Ramp, mix};
use crate::theme::{FULL, Ink, Stroke};
use weldbow_engine::steel::molten::{LIQUIDUS_C, SOLIDUS_C};
use weldbow_engine::units::System;

/// Limits of temperature, closer where structural steel changes most (a choice), °C and °F.
const SI_C: [f64; 9] = [100.0, 200.0, 300.0, 400.0, 500.0, 600.0, 800.0, 1000.0, 1200.0];
const US_F: [f64; 9] = [200.0, 400.0, 600.0, 800.0, 1000.0, 1200.0, 1500.0, 1800.0, 2200.0];

/// Ends of the shades of temperature, and what is molten.
const COLD: Ink = Ink(0xff, 0xfb, 0xe6);
const HOT: Ink = Ink(0x9c, 0x1c, 0x0e);
pub(super) const MOLTEN: Ink = Ink(0x3d, 0x07, 0x04);

/// Round what is molten, a heavy line; where ferrite turns to austenite and the steel has lost most of its strength, a thin one.
const MELT_LINE: Stroke = Stroke::new(MOLTEN, 2.4, FULL);
const SOFT_LINE: Stroke = Stroke::new(Ink(0x22, 0x22, 0x22), 0.9, FULL);
/// Eutectoid temperature of carbon steel, °C (727 in the iron-carbon diagram; memory, sure).
pub(super) const SOFT_C: f64 = 727.0;

/// Half molten, °C.
fn melt_c() -> f64 {
    f64::midpoint(SOLIDUS_C, LIQUIDUS_C)
}

/// The temperatures at which lines are drawn, °C.
pub(super) fn lines() -> [(f64, Stroke); 2] {
    [(SOFT_C, SOFT_LINE), (melt_c(), MELT_LINE)]
}

/// Temperatures, °C, the molten in its own colour above half molten.
pub(super) fn temperature(system: System) -> Bands {
    let mut limits: Vec<f64> = match system {
        System::Si => SI_C.to_vec(),
        System::Us => US_F.iter().map(|f| (f - 32.0) / 1.8).collect(),
    };
    limits.push(melt_c());
    let shades = limits.len();
    let mut inks: Vec<_> = (0..shades).map(|k| mix(COLD, HOT, k as f64 / (shades - 1) as f64)).collect();
    inks.push(MOLTEN);
    Bands { limits, inks }
}

/// Steps from no stress to yield, each way (a choice: seven shades can be told apart).
const STEPS: f64 = 7.0;

/// Stresses, MPa: equal steps in the shown unit either side of nothing, as far as yield both ways whatever occurs, so that
/// pictures can be compared; above yield is one shade more.
pub(super) fn stress(yield_mpa: f64, unit_mpa: f64) -> Bands {
    let (marks, _) = ticks(0.0, yield_mpa / unit_mpa, STEPS);
    let step = marks.get(1).zip(marks.first()).map_or(1.0, |(b, a)| b - a) * unit_mpa;
    let count = (yield_mpa / step + 1e-9).floor().max(1.0) as i32;
    let limits: Vec<f64> = (-count..=count).map(|k| f64::from(k) * step).collect();
    let depth = |k: usize| (k as f64 - f64::from(count) - 0.5) / (f64::from(count) + 0.5);
    let inks = (0..=limits.len()).map(|k| Ramp::BothWays(1.0).ink(depth(k))).collect();
    Bands { limits, inks }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn there_is_one_shade_more_than_limits() {
        for bands in [
            temperature(System::Si),
            temperature(System::Us),
            stress(355.0, 1.0),
            stress(345.0, 6.894_757),
            stress(235.0, 1.0),
        ] {
            assert_eq!(bands.inks.len(), bands.limits.len() + 1);
            assert!(bands.limits.windows(2).all(|w| w[1] > w[0]), "{bands:?}");
        }
    }

    #[test]
    fn tension_and_compression_have_the_same_steps() {
        for bands in [stress(355.0, 1.0), stress(345.0, 6.894_757)] {
            let mirrored: Vec<f64> = bands.limits.iter().rev().map(|limit| -limit).collect();
            for (a, b) in bands.limits.iter().zip(&mirrored) {
                assert!((a - b).abs() < 1e-9, "{bands:?}");
            }
        }
    }
}
