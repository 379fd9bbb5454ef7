//! The text that `weldbow new` writes: a whole job with a remark at every line.

/// Starter in SI units.
pub const STARTER: &str = include_str!("si.toml");

/// Starter in US units.
pub const STARTER_US: &str = include_str!("us.toml");
