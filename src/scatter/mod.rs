//! How unsure inputs spread: distributions, sampling plans, sensitivities, and the chance of being out.
//!
//! Model bias (the same for every piece) and scatter from piece to piece stay apart everywhere.

mod weight;

pub use weight::{Share, Swing};
