//! The few numerical tools the physics needs, each checked on its own.

mod curve;
mod gauss;
mod root;
mod table;

pub use curve::{between, farthest, parabola, range};
pub use gauss::{GAUSS_2, GAUSS_4};
pub use root::{RootError, root};
pub use table::Table;
