//! Straightening: whether a member needs it, and how.
//!
//! `shape` is how far the piece is from straight, `decide` whether to act, `press`, `heat` and `flange` what one push, heat or
//! pass does, `plan` the steps or the limit that blocks, `lying` what a tape reads of a member that lies or is warm on one side, `piece` what planning needs from a job and its prediction or from
//! measured offsets, `cautions` what to say with them.
//!
//! Nothing here was checked against measured straightening; every constant says how it is known.

pub mod cautions;
pub mod decide;
mod filled;
pub mod flange;
pub mod heat;
pub mod lying;
pub mod piece;
pub mod plan;
pub mod press;
pub mod shape;
