//! Text in, typed values of the engine out: job, shop and study files, measured pieces, lists of marks; and a job written back.
//!
//! Everything wrong with a file is collected and shown with its place ([`reading::Diagnostics`]).

pub mod assess;
pub mod job;
pub mod measured;
pub mod member_list;
pub mod order_list;
pub mod push_log;
pub mod reading;
mod readings;
pub mod record;
pub mod rewritten;
mod row;
pub mod sheet;
pub mod shop;
mod workbook;
pub mod written;
