//! weldbow: how a welded, web-tapered built-up I-member will distort.

pub mod angular;
pub mod bow;
pub mod chart;
pub mod cli;
pub mod job;
pub mod member;
pub mod numerics;
pub mod prediction;
pub mod shrinkage;
pub mod steel;
pub mod tolerance;
pub mod units;
pub mod welding;
