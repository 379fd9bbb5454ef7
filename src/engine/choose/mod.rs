//! Weld size and procedure that hold a member in tolerance and carry its load.
//!
//! ```text
//! job + book + wishes → need (stretches, legs by strength and minimum) → way (trips) → grid of candidates
//!   → screen (lay, predict, quick law) → climb → short list → drawn pieces → Choice, or what would open it
//! ```
//!
//! * `book`: the shop's line and qualified procedures; `constraints`: what the user asks; `requirement`: legs a stretch needs.
//! * `scheme`, `candidate`: what may be laid, and the passes it makes; `score`: the quick law; `pieces`: drawn pieces.
//! * `search`, `local_search`: the grid and the way up from its best, `known`: what was predicted already; `choice`: the answer, `weld`: one option of it; `proposals`: its short
//!   list, by the quick `law` as drawn pieces correct it; `proposed`: which of them to take, the present practice among them;
//!   `relaxation`: what would open a search that found nothing; `practice`: what the job's own passes break (`laid`: what of them carries, `qualified`: whether the book has their settings), `effort`: what they take; `window`, `written`: a chart's lines, the job written back.
//!
//! Strength is checked here to choose a weld to study; the design stays with the licensed engineer.
//!
//! In detail: a [`Candidate`] is a way with entries, legs and speeds; its passes are laid into a job and `score` judges the
//! prediction by a quick normal law. `search` screens a grid, `local_search` goes on from the best in the shop's steps, `known`
//! keeps what was predicted, so that a candidate is predicted once; `pieces` asks `scatter` how likely what is shown is out, and
//! no further than it takes to know that it is; each answer corrects the quick `law` for the next try of `proposals`.
//! `relaxation` asks again with one thing changed.

pub mod book;
mod candidate;
mod choice;
mod constraints;
mod effort;
mod front;
mod known;
mod laid;
mod law;
mod local_search;
mod pieces;
mod practice;
mod proposals;
mod proposed;
mod qualified;
mod relaxation;
mod requirement;
mod scheme;
mod score;
mod search;
mod weld;
mod window;

pub use book::Book;
pub use candidate::{BeadLegs, Candidate, CandidateCost, SearchSpace, Trip};
pub use choice::{Choice, Counts, choose};
pub use constraints::{Allow, ConstraintFault, Constraints, Objective, Sides, USUAL_CONFIDENCE, Waits};
pub use front::FrontPoint;
pub use known::Scored;
pub use pieces::{DrawnChances, pieces, said_inside};
pub use practice::stitches_to_try;
pub use relaxation::Relaxation;
pub use requirement::{Governs, Requirement, Requirements, Stretch, needs};
pub use scheme::{Lane, Scheme, ways, welds};
pub use score::{Score, matters, score, screened};
pub(crate) use score::{inside, used};
pub use search::{Found, base, grid, screen, search};
pub use weld::{Choosing, ChosenPass, Tightest, Weld};
pub use window::{Border, Window, window};
