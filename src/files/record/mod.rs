//! A shop's record of measured members: one line a piece, as a spreadsheet keeps it.
//!
//! ```text
//! # up: near                                   what holds for all, as in the file of one piece
//! job, piece, date, line, procedure, family, sweep [mm], camber [mm], shortening [mm], outer near toe [mm], outer far toe [mm]
//! ../jobs/rafter.toml, R2-01, 2026-03-02, , twin-6, , -17.5, , 2.1, ,
//! ```
//!
//! `job` is a path from where the record lies; `mark` may stand in its place, which is a job file of that name beside the record, or a
//! row of the list that a line `# marks: order.csv` names. Offsets are those at mid-length from the line between the ends, or at the place in a
//! column `at`; a column `readings` names the file of a piece that was read at many stations. A cell may be blank. `columns`
//! reads the head, `rows` the lines of CSV and spreadsheets alike, `row` is one of them; `piece` takes the sag out and says what
//! was read.

mod columns;
mod piece;
mod row;
mod rows;

pub use piece::{Read, pieces_in};
pub use row::RecordRow;
pub use rows::{Rows, read_path, read_text};
