//! The trainer's course: every study in `studies/` reads, builds and shows the trend that its lesson tells.
//!
//! Beside each trend stands who published it, and how that is known ("memory": recalled, not read again), or that it is
//! common practice without a source. They are trends: none of them says how far a real member bows.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets a surprise fails"
)]

mod chance;
mod every;
mod plates;
mod section;
mod sequence;
#[path = "../support/studies.rs"]
mod studies;
mod weld;
mod whole;
