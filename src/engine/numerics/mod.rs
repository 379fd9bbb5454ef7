//! The few numerical tools the physics needs, each checked on its own.

mod gauss;
mod root;
mod table;

pub use gauss::{GAUSS_2, GAUSS_4};
pub use root::{RootError, root};
pub use table::Table;
