//! A joint along which the arc travels: staggered slices of the section, joined by what their plates do lengthwise.
//!
//! Each slice is the problem of [`joint_solver`](crate::joint_solver), at its own time since the arc was there: ahead of the arc cold,
//! at it hot, behind it cooling. What no slice knows alone is that its plates go on: flange and web twist, bend and shear along
//! the joint as elastic plates ([`link`](self)), so the wings that open behind the arc turn those ahead of it with them. So every time step
//! is one system: the slices, each with its own factor, closed by a small one over some stations on the plates.
//!
//! One file a subject: `question` what may be asked, `history` what a slice goes through, `stations` and `link` what joins slices,
//! `row` their equilibrium, `march` time, `outcome` what is read off.
//!
//! In detail: `history` the temperatures of one slice over its own time (solved once, in the section), `stations` ten places on
//! the middle planes of flange and web, `link` what elastic plates do between the stations of neighbouring slices, `row` Newton's
//! method over all slices (each keeps its own factor, its flexibility at the stations is closed by one small sparse system),
//! `march` time, births, tacks, holds and rolls, `outcome` what is read off. `verification/moving` puts a case to it (studies
//! collect it as `moving.…`), `chart/joint/moving` draws it; `cargo bench --bench moving -- table|refine|holds|both-sides` prints
//! what `reference-cases/moving_slices.md` keeps.

mod history;
mod link;
mod march;
mod outcome;
mod question;
mod row;
mod stations;

pub use march::travel;
pub use outcome::{Along, Frame, Glance, PassTravelled, TravelEffort, Travelled};
pub use question::{Foot, Grip, Travel};

#[cfg(test)]
mod tests;
