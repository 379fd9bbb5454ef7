//! Which values part one shade from the next.

use super::bands::Bands;
use crate::number::ticks;
use crate::ramp::Ramp;
use crate::theme::VERMILION;
use weldbow_engine::steel::molten::{LIQUIDUS_C, SOLIDUS_C};
use weldbow_engine::units::System;

/// Limits of temperature, closer where structural steel changes most (a choice), °C and °F.
const SI_C: [f64; 9] = [100.0, 200.0, 300.0, 400.0, 500.0, 600.0, 800.0, 1000.0, 1200.0];
const US_F: [f64; 9] = [200.0, 400.0, 600.0, 800.0, 1000.0, 1200.0, 1500.0, 1800.0, 2200.0];

/// Temperatures, °C, the molten in its own colour above half molten.
pub(super) fn temperature(system: System) -> Bands {
    let mut limits: Vec<f64> = match system {
        System::Si => SI_C.to_vec(),
        System::Us => US_F.iter().map(|f| (f - 32.0) / 1.8).collect(),
    };
    limits.push(f64::midpoint(SOLIDUS_C, LIQUIDUS_C));
    let shades = limits.len();
    let ramp = Ramp::OneWay(0.0, (shades - 1) as f64);
    let mut inks: Vec<_> = (0..shades).map(|k| ramp.ink(k as f64)).collect();
    inks.push(VERMILION);
    Bands { limits, inks }
}

/// Compression is drawn up to this depth at its largest: it is small beside the tension of a weld, and as telling (a choice).
const COMPRESSED: f64 = 0.55;

/// Stresses, MPa, between those two: round steps in the shown unit; tension and compression each to its own depth.
pub(super) fn stress(low_mpa: f64, high_mpa: f64, unit_mpa: f64) -> Bands {
    let (marks, _) = ticks(low_mpa / unit_mpa, high_mpa / unit_mpa, 10.0);
    let limits: Vec<f64> = marks.iter().map(|mark| mark * unit_mpa).collect();
    let depth = |mpa: f64| {
        if mpa < 0.0 {
            -COMPRESSED * (mpa / low_mpa.min(-1.0)).min(1.0)
        } else {
            (mpa / high_mpa.max(1.0)).min(1.0)
        }
    };
    let step = limits.get(1).zip(limits.first()).map_or(1.0, |(b, a)| b - a);
    let middle = |k: usize| match (k.checked_sub(1).and_then(|k| limits.get(k)), limits.get(k)) {
        (Some(a), Some(b)) => f64::midpoint(*a, *b),
        (None, Some(b)) => b - step / 2.0,
        (Some(a), None) => a + step / 2.0,
        (None, None) => f64::midpoint(low_mpa, high_mpa),
    };
    let inks = (0..=limits.len()).map(|k| Ramp::BothWays(1.0).ink(depth(middle(k)))).collect();
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
            stress(-98.0, 266.0, 1.0),
            stress(-98.0, 266.0, 6.894_757),
            stress(0.0, 0.0, 1.0),
            stress(-3.0, -1.0, 1.0),
        ] {
            assert_eq!(bands.inks.len(), bands.limits.len() + 1);
            assert!(bands.limits.windows(2).all(|w| w[1] > w[0]), "{bands:?}");
        }
    }
}
