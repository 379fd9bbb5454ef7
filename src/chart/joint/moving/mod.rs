//! Pictures of a joint along which the arc travelled: instants of it, how a place amid the length turned, what is left along it.

mod along;
mod drawn;
mod ended;
mod frames;
mod turning;

use crate::{Done, Picture};
use drawn::Drawn;
use weldbow_engine::prediction::Job;
use weldbow_engine::units::System;
use weldbow_engine::verification::TravelledCase;

/// All pictures of one joint along which the arc travelled, labels in the units of `system`.
///
/// # Errors
/// [`ChartError::NotANumber`](crate::ChartError::NotANumber) if a result is not finite; the other errors mean a broken build.
pub fn moving_pictures(job: &Job, moved: &TravelledCase, system: System) -> Done<Vec<Picture>> {
    let drawn = Drawn { job, moved, system };
    Ok(vec![frames::frames(&drawn)?, turning::turning(&drawn)?, along::along(&drawn)?])
}
