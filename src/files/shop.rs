//! From a file or a text to a checked shop.

use crate::reading::{Diagnostics, InputFile, read_file, read_text_as};
use std::path::Path;
use weldbow_engine::input::Form;
use weldbow_engine::shop::{Shop, ShopFile};

/// The JSON Schema of a shop file.
pub fn schema() -> &'static serde_json::Value {
    ShopFile::schema().value()
}

/// Reads and checks a shop file.
///
/// # Errors
/// Everything that is wrong with it.
pub fn read_path(path: &Path) -> Result<Shop, Diagnostics> {
    checked(&read_file(path)?)
}

/// Reads and checks a shop from its text; `name` is what complaints call it.
///
/// # Errors
/// Everything that is wrong with the text.
///
/// ```
/// let shop = weldbow_files::shop::read_text("shop.toml", weldbow_engine::shop::STARTER).map_err(|c| c.to_string())?;
/// assert!(shop.tools.press.is_some_and(|press| press.spans_mm == (3000.0, 8000.0)));
/// assert!(shop.tools.rates.placeholders, "a starter knows no shop's rates");
/// # Ok::<(), String>(())
/// ```
pub fn read_text(name: &str, text: &str) -> Result<Shop, Diagnostics> {
    checked(&read_text_as(name, text)?)
}

fn checked(paper: &InputFile<ShopFile>) -> Result<Shop, Diagnostics> {
    paper.shape.build().map_err(|problems| paper.complaint(problems))
}
