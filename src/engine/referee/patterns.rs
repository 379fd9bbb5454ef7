//! Lengthwise residual stress as design rules draw it for welded I-sections: order of size and sign, not one section.

use serde::Serialize;

/// A published pattern, over yield strength, + tension.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Pattern {
    /// Where it is printed, and how the value is known.
    pub source: &'static str,
    /// Flange edge: from, to.
    pub edge: [f64; 2],
    /// At the weld.
    pub weld: Option<f64>,
}

/// All of them.
pub const PATTERNS: [Pattern; 2] = [
    Pattern {
        source: "ECCS pattern of welded I-sections, 1976/1984 (memory)",
        edge: [-0.25, -0.25],
        weld: Some(1.0),
    },
    Pattern { source: "AISC 360-22 commentary, compression (memory)", edge: [-0.5, -0.3], weld: None },
];
