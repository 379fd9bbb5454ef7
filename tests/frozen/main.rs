//! Some thousand results, kept to ten digits, so that a change of any number is a decision.
//!
//! The cases are made up from a seed; `engine` asks for them by the command line and knows nothing else of the program.
//! When a number changes on purpose: `UPDATE_FROZEN=1 cargo test --test frozen` rewrites the tables and says what changed
//! (rows, worst change by column, by kind of member and by kind of sequence, first rows old → new); put one line with the
//! reason into `CHANGES.md`. `SHOW_FROZEN=p0012 cargo test --test frozen shows` prints the job file behind a row.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that meets a surprise fails")]

mod chances;
mod changes;
mod choices;
mod engine;
mod job;
mod member;
mod orders;
mod plans;
mod predictions;
mod sections;
mod stream;
mod studies;
mod table;
mod table_tests;
mod welds;
