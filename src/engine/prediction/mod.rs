//! The one place that calls the physics in order: a checked [`Job`] in, a [`Prediction`] out.
//!
//! `predict` is the table of contents. `plan` sorts what each stretch of member receives, `march` walks along it and
//! integrates, with the formulas or with what `stations` of the strip model add (`lay_strip`); `shapes` turns that into bows with their uncertainty, `flanges` into cups and toes; `estimates`,
//! `verdicts`, `allowance` and `cautions` read the shapes. `result` holds the names other programs rely on.

mod allowance;
mod cautions;
mod estimates;
mod flanges;
mod job;
mod lay_strip;
mod march;
mod plan;
mod predict;
mod result;
mod shapes;
mod stations;
mod strip_notes;
pub mod uncertainty;
mod verdicts;
mod warning;

pub use cautions::job_warnings;
pub use job::{Carries, Factors, Job, OwnLimit, WantedCamber};
pub use plan::covers;
pub use predict::{predict, predict_shape, predict_strip, predict_strip_with, predict_with_substeps};
pub use result::{
    Allowance, Bow, CutPiece, Estimate, FitUpShare, FlangePreset, FlangeShape, Model, PassResult, Prediction,
    Ripple, RippleVerdict, ShapeAlone, Shortening, Step, StripNotes, WebEdge,
};
pub use stations::StripFailure;
pub use warning::{Code, Warning};
