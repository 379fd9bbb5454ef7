//! From a measured piece to steps a foreman can follow, or to the limits that stand in the way.
//!
//! Order of work: flange tilt, sweep, camber, twist; each step can disturb the next, so all is measured again after each.

mod after;
mod allowed;
mod block;
mod bow;
mod cups;
mod flange;
mod held;
mod log;
mod make;
mod price;
mod pushes;
mod result;
mod rule;
mod series;
mod setup;
mod shop;
mod trial;

pub(crate) use after::asks_after_lines;
pub use block::{Block, BlockingLimit};
pub(crate) use flange::lines_blocked;
pub use log::{Again, MOST_TRIES, Next, Odd, PushReading, next, yield_mpa};
pub use make::{count, make};
pub(crate) use make::{count_of, decisions, facts, not_taken_back};
pub use price::{Price, fails};
pub use pushes::pushes;
pub use result::{
    Blocked, Chosen, Decision, FamilyStanding, Plan, Push, Step, StraighteningMethod, Way, Work,
};
pub(crate) use rule::FORCE_READ;
pub use rule::{SecondPush, Stop};
pub use series::{CORRECTED_SD, OVERSHOT, Series};
pub use shop::{Equipment, Goals, HeatTools, Press, Rates, Records, Roller, Task};
pub use trial::{Reality, TRUE_YIELD, Trial, hits_within, trials};
