//! Text in, typed values of the engine out: job, shop and study files, measured pieces, lists of marks; and a job written back.
//!
//! Everything wrong with a file is collected and shown with its place ([`reading::Diagnostics`]).
//!
//! [`reading`] is TOML a person fills in; [`sheet`] reads tables of text cells (CSV or the first sheet of a workbook), of which
//! lists, measured pieces and records are made. What measured readings must hold to be those of the member stands in
//! `measured/contract` (refused), what is odd about them in `measured/questions` (asked, unless the file says `# readings:
//! checked`); each has a test in `tests/safety/readings.rs`.
//!
//! **To add a column** of the order list: `order_list`, and a bad list in `tests/bad_orders/`; of the record: `record/columns`
//! and `record/piece`, and a bad record in `tests/bad_records/`. A note on a piece: a row of `KEYS` in `measured/front`.

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
