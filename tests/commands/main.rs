//! The program as a user and a script meet it, command by command.
//!
//! One executable, so that its tests share what is compiled and fill all cores.

#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets a surprise fails"
)]

mod asked;
mod choose;
mod every;
mod one_chance;
mod order;
mod page;
mod section;
mod straighten;
mod studies;
