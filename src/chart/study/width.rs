//! How wide pictures of studies are.

/// Width of every picture of a study, px.
pub(super) const WIDTH: f64 = 900.0;
/// Right end of what is drawn, px.
pub(super) const RIGHT: f64 = WIDTH - 18.0;
