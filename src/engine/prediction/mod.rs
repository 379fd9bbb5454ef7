//! The one place that calls the physics in order: a checked [`Job`] in, a [`Prediction`] out.
//!
//! `predict` is the table of contents. `plan` sorts what each stretch of member receives, `walk` walks along it and
//! integrates; at each `point` every order is laid on the parts joined by then, with what the formulas (`lay_formula`) or
//! `stations` of the strip model (`strip_forces`) say that passes pull; `cross` adds what is welded across and `plates` what plates bring; `shapes` turns that into bows with their uncertainty, `flanges` into cups and toes; `estimates`,
//! `verdicts`, `cut_length` and `cautions` read the shapes; `outside` says where the model does not hold. `result` holds the names other programs rely on.

mod alike;
mod cautions;
mod constants;
mod cross;
mod cut_length;
mod cut_web;
mod divided;
mod estimates;
pub mod field;
mod flanges;
mod job;
mod lay_formula;
pub mod learned;
#[cfg(test)]
mod many_tests;
mod outside;
mod plan;
mod plates;
#[cfg(test)]
mod plates_tests;
mod point;
mod predict;
pub mod recorded;
mod result;
mod room;
mod shapes;
mod side_by_side;
mod stations;
mod strip_forces;
mod strip_notes;
mod twist;
pub mod uncertainty;
mod unsure;
mod verdicts;
mod walk;
mod warning;
mod waves;

pub use cautions::job_warnings;
pub use constants::constants;
pub use cross::{CrossWeld, CrossWelds};
pub use cut_length::{WORTH_CUTTING_MM, WORTH_PACKING_MM, at_splice_mm};
pub use cut_web::{WebCurve, web_curve};
pub use divided::Divided;
pub use field::{Field, OutOfRange};
pub use job::{Carries, Factors, Job, OwnLimit, WantedCamber};
pub use learned::{Assembly, Learned};
pub use outside::{LARGEST_BOW, Outside, Shown, outside};
pub use plan::covers;
pub use plates::Fitting;
pub use predict::{
    Sizes, Wanted, judged, judged_by, judged_with_and_without_plates, predict, predict_each, predict_many,
    predict_only, predict_shape, predict_strip, predict_strip_with, predict_with_substeps,
};
pub use result::{
    Allowance, Bow, CutPiece, Estimate, FitUpShare, FlangePreset, FlangeShape, Model, PassResult, Prediction,
    Ripple, RippleVerdict, ShapeAlone, Shortening, Step, StripNotes, Twist, WebEdge,
};
pub use room::fits;
pub use stations::StripFailure;
pub use warning::{Code, Warning};
