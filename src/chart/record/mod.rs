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
    let mut out = Vec::new();
    if !found.next.is_empty() {
        out.push(before_after::before_after(found, system)?);
    }
    for chart in &found.watch {
        out.push(watch::watch(chart, system)?);
    }
    Ok(out)
}
