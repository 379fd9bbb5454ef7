//! weldbow: how a welded, web-tapered built-up I-member will distort.

pub mod member;
pub mod steel;
pub mod welding;
