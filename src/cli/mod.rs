//! One file a command, and how complaints look.

pub mod complain;
pub mod new;
pub mod schema;
