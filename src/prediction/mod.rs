//! The one place that calls the physics in order: a checked [`Job`] in, a [`Prediction`] out.
//!
//! `predict` is the table of contents. `plan` sorts what each stretch of member receives, `march` walks along it and
//! integrates, `shapes` turns that into bows with their uncertainty, `flanges` into cups and toes; `estimates`,
//! `verdicts`, `allowance` and `cautions` read the shapes. `result` holds the names other programs rely on.

mod allowance;
mod cautions;
mod estimates;
mod flanges;
mod job;
mod march;
mod plan;
mod predict;
mod result;
mod shapes;
pub mod uncertainty;
mod verdicts;
mod warning;

pub use cautions::job_warnings;
pub use job::{Factors, Job, OwnLimit, WantedCamber};
pub use plan::covers;
pub use predict::{predict, predict_with_substeps};
pub use result::{
    Allowance, Bow, CutPiece, Estimate, FitUpShare, FlangePreset, FlangeShape, Model, PassResult, Prediction,
    Ripple, RippleVerdict, Shortening, Step, WebEdge,
};
pub use warning::{Code, Warning};
