//! Offsets measured on one piece, from a CSV file a shop can keep in a spreadsheet.
//!
//! ```text
//! # lay on: 0.5 m and 8.5 m              the two supports, from the start end
//! # up: inner                            which side faced up: inner, outer, near or far
//! # string: 0.5 mm wire at 50 N          or 0.0151 N/m at 50 N
//! # measurements: 2                      independent ones that the readings are the mean of
//! x [m], camber [mm], sweep [mm], outer near toe [mm], outer far toe [mm]
//! 0,     0,           0,          1.2,                 0.4
//! ```
//!
//! `front` reads the lines before the table (`keys`, which finds those whose colon is forgotten), `columns` its head, `read` the whole,
//! and `piece` takes out the sag of member and string. `contract` says what readings must hold to be those of the member, `questions` what is odd about them; the line
//! `# readings: checked` answers all questions. Signs as everywhere: camber + toward the inner flange, sweep + toward the near side, toes + toward the web,
//! from any straight line.

pub(crate) mod columns;
mod contract;
mod front;
pub(crate) mod front_values;
mod keys;
mod piece;
mod questions;
mod read;

pub use crate::readings::Placed;
pub use columns::Measured;
pub(crate) use contract::other_unit;
pub(crate) use front::no_side;
pub use front::{Front, read_notes};
pub(crate) use keys::KEYS;
pub(crate) use piece::sag_sd_mm;
pub use questions::OddReading;
pub(crate) use read::one_toe;
pub use read::{read_path, read_text};
