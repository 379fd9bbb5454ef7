//! Line and book as written in a shop file.

use crate::input::shape;
use crate::strength::Position;
use crate::units::{Angle, Current, HeatInput, Length, MassRate, Speed, Temperature, Time, Voltage};
use crate::welding::{Polarity, Process};

shape! {
    /// The welding line.
    #[derive(Default)]
    pub struct LineShape {
        /// Slowest and fastest travel; 0.2 m/min to 2.5 m/min without it.
        pub speed: Option<(Speed, Speed)> as ["0.2 m/min", "2.5 m/min"],
        /// Shallowest and deepest web; 200 mm to 1.8 m without it.
        pub web: Option<(Length, Length)> as ["200 mm", "1.8 m"],
        /// Narrowest and widest flange; 100 mm to 500 mm without it.
        pub flange_width: Option<(Length, Length)> as ["100 mm", "500 mm"],
        /// Thickest flange; 32 mm without it.
        pub thickest_flange: Option<Length> as "32 mm",
        /// Steepest inclination of the inner flange that the heads follow; 15° without it.
        pub head_pivot: Option<Angle> as "15 deg",
        /// Whether two heads weld both seams of one side in one run; true without it.
        pub both_seams_at_once: Option<bool> as true,
        /// Whether heads weld both sides of one seam in one run, flange after flange; false without it.
        pub both_sides_at_once: Option<bool> as false,
        /// Loading, fit-up and start of one run; 10 min without it.
        pub run: Option<Time> as "10 min",
        /// Turning the member over; 10 min without it.
        pub turn_over: Option<Time> as "10 min",
        /// How long a member lies until it is cold; 2 h without it.
        pub cold: Option<Time> as "2 h",
    }

    /// One qualified procedure.
    pub struct EntryShape {
        /// Name of your own.
        pub name: String as "twin-1.6",
        /// Number of the welding procedure specification it is qualified by; it goes with the passes into every job written.
        pub wps: Option<String> as "W-12",
        /// Welding process; submerged arc without it.
        #[serde(default)]
        pub process: Process as "submerged-arc",
        /// Position: "horizontal" or "flat"; horizontal without it.
        #[serde(default)]
        pub position: Position as "horizontal",
        /// Wires in the one contact; 1 without it.
        pub wires: Option<u32> as 2,
        /// Wire diameter.
        pub wire_diameter: Length as "1.6 mm",
        /// Electrode extension; about ten wire diameters without it.
        pub extension: Option<Length> as "20 mm",
        /// Which pole the wire is on; positive without it.
        pub polarity: Option<Polarity> as "electrode-positive",
        /// Lowest and highest qualified current of all wires.
        pub current: (Current, Current) as ["450 A", "700 A"],
        /// Voltage at the lowest and at the highest current.
        pub voltage: (Voltage, Voltage) as ["28 V", "31 V"],
        /// Slowest and fastest qualified travel.
        pub speed: (Speed, Speed) as ["0.6 m/min", "1.6 m/min"],
        /// Smallest and largest qualified leg.
        pub leg: (Length, Length) as ["4 mm", "8 mm"],
        /// Least and most qualified heat input, current times voltage over travel speed before any efficiency; whatever the ranges above
        /// allow without it.
        pub heat_input: Option<(HeatInput, HeatInput)> as ["0.8 kJ/mm", "2.0 kJ/mm"],
        /// Weld metal laid at the lowest and at the highest current, as weighed. Without it the melt-off law of submerged
        /// arc; other processes need it.
        pub deposition: Option<(MassRate, MassRate)> as ["5.9 kg/h", "11.5 kg/h"],
        /// Part of the arc energy that enters the steel; the usual value of the process without it.
        pub arc_efficiency: Option<f64> as 0.9,
        /// Diffusible hydrogen of the weld metal, ml per 100 g, for preheat by the composition of the plates (`cet` in the job's `[demand]`); 5
        /// without it.
        pub hydrogen: Option<f64> as 5.0,
        /// Steel temperature before the arc; shop-warm (20 °C) without it.
        pub preheat: Option<Temperature> as "80 °C",
    }
}
