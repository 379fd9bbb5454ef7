//! The units of each kind: every accepted spelling with its factor.

use std::f64::consts::PI;

/// One accepted spelling of a unit: value in engine units = (number − zero) · times / per.
///
/// Two factors instead of one keep conversions exact where their definitions are: 1 mm/min is a
/// division by 60, not a product with 0.01666….
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// As written after the number.
    pub spelling: &'static str,
    /// Multiplies the number.
    pub times: f64,
    /// Divides it.
    pub(crate) per: f64,
    /// Reading that means 0 in engine units; 0 but for °F.
    pub zero: f64,
}

impl Unit {
    const fn new(spelling: &'static str, times: f64, per: f64) -> Self {
        Self { spelling, times, per, zero: 0.0 }
    }

    /// A number of this unit in engine units.
    pub fn to_engine(&self, number: f64) -> f64 {
        (number - self.zero) * self.times / self.per
    }

    /// A number of engine units in this unit.
    pub fn of_engine(&self, engine: f64) -> f64 {
        engine * self.per / self.times + self.zero
    }
}

/// Pound-force in newtons, exact: 0.45359237 kg · 9.80665 m/s² (both by definition).
pub const LBF_N: f64 = 4.448_221_615_260_5;
/// Inch in mm, exact (1959 definition).
pub const IN_MM: f64 = 25.4;
/// Foot in mm, exact.
pub const FT_MM: f64 = 304.8;
/// Square inch in mm², exact.
const IN2: f64 = 645.16;
/// Pound in kg, exact (1959 definition).
pub const LB_KG: f64 = 0.453_592_37;

pub(super) const LENGTH: &[Unit] = &[
    Unit::new("mm", 1.0, 1.0),
    Unit::new("cm", 10.0, 1.0),
    Unit::new("m", 1000.0, 1.0),
    Unit::new("in", IN_MM, 1.0),
    Unit::new("ft", FT_MM, 1.0),
    Unit::new("\"", IN_MM, 1.0),
    Unit::new("'", FT_MM, 1.0),
];
pub(super) const SPEED: &[Unit] = &[
    Unit::new("mm/s", 1.0, 1.0),
    Unit::new("mm/min", 1.0, 60.0),
    Unit::new("cm/min", 10.0, 60.0),
    Unit::new("m/min", 1000.0, 60.0),
    Unit::new("m/s", 1000.0, 1.0),
    Unit::new("in/min", IN_MM, 60.0),
    Unit::new("ipm", IN_MM, 60.0),
];
pub(super) const FORCE: &[Unit] = &[
    Unit::new("N", 1.0, 1.0),
    Unit::new("kN", 1000.0, 1.0),
    Unit::new("kip", LBF_N * 1000.0, 1.0),
    Unit::new("lbf", LBF_N, 1.0),
];
pub(super) const STRESS: &[Unit] = &[
    Unit::new("MPa", 1.0, 1.0),
    Unit::new("N/mm²", 1.0, 1.0),
    Unit::new("N/mm2", 1.0, 1.0),
    Unit::new("GPa", 1000.0, 1.0),
    Unit::new("ksi", LBF_N * 1000.0, IN2),
    Unit::new("psi", LBF_N, IN2),
];
pub(super) const CURRENT: &[Unit] = &[Unit::new("A", 1.0, 1.0), Unit::new("kA", 1000.0, 1.0)];
pub(super) const VOLTAGE: &[Unit] = &[Unit::new("V", 1.0, 1.0)];
pub(super) const HEAT_INPUT: &[Unit] = &[
    Unit::new("J/mm", 1.0, 1.0),
    Unit::new("kJ/mm", 1000.0, 1.0),
    Unit::new("kJ/cm", 1000.0, 10.0),
    Unit::new("kJ/in", 1000.0, IN_MM),
    Unit::new("J/in", 1.0, IN_MM),
];
pub(super) const TEMPERATURE: &[Unit] = &[
    Unit::new("°C", 1.0, 1.0),
    Unit::new("C", 1.0, 1.0),
    Unit::new("degC", 1.0, 1.0),
    Unit { spelling: "°F", times: 5.0, per: 9.0, zero: 32.0 },
    Unit { spelling: "F", times: 5.0, per: 9.0, zero: 32.0 },
    Unit { spelling: "degF", times: 5.0, per: 9.0, zero: 32.0 },
];
pub(super) const TIME: &[Unit] =
    &[Unit::new("s", 1.0, 1.0), Unit::new("min", 60.0, 1.0), Unit::new("h", 3600.0, 1.0)];
pub(super) const MASS_RATE: &[Unit] = &[
    Unit::new("kg/h", 1.0, 1.0),
    Unit::new("lb/h", LB_KG, 1.0),
    Unit::new("g/min", 60.0, 1000.0),
    Unit::new("g/s", 3600.0, 1000.0),
];
pub(super) const MOMENT: &[Unit] = &[
    Unit::new("N·mm", 1.0, 1.0),
    Unit::new("kN·m", 1e6, 1.0),
    Unit::new("kN m", 1e6, 1.0),
    Unit::new("kNm", 1e6, 1.0),
    Unit::new("N·m", 1000.0, 1.0),
    Unit::new("Nm", 1000.0, 1.0),
    Unit::new("kip·ft", LBF_N * 1000.0 * FT_MM, 1.0),
    Unit::new("kip ft", LBF_N * 1000.0 * FT_MM, 1.0),
    Unit::new("kip-ft", LBF_N * 1000.0 * FT_MM, 1.0),
    Unit::new("kip·in", LBF_N * 1000.0 * IN_MM, 1.0),
    Unit::new("kip in", LBF_N * 1000.0 * IN_MM, 1.0),
];
pub(super) const FORCE_PER_LENGTH: &[Unit] = &[
    Unit::new("N/mm", 1.0, 1.0),
    Unit::new("kN/m", 1.0, 1.0),
    Unit::new("kN/mm", 1000.0, 1.0),
    Unit::new("N/m", 1.0, 1000.0),
    Unit::new("kip/ft", LBF_N * 1000.0, FT_MM),
    Unit::new("kip/in", LBF_N * 1000.0, IN_MM),
    Unit::new("lbf/ft", LBF_N, FT_MM),
    Unit::new("lbf/in", LBF_N, IN_MM),
];
/// 10 ft in m, exact.
const TEN_FT_M: f64 = 3.048;
pub(super) const STRAIGHTNESS: &[Unit] = &[
    Unit::new("mm/m", 1.0, 1.0),
    Unit::new("in/10ft", IN_MM, TEN_FT_M),
    Unit::new("in/10 ft", IN_MM, TEN_FT_M),
];
pub(super) const ANGLE: &[Unit] = &[
    Unit::new("rad", 1.0, 1.0),
    Unit::new("mrad", 1.0, 1000.0),
    Unit::new("deg", PI, 180.0),
    Unit::new("°", PI, 180.0),
];
