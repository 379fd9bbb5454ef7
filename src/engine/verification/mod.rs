//! One joint of a member solved from first principles, beside what the formulas say of the same joint.
//!
//! [`Case`] takes a seam at one place of a checked job and says which plates, fillets, heats and waits it has there;
//! [`referee`] solves it under the wanted restraint and under the others of the bracket, and sets the formulas beside it.
//! Several cases go side by side on all cores and come back in their order ([`referee_all`]).
//!
//! Signs are those of the member: cup + toward the web, tilt + when the near half is higher, force + shortens.
//!
//! One file a subject: `options` what may be asked, `case` what is there, `formula` what the formulas say, `melt` and
//! `residual` what is read off, `solve` the runs, `result` the names other programs rely on.

mod case;
mod formula;
mod melt;
mod moving;
mod options;
mod patterns;
mod residual;
mod result;
mod solve;

pub use crate::joint_solver::USUAL_SPEED_MM_S;
pub use case::{Bead, Case, CaseError, Layer};
pub use formula::{HeldSo, formula, formula_so};
pub use moving::{Moved, held_so, meshing as moving_mesh, moving, travel_of};
pub use options::{Hold, Meshing, OTHER_SOURCES, Options, SOURCE_LEGS, Setup};
pub use patterns::{PATTERNS, Pattern};
pub use result::{Bracketed, Difference, Melted, Numbers, Refereed, Residual, SolvedPass};
pub use solve::{Solved, referee, referee_all, referee_watched};
