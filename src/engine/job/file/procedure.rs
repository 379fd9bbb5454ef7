//! Shop procedures as written.

use crate::input::shape;
use crate::units::{Current, Length, Speed, Temperature, Voltage};
use crate::welding::{Polarity, Process};

/// A shape with what an arc is told by, between what else it holds.
macro_rules! with_an_arc {
    ($(#[$about:meta])* $name:ident { $($before:tt)* } { $($after:tt)* }) => {
        shape! {
            $(#[$about])*
            pub struct $name {
                $($before)*
                /// Number of wires fed through its contact; 1 without it.
                pub wires: Option<u32> as 2,
                /// Wire diameter. Needed if a leg is to follow from the deposit.
                pub wire_diameter: Option<Length> as "1.6 mm",
                /// Current of all its wires together.
                pub current: Option<Current> as "620 A",
                /// Current of each wire, instead of `current`.
                pub current_per_wire: Option<Current> as "310 A",
                /// Arc voltage.
                pub voltage: Option<Voltage> as "30 V",
                /// Which pole the wire is on; positive without it.
                pub polarity: Option<Polarity> as "electrode-positive",
                /// Electrode extension beyond the contact; about ten wire diameters without it.
                pub extension: Option<Length> as "20 mm",
                $($after)*
            }
        }
    };
}

with_an_arc! {
    /// One shop procedure: either one arc written directly, or several under `arcs` that share one pool.
    ProcedureShape {
        /// Number of the welding procedure specification it is qualified by; it goes with its passes into every result.
        pub wps: Option<String> as "W-12",
        /// Welding process; submerged arc without it.
        #[serde(default)]
        pub process: Process as "submerged-arc",
        /// Travel speed of the arc.
        pub travel_speed: Speed as "1.0 m/min",
        /// Feed of each wire. With the wire diameter the deposit follows from it, whatever the process; from the current without it.
        pub wire_feed: Option<Speed> as "8.0 m/min",
        /// Steel temperature before the arc; shop-warm (20 °C) without it.
        pub preheat: Option<Temperature> as "80 °C",
        /// Part of the arc energy that enters the steel, 0.3 to 1; the usual value of the process without it.
        pub arc_efficiency: Option<f64> as 0.9,
    } {
        /// Several arcs in one pool, instead of one arc written directly.
        pub arcs: Option<Vec<ArcShape>>,
    }
}

with_an_arc! {
    /// One arc of several that share a pool.
    ArcShape {} {}
}

impl ProcedureShape {
    /// The arc written directly in the procedure.
    pub(crate) fn single_arc(&self) -> ArcShape {
        ArcShape {
            wires: self.wires,
            wire_diameter: self.wire_diameter,
            current: self.current,
            current_per_wire: self.current_per_wire,
            voltage: self.voltage,
            polarity: self.polarity,
            extension: self.extension,
        }
    }

    /// Whether another procedure is laid with the same wire through the same contacts, so that going over to it only changes settings.
    pub(crate) fn same_wire(&self, other: &Self) -> bool {
        let arcs = |p: &Self| {
            let all = p.arcs.clone().unwrap_or_else(|| vec![p.single_arc()]);
            let one = |a: &ArcShape| {
                let diameter = a.wire_diameter.map(|d| d.value().to_bits());
                (a.wires.unwrap_or(1), diameter, a.polarity.unwrap_or_default())
            };
            all.iter().map(one).collect::<Vec<_>>()
        };
        self.process == other.process && arcs(self) == arcs(other)
    }
}
