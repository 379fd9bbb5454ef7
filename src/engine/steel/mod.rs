//! Structural steel: grades and the few room-temperature constants the engine needs,
//! and the properties of hot steel by EN 1993-1-2.
//!
//! Stress in MPa, temperature in °C. One file a subject: `grade` for what a job names,
//! `hot` for what heat does to it, `molten` for what is added above 1200 °C.

mod grade;
pub mod hot;
pub mod molten;

pub(crate) use grade::POISSON;
pub use grade::{DENSITY_KG_PER_MM3, E_MPA, GRADES, Grade, Steel, grade};
