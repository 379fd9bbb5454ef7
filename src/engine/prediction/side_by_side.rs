//! Jobs of one layout planned and walked at once, in wide registers.

use super::alike::{Alike, SUBSTEPS};
use super::lay_formula::ByFormula;
use super::plan::WalkPlan;
use super::walk::{Keep, Walk, walk_on};
use crate::bow::Plane;
use crate::numerics::{LANES, Lanes, Work};

/// Jobs of one layout to be planned and walked.
pub(super) struct SideBySide<'a, 'j> {
    /// As many as there are lanes.
    pub(super) all: &'a [&'a Alike<'j>; LANES],
    /// What is kept of the walk.
    pub(super) keep: Keep,
    /// Where the walk is put.
    pub(crate) walk: &'a mut Walk<Lanes>,
}

impl Work for SideBySide<'_, '_> {
    type Done = WalkPlan<Lanes>;

    #[cfg_attr(wide, inline(always))]
    fn run(self) -> Self::Done {
        let plan = WalkPlan::side_by_side(self.all);
        let mut left_mpa = Vec::new();
        let (job, pulls) = (self.all[0].job, &mut ByFormula::new(&mut left_mpa));
        if self.keep == Keep::Sums {
            walk_on::<_, Plane<_>, _>(job, &plan, SUBSTEPS, Keep::Sums, pulls, self.walk);
        } else {
            walk_on::<_, Vec<_>, _>(job, &plan, SUBSTEPS, self.keep, pulls, self.walk);
        }
        plan
    }
}
