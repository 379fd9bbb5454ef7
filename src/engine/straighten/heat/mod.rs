//! Vee heats: rotation per heat, how many and where, jacks, temperatures.

mod limits;
mod series;
mod vee;

pub use limits::{NEXT_HEAT_C, NO_WATER_C, most_c};
pub use series::{Blocked, HeatSeries, heats};
pub use vee::{Response, SCATTER, Vee, VeeModel, bound_rad, free_strain};
