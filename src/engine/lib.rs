//! How a welded, web-tapered built-up I-member will distort: the engine, without files, terminal or pictures.

pub mod angular;
pub mod bow;
pub mod choose;
pub mod input;
pub mod job;
pub mod member;
pub mod numerics;
pub mod order;
pub mod prediction;
pub mod referee;
pub mod scatter;
pub mod section;
pub mod shop;
pub mod shrinkage;
pub mod steel;
pub mod straighten;
pub mod strength;
pub mod strip;
pub mod study;
pub mod tolerance;
pub mod units;
pub mod welding;
