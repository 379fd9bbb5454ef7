//! Vee heats: rotation per heat, how many and where, jacks, temperatures.

mod limits;
mod place;
mod series;
mod vee;

pub(crate) use limits::NO_WATER_C;
pub use limits::{NEXT_HEAT_C, most_c};
pub(crate) use place::{CLEAR_OF_WELDS_MM, JackTools, Unfit};
pub use place::{HeatPlace, Jack, WEB_SHARE};
pub use series::HeatSeries;
pub(crate) use series::{HeatBlocked, Heating, MOST_HEATS, heats};
pub use vee::{Vee, VeeModel, VeeTurn, bound_rad, free_strain};
