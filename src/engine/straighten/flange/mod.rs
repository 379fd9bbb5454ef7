//! Flange cup and tilt: pressed or rolled back about the web line, or drawn back by a line of heat.
//!
//! Cup bends both halves toward the web; a line of heat on the back of the flange draws them away from it. Tilt, one half
//! up and one down, is a matter for the press alone.

mod fold;
mod line_heat;

pub use fold::{Fold, FoldError, STRAIN_LIMIT, fold};
pub(crate) use line_heat::most_angle_rad;
pub use line_heat::{INHERENT, LineHeat, Passes, Torch, line, passes};
