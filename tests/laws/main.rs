//! What must hold for any member, any sequence, any piece: laws, convergence, formulas beside first principles, chances beside closed
//! forms.
//!
//! One executable, so that its tests share what is compiled and fill all cores.

#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets a surprise fails"
)]

mod constants;
mod convergence;
#[path = "../support/drawn.rs"]
mod drawn;
mod levels;
mod properties;
mod push_log;
mod referee;
mod sampling;
mod sequences;
mod several_runs;
mod straightening;
mod strip_level;
#[path = "../support/studies.rs"]
mod studies;
#[path = "../support/mod.rs"]
mod support;
mod warm_join;
