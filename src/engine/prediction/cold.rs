//! Passes that are laid on steel colder than their plates ask for.

use super::Job;
use crate::strength::{Deposited, SHOP_WARM_C, USUAL_HYDROGEN, Warmth};
use crate::units::{Message, Part};
use crate::welding::Pass;

/// The pass that is laid the farthest below what its plates ask for; its weld metal is taken to be dry.
pub(crate) fn too_cold(job: &Job) -> Option<Message> {
    let asked = |pass: &Pass| {
        let steel_c = SHOP_WARM_C + pass.preheat_k.max(0.0);
        let least = job.warmth(
            &Deposited {
                process: pass.process,
                hydrogen_ml_per_100_g: USUAL_HYDROGEN,
                heat_kj_per_mm: 1e-3 * pass.heat_j_per_mm,
            },
            job.plates_along_mm(pass).1,
        );
        (!least.holds(steel_c)).then_some((least, steel_c))
    };
    let lacks = |(least, steel_c): &(Warmth, f64)| least.least_c - steel_c;
    let (least, steel_c) =
        job.passes.iter().filter_map(asked).max_by(|a, b| lacks(a).total_cmp(&lacks(b)))?;
    Some(least.asked().then(Message::of("; a pass is laid at {}", [Part::Hottest(steel_c)])))
}

impl Job {
    /// How warm its plates, up to so thick (mm), must be for a weld.
    pub(crate) fn warmth(&self, weld: &Deposited, thickest_mm: f64) -> Warmth {
        let cet = self.carries.as_ref().and_then(|carries| carries.cet);
        weld.warmth(&self.member.steel, cet, thickest_mm, self.units)
    }
}
