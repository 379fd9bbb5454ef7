//! How a welded, web-tapered built-up I-member will distort, and what to allow for.
//!
//! The flow, left to right, one room each:
//!
//! ```text
//! job file → job → Job (checked) → prediction → Prediction → verdicts, tables, charts
//!                                   │
//!              member, welding → shrinkage, angular → bow → tolerance
//! ```
//!
//! * [`job`] reads the file and complains about it; [`prediction`] takes a checked [`prediction::Job`] and calls the
//!   physics in order. It never prints, reads files or panics on user data.
//! * [`shrinkage`] is the tendon force of a fillet and what a second one adds; [`angular`] what fillets do to a flange;
//!   [`bow`] the shape of the member; [`tolerance`] the limits of the standards as data.
//! * [`strength`] is what a web-to-flange weld must carry and what codes ask of it; [`choose`] searches the weld that does
//!   and stays in tolerance.
//! * [`straighten`] says whether a finished piece is to be straightened, and how: pushes, heats, or the limit in the way.
//! * [`order`] sums that up for an order: how many pieces, how many hours, which family to fix first.
//! * [`shop`] reads the file that says what a shop has for it and what its time costs.
//! * [`joint_solver`] solves one joint from first principles, heat and plasticity; [`verification`] puts a joint of a job to it and the
//!   formulas beside it. Neither is part of the flow.
//! * [`strip`] solves a whole passes in their order, with bars on the same heat; [`prediction::predict_strip`] puts
//!   its forces in the place of those of [`shrinkage`].
//! * [`chart`] and [`cli`] show results and compute nothing.
//!
//! **Units** inside: N, mm, MPa, J, s, °C, rad; heat input in J/mm of weld. Public numbers carry their unit in the name.
//!
//! **Signs**: x from the start end; y from the outer (straight) web edge toward the inner (tapered) flange; z out of
//! the web plane, + on the near side. Force + shortens. Camber + toward the inner flange, sweep + toward the near side, cup
//! and toe offsets + toward the web, tilt + when the near half is higher. `plots/signs.svg` draws them all.
//!
//! **Same input, same output**, whatever the number of threads.
//!
//! Start reading at `engine/prediction/read.rs`, then `engine/shrinkage/tendon.rs`, then its check in `tests/published/`.
//!
//! ```
//! let job = weldbow::job::read_text("starter.toml", weldbow::job::STARTER).map_err(|c| c.to_string())?;
//! let prediction = weldbow::prediction::predict(&job);
//! assert!(prediction.shortening_mm > 0.0, "welds shorten");
//! assert!(prediction.sweep.max_mm < 0.0, "a near-side weld bows the middle to the far side");
//! # Ok::<(), String>(())
//! ```

pub mod cli;

pub use weldbow_chart as chart;
pub use weldbow_cut as cut;
pub use weldbow_engine::{
    angular, bow, input, joint_solver, member, moving_arc, numerics, prediction, scatter, shrinkage, sources,
    steel, straighten, strength, strip, study, tolerance, units, verification, welding,
};
pub use weldbow_files::{reading, sheet};
pub use weldbow_record as record;

/// Jobs: shapes, checks and reading.
pub mod job {
    pub use weldbow_engine::job::*;
    pub use weldbow_files::job::*;
}

/// Shops: shapes, checks and reading.
pub mod shop {
    pub use weldbow_engine::shop::*;
    pub use weldbow_files::assess::{Answer, Ask, AskFault, Assessed, Readiness, Ready, Recorded};
    pub use weldbow_files::shop::*;
    pub use weldbow_files::{measured, push_log};
}

/// Orders, and lists of marks.
pub mod order {
    pub use weldbow_engine::order::*;
    pub use weldbow_files::order_list as list;
}

/// The search of a weld, and a job written back with it.
pub mod choose {
    pub use weldbow_engine::choose::*;
    pub use weldbow_files::written::{Unwritable, written};
}
