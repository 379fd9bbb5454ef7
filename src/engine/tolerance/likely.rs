//! How likely something is, with what all pieces share and what differs from piece to piece told apart.

use serde::Serialize;

/// A chance counted on drawn pieces.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize)]
pub struct Likely {
    /// Over everything that is unsure.
    pub chance: f64,
    /// Standard error: draws of the bias count, not pieces.
    pub standard_error: f64,
    /// With as good as none (or all) among the draws: no further from that than this, with 95 % confidence.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at_most: Option<f64>,
    /// If the model were right: by scatter from piece to piece alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub if_model_right: Option<f64>,
    /// Standard error of that.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub if_model_right_error: Option<f64>,
    /// 5 % and 95 % quantile over the draws of the bias.
    pub range: (f64, f64),
    /// The same chance if every plate were the mean one: from welding alone. None where plates bring nothing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from_welding_alone: Option<f64>,
}

/// A judged size over drawn pieces, mm: with its sign, flanges without.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize)]
pub struct DrawnSize {
    /// Mean of all pieces.
    pub mean_mm: f64,
    /// Standard deviation of what all pieces share: what the model may be wrong by.
    pub bias_sd_mm: f64,
    /// Standard deviation from piece to piece, by welds, plates and assembly.
    pub scatter_sd_mm: f64,
    /// What plates and assembly have of it.
    pub plates_sd_mm: f64,
}
