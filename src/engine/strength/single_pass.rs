//! Largest fillet that one pass lays, by process, as data.

use super::Origin;
use crate::tolerance::Trust;
use crate::welding::Process::{self, FluxCored, GasMetalArc, ManualMetalArc, SubmergedArc};
use serde::{Deserialize, Serialize};

/// Largest leg over the thinner plate laid in one pass without burning through or overheating it (choice; rules of
/// 1.2 times the thinner part are in use).
pub(crate) const LEG_OVER_PLATE: f64 = 1.2;

/// Welding position of a fillet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Position {
    /// Trough: the joint turned to lie flat (PA, 1F).
    Flat,
    /// Web flat in the line, flange upright or the other way about (PB, 2F).
    #[default]
    Horizontal,
}

use Position::{Flat, Horizontal};

/// A limit on one pass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct LargestPass {
    /// Where it comes from.
    pub(crate) origin: Origin,
    /// In words.
    pub(crate) words: &'static str,
    process: Process,
    position: Position,
    /// For so many arcs: one, or more.
    several_arcs: bool,
    /// Largest leg, mm.
    pub(crate) leg_mm: f64,
}

const D1_1: Origin = Origin::of("AWS D1.1", "2020", "Table 5.1 (prequalified)", Trust::MemoryCheck);
const READ: Origin = Origin { trust: Trust::Read, ..D1_1 };

const fn row(origin: Origin, words: &'static str, of: (Process, Position, bool), leg_mm: f64) -> LargestPass {
    LargestPass { origin, words, process: of.0, position: of.1, several_arcs: of.2, leg_mm }
}

/// 5/16, 3/8 and 1/2 in; two wires in one contact count as one arc ("parallel electrodes"). In the flat position
/// submerged arc has no limit.
const LARGEST: &[LargestPass] = &[
    row(
        D1_1,
        "5/16 in, submerged arc, one arc (also of parallel wires), horizontal",
        (SubmergedArc, Horizontal, false),
        7.9375,
    ),
    row(D1_1, "1/2 in, submerged arc, several arcs, horizontal", (SubmergedArc, Horizontal, true), 12.7),
    row(D1_1, "1/2 in, gas metal arc, flat", (GasMetalArc, Flat, false), 12.7),
    row(D1_1, "3/8 in, gas metal arc, horizontal", (GasMetalArc, Horizontal, false), 9.525),
    row(D1_1, "1/2 in, flux-cored arc, flat", (FluxCored, Flat, false), 12.7),
    row(D1_1, "3/8 in, flux-cored arc, horizontal", (FluxCored, Horizontal, false), 9.525),
    row(READ, "3/8 in, covered electrode, flat", (ManualMetalArc, Flat, false), 9.525),
    row(READ, "5/16 in, covered electrode, horizontal", (ManualMetalArc, Horizontal, false), 7.9375),
];

/// An eighth of a millimetre: 8 mm and 5/16 in are one leg in the shop.
pub(crate) const SAME_LEG_MM: f64 = 0.125;

/// The limit on one pass of a process with so many arcs; `None` where there is none.
pub(crate) fn largest_pass(
    process: Process,
    position: Position,
    arcs: usize,
) -> Option<&'static LargestPass> {
    let rows = || LARGEST.iter().filter(|row| row.process == process && row.position == position);
    rows()
        .find(|row| row.several_arcs == (arcs > 1))
        .or_else(|| rows().next())
        .filter(|_| !(process == SubmergedArc && position == Flat))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn several_arcs_lay_more_and_flat_submerged_arc_has_no_limit() {
        let leg = |arcs| largest_pass(SubmergedArc, Horizontal, arcs).unwrap().leg_mm;
        assert!(leg(2) > leg(1), "{} > {}", leg(2), leg(1));
        assert!(largest_pass(SubmergedArc, Flat, 1).is_none());
    }
}
