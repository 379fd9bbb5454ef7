//! Line and book as written in a shop file.

use crate::strength::Position;
use crate::units::{Angle, Current, HeatInput, Length, MassRate, Speed, Temperature, Time, Voltage};
use crate::welding::{Polarity, Process};
use schemars::JsonSchema;
use serde::Deserialize;

/// The welding line.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LineShape {
    /// Slowest and fastest travel; 0.2 m/min to 2.5 m/min without it.
    #[schemars(example = serde_json::json!(["0.2 m/min", "2.5 m/min"]))]
    pub speed: Option<(Speed, Speed)>,
    /// Shallowest and deepest web; 200 mm to 1.8 m without it.
    #[schemars(example = serde_json::json!(["200 mm", "1.8 m"]))]
    pub web: Option<(Length, Length)>,
    /// Narrowest and widest flange; 100 mm to 500 mm without it.
    #[schemars(example = serde_json::json!(["100 mm", "500 mm"]))]
    pub flange_width: Option<(Length, Length)>,
    /// Thickest flange; 32 mm without it.
    #[schemars(example = &"32 mm")]
    pub thickest_flange: Option<Length>,
    /// Steepest inclination of the inner flange that the heads follow; 15° without it.
    #[schemars(example = &"15 deg")]
    pub head_pivot: Option<Angle>,
    /// Whether two heads weld both seams of one side in one run; true without it.
    #[schemars(example = &true)]
    pub both_seams_at_once: Option<bool>,
    /// Whether heads weld both sides of one seam in one run, flange after flange; false without it.
    #[schemars(example = &false)]
    pub both_sides_at_once: Option<bool>,
    /// Loading, fit-up and start of one run; 10 min without it.
    #[schemars(example = &"10 min")]
    pub run: Option<Time>,
    /// Turning the member over; 10 min without it.
    #[schemars(example = &"10 min")]
    pub turn_over: Option<Time>,
    /// How long a member lies until it is cold; 2 h without it.
    #[schemars(example = &"2 h")]
    pub cold: Option<Time>,
}

/// One qualified procedure.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct EntryShape {
    /// Name of your own.
    #[schemars(example = &"twin-1.6")]
    pub name: String,
    /// Number of the welding procedure specification it is qualified by; it goes with the passes into every job written.
    #[schemars(example = &"W-12")]
    pub wps: Option<String>,
    /// Welding process; submerged arc without it.
    #[serde(default)]
    #[schemars(example = &"submerged-arc")]
    pub process: Process,
    /// Position: "horizontal" or "flat"; horizontal without it.
    #[serde(default)]
    #[schemars(example = &"horizontal")]
    pub position: Position,
    /// Wires in the one contact; 1 without it.
    #[schemars(example = &2)]
    pub wires: Option<u32>,
    /// Wire diameter.
    #[schemars(example = &"1.6 mm")]
    pub wire_diameter: Length,
    /// Electrode extension; about ten wire diameters without it.
    #[schemars(example = &"20 mm")]
    pub extension: Option<Length>,
    /// Which pole the wire is on; positive without it.
    #[schemars(example = &"electrode-positive")]
    pub polarity: Option<Polarity>,
    /// Lowest and highest qualified current of all wires.
    #[schemars(example = serde_json::json!(["450 A", "700 A"]))]
    pub current: (Current, Current),
    /// Voltage at the lowest and at the highest current.
    #[schemars(example = serde_json::json!(["28 V", "31 V"]))]
    pub voltage: (Voltage, Voltage),
    /// Slowest and fastest qualified travel.
    #[schemars(example = serde_json::json!(["0.6 m/min", "1.6 m/min"]))]
    pub speed: (Speed, Speed),
    /// Smallest and largest qualified leg.
    #[schemars(example = serde_json::json!(["4 mm", "8 mm"]))]
    pub leg: (Length, Length),
    /// Least and most qualified heat input, current times voltage over travel speed before any efficiency; whatever the ranges above
    /// allow without it.
    #[schemars(example = serde_json::json!(["0.8 kJ/mm", "2.0 kJ/mm"]))]
    pub heat_input: Option<(HeatInput, HeatInput)>,
    /// Weld metal laid at the lowest and at the highest current, as weighed. Without it the melt-off law of submerged
    /// arc; other processes need it.
    #[schemars(example = serde_json::json!(["5.9 kg/h", "11.5 kg/h"]))]
    pub deposition: Option<(MassRate, MassRate)>,
    /// Part of the arc energy that enters the steel; the usual value of the process without it.
    #[schemars(example = &0.9)]
    pub arc_efficiency: Option<f64>,
    /// Diffusible hydrogen of the weld metal, ml per 100 g, for preheat by the composition of the plates (`cet` in the job's `[demand]`); 5
    /// without it.
    #[schemars(example = &5.0)]
    pub hydrogen: Option<f64>,
    /// Steel temperature before the arc; shop-warm (20 °C) without it.
    #[schemars(example = &"80 °C")]
    pub preheat: Option<Temperature>,
}
