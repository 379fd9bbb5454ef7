//! Vee heats: rotation per heat, how many and where, jacks, temperatures.

mod limits;
mod place;
mod series;
mod vee;

pub use limits::{NEXT_HEAT_C, NO_WATER_C, most_c};
pub use place::{HeatPlace, JACK_RATIO, Jack, JackTools, Unfit, WEB_SHARE, place};
pub use series::{HeatBlocked, HeatSeries, Heating, MOST_A_PLACE, MOST_HEATS, heats};
pub use vee::{SCATTER, Vee, VeeModel, VeeTurn, bound_rad, free_strain};
