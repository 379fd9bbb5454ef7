//! Text to engine units and back, and nothing else.
//!
//! Engine units: mm, N, MPa, J/mm, mm/s, s, °C, A, V, kg/h, rad, N·mm, N/mm. [`read`] takes what a person writes, with its
//! unit; the newtypes ([`Length`], [`Force`] …) do the same inside a file; [`show`] writes a value the way a
//! shop reads it, in either [`System`].
//!
//! ```
//! use weldbow_engine::units::{Kind, System, read, show};
//! let leg = read(Kind::Length, "5/16 in")?;
//! assert_eq!(show::plate(leg, System::Us), "5/16 in");
//! assert_eq!(show::plate(leg, System::Si), "7.9 mm");
//! # Ok::<(), weldbow_engine::units::ReadError>(())
//! ```

mod error;
mod kind;
mod message;
mod number;
mod quantity;
mod read;
mod round;
pub mod show;
mod system;
mod unit;

pub use error::ReadError;
pub use kind::Kind;
pub use message::{Message, Part};
pub use quantity::{
    Angle, Current, Force, ForcePerLength, HeatInput, Length, MassRate, Moment, Speed, Straightness, Stress,
    Temperature, Time, Voltage,
};
pub use read::read;
pub use round::in_round_us;
pub use system::System;
pub use unit::{FT_MM, IN_MM, LB_KG, LBF_N, Unit};

#[cfg(test)]
mod reference_tests;
