//! What the pictures of a joint are drawn from.

use weldbow_engine::joint_solver::Outcome;
use weldbow_engine::prediction::Job;
use weldbow_engine::units::System;
use weldbow_engine::verification::Verified;

/// A case and its solution, as the pictures take them.
#[derive(Clone, Copy)]
pub(super) struct Drawn<'a> {
    pub job: &'a Job,
    pub result: &'a Verified,
    pub outcome: &'a Outcome,
    pub system: System,
}
