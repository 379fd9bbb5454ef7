//! Pictures of a shop's measured pieces: `watch` in the order of welding, `before_after` what they did to the prediction.

mod before_after;
mod calibration;
mod watch;

pub use calibration::{Rank, calibration};

use super::{Done, Picture};
use weldbow_engine::units::System;
use weldbow_record::Learned;

/// Pictures of what a record taught.
///
/// # Errors
/// As [`super::pictures`].
pub fn record_pictures(found: &Learned, system: System) -> Done<Vec<Picture>> {
    let change = (!found.next.is_empty()).then(|| before_after::before_after(found, system));
    let watched = found.watch.iter().map(|chart| watch::watch(chart, system));
    change.into_iter().chain(watched).collect()
}
