//! Straightening: whether a member needs it, and how.

pub mod decide;
pub mod heat;
pub mod press;
pub mod shape;
pub mod tilt;
