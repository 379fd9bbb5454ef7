//! The kinds of quantity a user writes.

use super::unit::{self, Unit};

/// What a value measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Kind {
    /// Length, mm.
    Length,
    /// Travel or feed speed, mm/s.
    Speed,
    /// Force, N.
    Force,
    /// Stress or strength, MPa.
    Stress,
    /// Current, A.
    Current,
    /// Voltage, V.
    Voltage,
    /// Heat per length of weld, J/mm.
    HeatInput,
    /// Temperature, °C.
    Temperature,
    /// Time, s.
    Time,
    /// Mass per time, kg/h.
    MassRate,
    /// Angle, rad.
    Angle,
    /// Bending moment, N·mm.
    Moment,
    /// Force per length: load on a member, shear flow along a seam; N/mm.
    ForcePerLength,
    /// Out-of-straightness: offset at the middle over the length; mm/m.
    Straightness,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Self; 14] = [
        Self::Length,
        Self::Speed,
        Self::Force,
        Self::Stress,
        Self::Current,
        Self::Voltage,
        Self::HeatInput,
        Self::Temperature,
        Self::Time,
        Self::MassRate,
        Self::Angle,
        Self::Moment,
        Self::ForcePerLength,
        Self::Straightness,
    ];

    /// Its name, its units and two right examples.
    const fn facts(self) -> (&'static str, &'static [Unit], [&'static str; 2]) {
        match self {
            Self::Length => ("length", unit::LENGTH, ["8 mm", "5/16 in"]),
            Self::Speed => ("speed", unit::SPEED, ["1.1 m/min", "40 in/min"]),
            Self::Force => ("force", unit::FORCE, ["148 kN", "33.3 kip"]),
            Self::Stress => ("stress", unit::STRESS, ["345 MPa", "50 ksi"]),
            Self::Current => ("current", unit::CURRENT, ["620 A", "0.62 kA"]),
            Self::Voltage => ("voltage", unit::VOLTAGE, ["30 V", "31.5 V"]),
            Self::HeatInput => ("heat input", unit::HEAT_INPUT, ["1.1 kJ/mm", "28 kJ/in"]),
            Self::Temperature => ("temperature", unit::TEMPERATURE, ["20 °C", "68 °F"]),
            Self::Time => ("time", unit::TIME, ["90 s", "1 h 30 min"]),
            Self::MassRate => ("mass rate", unit::MASS_RATE, ["7.5 kg/h", "16 lb/h"]),
            Self::Angle => ("angle", unit::ANGLE, ["1.5 deg", "26 mrad"]),
            Self::Moment => ("moment", unit::MOMENT, ["450 kN·m", "330 kip·ft"]),
            Self::ForcePerLength => ("force per length", unit::FORCE_PER_LENGTH, ["8 kN/m", "0.55 kip/ft"]),
            Self::Straightness => ("out-of-straightness", unit::STRAIGHTNESS, ["1.2 mm/m", "1/8 in/10ft"]),
        }
    }

    /// Its name in a sentence: "length", "heat input".
    pub const fn noun(self) -> &'static str {
        self.facts().0
    }

    /// "a" or "an", to go before [`noun`](Self::noun).
    pub(crate) const fn article(self) -> &'static str {
        if matches!(self, Self::Angle | Self::Straightness) { "an" } else { "a" }
    }

    /// Accepted units; the first is the engine's.
    pub const fn units(self) -> &'static [Unit] {
        self.facts().1
    }

    /// Two right examples.
    pub(crate) const fn examples(self) -> [&'static str; 2] {
        self.facts().2
    }

    /// Whether parts may be added up, as in "24 ft 6 in" or "1 h 30 min".
    pub(crate) const fn adds_up(self) -> bool {
        matches!(self, Self::Length | Self::Time)
    }

    /// The unit with that spelling.
    pub fn unit(self, spelling: &str) -> Option<&'static Unit> {
        self.units().iter().find(|u| u.spelling == spelling)
    }
}
