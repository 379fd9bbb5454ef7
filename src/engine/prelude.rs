//! What a program that uses the engine needs first: jobs and shops as typed input, the questions, and their answers.
//!
//! ```
//! use weldbow_engine::prelude::*;
//! // any format that serde reads will do: here TOML
//! let file: JobFile = toml::from_str(weldbow_engine::job::STARTER)?;
//! let job = check(&file).map_err(|slips| slips[0].path.clone())?;
//! let prediction = predict(&job);
//! assert!(prediction.shortening_mm > 0.0, "welds shorten");
//! assert!(prediction.sweep.max_mm < 0.0, "a near-side weld bows the middle to the far side");
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

pub use crate::input::Problem;
pub use crate::job::check;
pub use crate::job::file::JobFile;
#[cfg(feature = "sections")]
pub use crate::prediction::predict_strip;
pub use crate::prediction::{Field, Job, Prediction, constants, outside, predict};
pub use crate::scatter::{Draws, out_of_limits, say_chances};
pub use crate::tolerance::{Judgement, Verdict};
pub use crate::units::{Message, System};
#[cfg(feature = "plans")]
pub use plans::*;

/// What a shop plans with.
#[cfg(feature = "plans")]
mod plans {
    pub use crate::choose::{Book, Choice, Choosing, Constraints, choose};
    pub use crate::order::{Line, OrderResult, WorkOrder, run as plan_order};
    pub use crate::shop::{Shop, ShopFile};
    pub use crate::straighten::piece::{Piece, goals, predicted};
    pub use crate::straighten::plan::Plan;
    pub use crate::study::{Study, Table};
}
