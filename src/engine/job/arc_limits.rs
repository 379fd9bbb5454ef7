//! What an arc may be set to, in a job's procedure and in a shop's book alike (choices: beyond them is a slip of the pen).

use crate::input::findings::{Bounds, bounds};

/// Temperature of steel that is not preheated, °C: the reference of the shrinkage formulas.
pub(crate) const SHOP_C: f64 = 20.0;

/// Travel speed, mm/s.
pub(crate) const SPEED: Bounds = bounds("a travel speed", 0.5, 500.0, "30 mm/min to 30 m/min", "mm/s");
/// Current of all wires together, A.
pub(crate) const CURRENT: Bounds =
    bounds("a current of all wires together", 10.0, 5000.0, "10 A to 5000 A", "A");
/// Arc voltage, V.
pub(crate) const VOLTAGE: Bounds = bounds("an arc voltage", 8.0, 80.0, "8 V to 80 V", "V");
/// Wires of one arc.
pub(crate) const WIRES: Bounds = bounds("a number of wires", 1.0, 6.0, "1 to 6", "wires");
/// Wire diameter, mm.
pub(crate) const DIAMETER: Bounds = bounds("a wire diameter", 0.5, 10.0, "0.5 mm to 10 mm", "mm");
/// Electrode extension, mm.
pub(crate) const EXTENSION: Bounds = bounds("an electrode extension", 5.0, 200.0, "5 mm to 200 mm", "mm");
/// Arc efficiency.
pub(crate) const EFFICIENCY: Bounds = bounds("an arc efficiency", 0.3, 1.0, "0.3 to 1", "");
/// Temperature before welding, °C.
pub(crate) const PREHEAT: Bounds =
    bounds("a preheat", SHOP_C, 400.0, "20 °C to 400 °C (leave it out for cold steel)", "°C");
