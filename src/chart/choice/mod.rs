//! Pictures of a choice: the window of a run, and arc time against distortion.

mod front;
mod window;

use super::{Done, Picture};
use weldbow_engine::choose::{Choice, Window};
use weldbow_engine::units::System;

/// The window, if there is one, and the front.
///
/// # Errors
/// [`ChartError::NotANumber`](crate::ChartError::NotANumber) if a result is not finite; the other errors mean a broken build.
pub fn choice_pictures(choice: &Choice, window: Option<&Window>, system: System) -> Done<Vec<Picture>> {
    let mut out = Vec::new();
    if let Some(window) = window {
        out.push(window::window(choice, window, system)?);
    }
    if !choice.cloud.is_empty() {
        out.push(front::front(choice)?);
    }
    Ok(out)
}
