//! An arc: its wires, current, voltage and polarity.

use serde::{Deserialize, Serialize};

/// Which pole the wire is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Polarity {
    /// Direct current, electrode positive.
    #[default]
    ElectrodePositive,
    /// Direct current, electrode negative: melts more wire for the same current.
    ElectrodeNegative,
}

/// One arc: one or more wires fed through one contact.
#[derive(Debug, Clone, PartialEq)]
pub struct Arc {
    /// Number of wires in the contact.
    pub wires: u32,
    /// Wire diameter, mm, if known.
    pub wire_diameter_mm: Option<f64>,
    /// Current of all wires together, A.
    pub current_a: f64,
    /// Arc voltage, V.
    pub voltage_v: f64,
    /// Polarity.
    pub polarity: Polarity,
    /// Electrode extension beyond the contact, mm.
    pub extension_mm: f64,
}
