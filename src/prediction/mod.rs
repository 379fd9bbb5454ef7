//! The one place that calls the physics in order: a checked [`Job`] in, a [`Prediction`] out.

mod allowance;
mod ends;
mod estimates;
mod job;
mod predict;
mod result;
mod uncertainty;
mod warning;

pub use job::{Job, OwnLimit, WantedCamber};
pub use predict::predict;
pub use result::{
    Allowance, Bow, CutPiece, Estimate, FitUpShare, FlangePreset, FlangeShape, Model, PassResult, Prediction,
    Ripple, RippleVerdict, Shortening, Step, WebEdge,
};
pub use warning::{Code, Warning};
