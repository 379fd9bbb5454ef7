//! What the parts of a report are given.

use crate::prediction::{Job, Prediction};
use crate::units::System;

/// A prediction that is shown: briefly, or the `whole` of it.
#[derive(Clone, Copy)]
pub(super) struct Shown<'a> {
    pub(super) job: &'a Job,
    pub(super) prediction: &'a Prediction,
    pub(super) system: System,
    pub(super) whole: bool,
}
