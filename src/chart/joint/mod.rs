//! Pictures of one welded joint: its mesh, how hot it got, temperatures at chosen times, the residual stress, its shape.
//!
//! All are drawn with the flange below and the near side to the right, as seen from the start end. `bands` cuts fields into shades,
//! `view` places the joint on paper, `legend` says what the shades mean, `worded` names the case. `moving` is a joint along which
//! the arc travelled.

mod bands;
mod clip;
mod drawn;
mod legend;
mod levels;
mod mesh;
mod moving;
mod peak;
mod shape;
mod stress;
mod temperatures;
mod view;
mod worded;

use super::{Done, Picture};
use drawn::Drawn;
pub use moving::moving_pictures;
use weldbow_engine::joint_solver::Outcome;
use weldbow_engine::prediction::Job;
use weldbow_engine::units::System;
use weldbow_engine::verification::Verified;

/// All pictures of one refereed joint, labels in the units of `system`.
///
/// # Errors
/// [`ChartError::NotANumber`](crate::ChartError::NotANumber) if a result is not finite; the other errors mean a broken build.
pub fn joint_pictures(job: &Job, result: &Verified, outcome: &Outcome, system: System) -> Done<Vec<Picture>> {
    let drawn = Drawn { job, result, outcome, system };
    let mut pictures = vec![mesh::mesh(&drawn)?, peak::peak(&drawn)?];
    pictures.extend(temperatures::temperatures(&drawn)?);
    pictures.extend([stress::stress(&drawn)?, shape::shape(&drawn)?]);
    Ok(pictures)
}
