//! From shrinkage force to the shape of the member: strain and curvature of a section, integrated along x.
//!
//! Sections stay plane. strain = ε₀ + g·(y − y_c) + h·z, v″ = −g (camber), w″ = −h (sweep), both ends on the chord.

mod curvature;
mod integrate;
mod shape;
pub mod twist;
pub mod web_ripple;
pub mod web_waves;

pub(crate) use curvature::Gives;
pub use curvature::{Plane, Pull, Response, Strain, strain};
pub use integrate::{Bend, count_of_substeps, largest, largest_kinked, roof};
pub(crate) use integrate::{Bowed, largest_of, raised, substeps};
pub use shape::BowShape;
