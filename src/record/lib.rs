//! What a shop's own measured members say about its welds.
//!
//! ```text
//! Record (members, pieces, readings) → Model → sample → Learned
//!            │                          │
//!          engine → Response            └─ prior: the engine's own bias
//! ```
//!
//! * `data`: pieces and their readings; `response`: what the engine says of each reading for any factors, from a few calls.
//! * `prior`: what is taken to be so before the first piece; `layout`: which number of the unknowns is which.
//! * `model`: readings given the unknowns; `centred`: the coordinates a sampler moves in; `mode`: the likeliest point; `chain`: a sampler around them; `sample` runs
//!   chains and says whether they agree (`agreement`).
//! * `ask`: what a model says of a member and of readings that nobody made; `learned`: what came out, in words of the engine, and
//!   `applied`: what the engine takes of it; `check`: every piece predicted from the others; `pareto`: how far weights
//!   can be trusted; `watch`: whether the shop has moved.
//!
//! Bias (what all pieces share) and scatter (what differs from piece to piece) stay apart everywhere. Lengths are mm, signs
//! those of the engine. The same record gives the same numbers for any number of threads.
//!
//! Every unknown is a standard normal score before the first piece, so the prior is one line; `centred` bends the coordinates so
//! that long tails can be entered, `mode` climbs in them, `chain` is Hamiltonian Monte Carlo around the mode. In the engine
//! `prediction::learned` is all there is of it.

mod agreement;
mod applied;
mod ask;
mod centred;
mod chain;
mod check;
mod data;
mod layout;
mod learned;
mod mode;
mod model;
mod numbers;
mod pareto;
pub mod prior;
mod response;
mod sample;
pub mod watch;

pub use agreement::Agreement;
pub use applied::AppliedTo;
pub use check::{CheckedReading, Checks};
pub use data::{Kind, Member, Piece, Quantity, Reading, Record, RecordFault};
pub use layout::Layout;
pub use learned::{Group, Input, Learned, Next, Teaches, learn};
pub use model::Model;
pub use response::{Key, Response};
pub use sample::{Draws, Effort, sample};

#[cfg(test)]
mod tests;
