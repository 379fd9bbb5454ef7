//! What a limit needs to know of the member.

use crate::units::System;

/// Sizes of the member at the place that is judged, all mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Facts {
    /// Length between the ends; it also stands for the span between supports.
    pub length_mm: f64,
    /// Flange width.
    pub flange_width_mm: f64,
    /// Wanted camber at mid-length, without sign; 0 if none is wanted.
    pub wanted_camber_mm: f64,
    /// Units of the job: some standards print two columns that differ a little.
    pub units: System,
}
