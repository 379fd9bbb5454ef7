//! What assembly adds from piece to piece, whatever the plates.

/// Standard deviations from piece to piece that assembly adds, mm, whatever the plates.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fitting {
    /// Web edges off their line: camber at mid-length.
    pub(crate) web_edge_mm: f64,
    /// Flanges set off their line: sweep at mid-length.
    pub(crate) fit_up_mm: f64,
    /// Length.
    pub length_mm: f64,
    /// Flange toes, both alike: plates that come crowned.
    pub(crate) cup_mm: f64,
    /// Flange toes, one against the other: flanges set out of square.
    pub(crate) tilt_mm: f64,
}

impl Fitting {
    /// Nothing.
    pub const NONE: Self =
        Self { web_edge_mm: 0.0, fit_up_mm: 0.0, length_mm: 0.0, cup_mm: 0.0, tilt_mm: 0.0 };
    /// A usual line: what a string, a tape and a square show on good work. Choice; a shop's record takes its place.
    pub const USUAL: Self =
        Self { web_edge_mm: 1.0, fit_up_mm: 1.0, length_mm: 0.5, cup_mm: 0.2, tilt_mm: 0.3 };
}
