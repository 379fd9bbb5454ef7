//! "How does it change with …?": a job, what varies in it, what is collected, and the charts drawn from it.
//!
//! `table` is what a study brings back; `wish` what a chart shall show of it.

mod table;
mod wish;

pub use table::{Column, Table, Values};
pub use wish::{ChartKind, ChartWish};
