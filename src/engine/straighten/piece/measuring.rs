//! How well a shop measures.

use serde::Serialize;

/// Standard measuring uncertainties, mm.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Measuring {
    /// Of camber.
    pub camber_mm: f64,
    /// Of sweep.
    pub sweep_mm: f64,
    /// Of a flange toe.
    pub toe_mm: f64,
}

impl Measuring {
    /// String 0.5, reading 0.6, support 0.8, temperature 0.3 mm make 1.2 mm together; rounded (choice).
    pub const USUAL: Self = Self { camber_mm: 1.0, sweep_mm: 1.0, toe_mm: 0.5 };
}
