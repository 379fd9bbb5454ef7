//! What is said of a step, and words that all kinds of steps share.

use crate::straighten::plan::Stop;
use crate::units::{System, show};

/// One step: what it is, and what to heed.
pub(super) struct Words {
    pub head: String,
    pub lines: Vec<String>,
}

/// Where a push stops, by force and travel, as "120 kN at 14.2 mm, 140 kN at 15.0 mm".
pub(super) fn stops(stops: &[Stop], system: System) -> String {
    let one =
        |s: &Stop| format!("{} at {}", show::force(s.force_n, system), show::offset(s.travel_mm, system));
    stops.iter().map(one).collect::<Vec<_>>().join(", ")
}

/// A part that is used, as "84 %".
pub(super) fn used(part: f64) -> String {
    format!("{:.0} %", 100.0 * part)
}

/// A wedge from which it is told: half a degree, which packing and paint take up below (choice).
const LEAST_WEDGE_RAD: f64 = 8.7e-3;

/// What a pad on an inclined flange needs; None if the flange runs along the axis.
pub(crate) fn wedge(rad: f64, pads: &str) -> Option<String> {
    (rad > LEAST_WEDGE_RAD).then(|| {
        format!(
            "The inner flange is inclined by up to {:.1}° (1:{:.0}): steel wedges of that angle under {pads} on it, stopped against sliding \
             along, so that the force stands square to the straight flange.",
            rad.to_degrees(),
            1.0 / rad.tan()
        )
    })
}

pub(super) fn counted(n: u32, one: &str, many: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {many}") }
}

pub(super) fn mrad(rad: f64) -> String {
    format!("{:.1} mrad", 1e3 * rad)
}
