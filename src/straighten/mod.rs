//! Straightening: whether a member needs it, and how.

pub mod press;
