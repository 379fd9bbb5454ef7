//! The few numerical tools the physics needs, each checked on its own.

mod gauss;
mod table;

pub use gauss::GAUSS_2;
pub use table::Table;
