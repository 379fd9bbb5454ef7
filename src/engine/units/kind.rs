//! The kinds of quantity a user writes.

use super::unit::{self, Unit};

/// The kinds, each with its name, its units and two right examples, handed to a macro.
macro_rules! each_kind {
    ($made:ident) => {
        $made! {
            /// Length, mm.
            Length("length", LENGTH, ["8 mm", "5/16 in"]),
            /// Travel or feed speed, mm/s.
            Speed("speed", SPEED, ["1.1 m/min", "40 in/min"]),
            /// Force, N.
            Force("force", FORCE, ["148 kN", "33.3 kip"]),
            /// Stress or strength, MPa.
            Stress("stress", STRESS, ["345 MPa", "50 ksi"]),
            /// Current, A.
            Current("current", CURRENT, ["620 A", "0.62 kA"]),
            /// Voltage, V.
            Voltage("voltage", VOLTAGE, ["30 V", "31.5 V"]),
            /// Heat per length of weld, J/mm.
            HeatInput("heat input", HEAT_INPUT, ["1.1 kJ/mm", "28 kJ/in"]),
            /// Temperature, °C.
            Temperature("temperature", TEMPERATURE, ["20 °C", "68 °F"]),
            /// Time, s.
            Time("time", TIME, ["90 s", "1 h 30 min"]),
            /// Mass per time, kg/h.
            MassRate("mass rate", MASS_RATE, ["7.5 kg/h", "16 lb/h"]),
            /// Angle, rad.
            Angle("angle", ANGLE, ["1.5 deg", "26 mrad"]),
            /// Bending moment, N·mm.
            Moment("moment", MOMENT, ["450 kN·m", "330 kip·ft"]),
            /// Force per length: load on a member, shear flow along a seam; N/mm.
            ForcePerLength("force per length", FORCE_PER_LENGTH, ["8 kN/m", "0.55 kip/ft"]),
            /// Out-of-straightness: offset at the middle over the length; mm/m.
            Straightness("out-of-straightness", STRAIGHTNESS, ["1.2 mm/m", "1/8 in/10ft"]),
        }
    };
}
pub(super) use each_kind;

macro_rules! kinds {
    ($(#[$about:meta] $kind:ident($noun:literal, $units:ident, $examples:expr),)+) => {
        /// What a value measures.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum Kind {
            $(#[$about] $kind,)+
        }

        impl Kind {
            /// Every kind.
            pub const ALL: [Self; [$($noun),+].len()] = [$(Self::$kind),+];

            const fn facts(self) -> (&'static str, &'static [Unit], [&'static str; 2]) {
                match self {
                    $(Self::$kind => ($noun, unit::$units, $examples),)+
                }
            }
        }
    };
}
each_kind!(kinds);

impl Kind {
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
