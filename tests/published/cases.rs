//! Reads a file of `reference-cases`.

use serde::de::DeserializeOwned;
use std::fs;
use std::path::Path;

/// The content of a file, by its path inside `reference-cases`.
pub fn load<T: DeserializeOwned>(file: &str) -> T {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("reference-cases").join(file);
    let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    toml::from_str(&text).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}
