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
                #[schemars(example = &2)]
                pub wires: Option<u32>,
                /// Wire diameter. Needed if a leg is to follow from the deposit.
                #[schemars(example = &"1.6 mm")]
                pub wire_diameter: Option<Length>,
                /// Current of all its wires together.
                #[schemars(example = &"620 A")]
                pub current: Option<Current>,
                /// Current of each wire, instead of `current`.
                #[schemars(example = &"310 A")]
                pub current_per_wire: Option<Current>,
                /// Arc voltage.
                #[schemars(example = &"30 V")]
                pub voltage: Option<Voltage>,
                /// Which pole the wire is on; positive without it.
                #[schemars(example = &"electrode-positive")]
                pub polarity: Option<Polarity>,
                /// Electrode extension beyond the contact; about ten wire diameters without it.
                #[schemars(example = &"20 mm")]
                pub extension: Option<Length>,
                $($after)*
            }
        }
    };
}

with_an_arc! {
    /// One shop procedure: either one arc written directly, or several under `arcs` that share one pool.
    ProcedureShape {
        /// Number of the welding procedure specification it is qualified by; it goes with its passes into every result.
        #[schemars(example = &"W-12")]
        pub wps: Option<String>,
        /// Welding process; submerged arc without it.
        #[serde(default)]
        #[schemars(example = &"submerged-arc")]
        pub process: Process,
        /// Travel speed of the arc.
        #[schemars(example = &"1.0 m/min")]
        pub travel_speed: Speed,
        /// Feed of each wire. With the wire diameter the deposit follows from it, whatever the process; from the current without it.
        #[schemars(example = &"8.0 m/min")]
        pub wire_feed: Option<Speed>,
        /// Steel temperature before the arc; shop-warm (20 °C) without it.
        #[schemars(example = &"80 °C")]
        pub preheat: Option<Temperature>,
        /// Part of the arc energy that enters the steel, 0.3 to 1; the usual value of the process without it.
        #[schemars(example = &0.9)]
        pub arc_efficiency: Option<f64>,
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
