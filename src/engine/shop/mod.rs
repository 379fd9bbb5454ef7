//! The shop file: what the shop has and what its time costs, as a person writes it down.
//!
//! One file a table; each has the shape of its table and checks it. `file` is the whole, `read` takes a file or a text.
//! A table that is left out is a tool the shop does not have (rates and measuring then are the usual ones); a line that
//! is left out of a table has the default its remark states. `measured` reads the offsets the shop measured on one piece,
//! `push_log` the readings of the pushes made on it; `assess` judges one piece of a job in a shop and plans for it.
//!
//! **To add a field**: the file of its table (the default stands in its remark), the starter and `studies/shop/shop.toml`, a bad
//! file in `tests/bad_shapes/` (of the welding part: `tests/bad_shops/`; of a push log: `tests/bad_logs/`), then `UPDATE_SCHEMA=1
//! cargo test --lib cli::schema` and `UPDATE_MESSAGES=1 cargo test --test bad_files`.

mod file;
mod heat;
mod measuring;
mod press;
mod rates;
mod roller;

pub use file::{Shop, ShopFile};
pub use heat::HeatShape;
pub use measuring::MeasuringShape;
pub use press::PressShape;
pub use rates::RatesShape;
pub use roller::RollerShape;

/// A shop file with a remark at every line, to start from.
pub const STARTER: &str = include_str!("starter.toml");

/// A checked shop from a right text, for tests.
#[cfg(test)]
pub fn read_text(_: &str, text: &str) -> Result<Shop, String> {
    let file: ShopFile = toml::from_str(text).map_err(|error| error.to_string())?;
    file.build().map_err(|problems| format!("{problems:?}"))
}
