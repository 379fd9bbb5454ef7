//! Weld size and procedure that hold a member in tolerance and carry its load.
//!
//! ```text
//! job + book + wishes → need (stretches, legs by strength and minimum) → way (trips) → grid of candidates
//!   → screen (lay, predict, quick law) → climb → short list → drawn pieces → Choice, or what would open it
//! ```
//!
//! * `book`: the shop's line and qualified procedures; `wishes`: what the user asks; `need`: legs a stretch needs.
//! * `way`, `candidate`: what may be laid, and the passes it makes; `score`: the quick law; `pieces`: drawn pieces.
//! * `search`, `climb`: the grid and the way up from its best; `choice`: the answer; `opened`: what would open a search
//!   that found nothing; `practice`: what the job's own passes break; `window`, `written`: a chart's lines, the job written back.
//!
//! Strength is checked here to choose a weld to study; the design stays with the licensed engineer.

pub mod book;
mod candidate;
mod choice;
mod climb;
mod need;
mod opened;
mod pieces;
mod practice;
mod score;
mod search;
mod way;
mod window;
mod wishes;

pub use book::Book;
pub use candidate::{Bead, Candidate, Effort, Ground, Trip};
pub use choice::{Choice, Choosing, Counts, FrontPoint, Laid, Tightest, Weld, choose};
pub use need::{Governs, Need, Needs, Stretch, needs};
pub use opened::Opener;
pub use pieces::{Pieces, pieces};
pub use score::{Score, inside, matters, met, score, screened, used};
pub use search::{Found, Scored, base, best, grid, screen, search};
pub use way::{Lane, Way, on_both_sides, ways, welds};
pub use window::{Border, Window, window};
pub use wishes::{Allow, Objective, Sides, Waits, WishFault, Wishes};
