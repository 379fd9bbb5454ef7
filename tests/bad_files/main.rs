//! What a user reads when a file is wrong: one module a kind of file. The wrong files lie in the folders beside this one
//! (`tests/bad_input`, …), each with its whole message beside it.
//!
//! One executable, so that its tests share what is compiled and fill all cores.

#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets a surprise fails"
)]

mod bad_input;
mod bad_logs;
mod bad_orders;
mod bad_records;
mod bad_shapes;
mod bad_shops;
mod bad_studies;
#[path = "../support/kept.rs"]
mod kept;
