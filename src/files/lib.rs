//! Text in, typed values of the engine out: job, shop and study files, measured pieces, lists of marks; and a job written back.
//!
//! Everything wrong with a file is collected and shown with its place ([`reading::Diagnostics`]).

pub mod assess;
pub mod job;
pub mod measured;
pub mod order_list;
pub mod push_log;
pub mod reading;
pub mod record;
pub mod rewritten;
pub mod shop;
pub mod written;
