//! Vee heats: rotation per heat, how many and where, jacks, temperatures.

mod place;
mod series;
mod vee;

pub(crate) use place::{CLEAR_OF_WELDS_MM, JackTools, Unfit};
pub use place::{HeatPlace, Jack, WEB_SHARE};
pub use series::HeatSeries;
pub(crate) use series::{HeatBlocked, Heating, MOST_HEATS, heats};
pub(crate) use vee::NO_WATER_C;
pub use vee::{NEXT_HEAT_C, Vee, VeeModel, VeeTurn, bound_rad, free_strain, most_c};
