//! One joint of a member solved from first principles, beside what the formulas say of the same joint.
//!
//! [`Case`] takes a seam at one place of a checked job and says which plates, fillets, heats and waits it has there;
//! [`verify`] solves it under the wanted restraint and under the others of the bracket, and sets the formulas beside it.
//! Several cases go side by side on all cores and come back in their order ([`verify_all`]).
//!
//! Signs are those of the member: cup + toward the web, tilt + when the near half is higher, force + shortens.
//!
//! One file a subject: `options` what may be asked, `case` what is there, `formula` what the formulas say, `melt` and
//! `residual` what is read off, `solve` the runs, `result` the names other programs rely on.
//!
//! `verification` is the one room that knows both the solver and the formulas; `chart/joint/` draws it. `moving` puts a case to
//! the travelling arc.

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
pub use case::{Case, CaseError, CaseFillet, Layer};
pub use formula::{HeldSo, formula, formula_so};
pub use moving::{TravelledCase, held_so, meshing as moving_mesh, moving, travel_of};
pub use options::{HotHold, Meshing, Options, SOURCE_LEGS, Setup};
pub use patterns::{PATTERNS, Pattern};
pub use result::{Bracketed, Difference, LayerNumbers, Melted, Residual, SolvedPass, Verified};
pub use solve::{Solved, verify, verify_all, verify_watched};
