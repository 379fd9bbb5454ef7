//! The one place that calls the physics in order: a checked [`Job`] in, a [`Prediction`] out.
//!
//! `read` is the table of contents. `plan` sorts what each stretch of member receives, `walk` walks along it and
//! integrates; at each `point` every order is laid on the parts joined by then, with what the formulas (`lay_formula`) or
//! the stations of the strip model (`strip_level`) say that passes pull; `cross` adds what is welded across and `plates` what plates bring; `shapes` turns that into bows with their uncertainty, `flanges` into cups and toes; `estimates`,
//! `verdicts`, `cut_length` and `cautions` read the shapes; `open_seams` says where seams have no weld, `cold` where they are laid too cold, `outside` where the model does not hold. `result` holds the names other programs rely on.
//!
//! Strains of all stages are carried on one line, y = 0; a flange's own line starts when it joins. `shapes` makes bows with their
//! uncertainty (`Divided` is the ± by where it comes from, `sentence` says it in words; `plates` is what strips that come bowed leave
//! in the member and what plates and assembly differ by; `cross` adds the kinks of what is welded across when the seams are
//! cold), `twist`, `waves`, `flanges`, `estimates`, `verdicts`, `cut_length` and `cautions` read them, `result` holds the names
//! other programs rely on. `shrinkage::fillets` is the joint by formula: how beads of one order meet what the joint holds, worked
//! out once a span; `verification` asks it for a joint alone. `tests/laws/levels.rs` sets both levels side by side on random
//! members.
//!
//! What lies between a job and the sizes it is judged by takes any `numerics::Number`: one `f64`, or `Lanes`, some jobs of one layout
//! (`alike`) side by side. `side_by_side` walks them so for whoever looks at many: rows of a study, drawn pieces of a chance, of an order, of a
//! choice. `sizes` reads what has no deviations (one of many pieces is one size), `read` all else. Write a new effect so too, without a
//! branch on a value (`above` chooses); `many_tests` holds both to each other and every job to itself, whoever stands beside it.
//!
//! A number of a job that may vary is a [`Field`]: get, set within its range, unit, words, with all that follows from it. Whoever
//! varies a job (drawn pieces, studies) goes through it; `job::check` checks against the same ranges. Of a shop's record there is
//! `learned` (`teach` puts means into a job, `Field::Recorded` is one independent doubt left), `Field::Plates` what plates differ
//! by (`Job::plates_sd`: by the record where it has read of it, else by how plates come and are fitted), and `recorded`:
//! whether a job is like the pieces, asked anew (`reconsider`) by whoever lays other passes into it.

mod aim;
mod alike;
mod cautions;
mod cold;
mod constants;
mod cross;
mod cut_length;
#[cfg(test)]
mod cut_tests;
mod cut_web;
mod divided;
mod effects;
mod estimates;
mod factors;
pub mod field;
mod fitting;
mod flanges;
mod job;
mod lay_formula;
pub mod learned;
#[cfg(test)]
mod many_tests;
mod open_seams;
mod outside;
mod own_spread;
mod plan;
mod plates;
#[cfg(test)]
mod plates_tests;
mod point;
mod predict;
mod read;
mod reconsider;
pub(crate) mod recorded;
mod result;
mod room;
mod second_sides;
mod shapes;
mod side_by_side;
mod sizes;
#[cfg(feature = "sections")]
mod strip_level;
mod strips;
#[cfg(test)]
mod strips_tests;
mod teach;
mod twist;
pub mod uncertainty;
mod unsure;
mod verdicts;
mod walk;
mod wanted;
mod warning;
mod waves;
#[cfg(test)]
mod waves_tests;

pub(crate) use alike::covers;
pub use cautions::job_warnings;
pub(crate) use cautions::may_burn_through;
pub(crate) use cold::too_cold;
pub use constants::constants;
pub use cross::{CrossWeld, CrossWelds};
pub use cut_length::{NOT_NEEDED, at_splice_mm};
pub use cut_web::WebCurve;
pub use divided::{Divided, DividedTurn};
pub use factors::Factors;
pub use field::{Field, OutOfRange};
pub use fitting::Fitting;
pub use job::{Carries, Deviations, Job, OwnLimit, WantedCamber};
pub use learned::{Assembly, Learned};
pub(crate) use open_seams::{bare_ends, bare_mm, broken as broken_stitches, stitch_rule_of};
pub use outside::{Outside, Shown, outside};
pub(crate) use predict::{judged, sizes_where};
pub use predict::{predict, predict_only, predict_with_substeps};
pub use result::{
    Allowance, Bow, CutPiece, Estimate, FitUpShare, FlangeAngles, FlangePreset, Model, PassResult,
    Prediction, Ripple, RippleVerdict, Shortening, StripNotes, Twist, WebEdge, WeldingStep,
};
pub use room::fits;
pub(crate) use side_by_side::{judged_each, predict_each};
#[cfg(feature = "sections")]
pub use strip_level::{StripFailure, predict_strip};
pub(crate) use verdicts::JudgedSize;
pub use wanted::Wanted;
pub use warning::{Warning, WarningCode};
