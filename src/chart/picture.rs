//! A finished picture, or why there is none.

use crate::study::ChartSpecFault;

/// One finished picture.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    /// Stem of the file it goes in.
    pub name: String,
    /// The drawing. The same input gives the same bytes.
    pub svg: String,
}

/// What a step of drawing gives.
pub(crate) type Done<T = ()> = Result<T, ChartError>;

/// Why a picture could not be made. Only [`ChartError::Wish`] is a fault of the user's file.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ChartError {
    /// A result holds infinity or "not a number".
    #[error("a result to be drawn is not a finite number")]
    NotANumber,
    /// The built-in font failed.
    #[error("the built-in font failed: {0}")]
    Font(String),
    /// The drawing crate failed.
    #[error("drawing failed: {0}")]
    Drawing(String),
    /// What a study file wishes does not fit what the study brought.
    #[error(transparent)]
    Wish(#[from] ChartSpecFault),
    /// The PNG could not be made.
    #[error("the PNG could not be made: {0}")]
    Raster(String),
}
