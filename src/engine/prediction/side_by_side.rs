//! Jobs of one layout planned and walked at once, in wide registers.

use super::alike::{Alike, SUBSTEPS};
use super::lay_formula::ByFormula;
use super::plan::WalkPlan;
use super::walk::{Keep, Walk, walk_on};
use crate::numerics::{LANES, Lanes, Work};

/// Jobs of one layout to be planned and walked.
pub(super) struct SideBySide<'a, 'j> {
    /// As many as there are lanes.
    pub(super) all: &'a [&'a Alike<'j>; LANES],
    /// What is kept of the walk.
    pub(super) keep: Keep,
}

impl Work for SideBySide<'_, '_> {
    type Done = (WalkPlan<Lanes>, Walk<Lanes>);

    #[cfg_attr(wide, inline(always))]
    fn run(self) -> Self::Done {
        let plan = WalkPlan::side_by_side(self.all);
        let march = walk_on(self.all[0].job, &plan, SUBSTEPS, self.keep, &mut ByFormula::default());
        (plan, march)
    }
}
