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
    let window = window.map(|window| window::window(choice, window, system));
    let front = (!choice.cloud.is_empty()).then(|| front::front(choice));
    window.into_iter().chain(front).collect()
}
