//! At one point of the walk: what passes pull with by formula.

use super::Job;
use super::plan::{Pair, StageHere};
use super::point::{Effect, Joined, Place, Pulls};
use crate::bow::Pull;
use crate::member::Parts;
use crate::shrinkage::second_side::{Added, Deposit, Joint, seam_index};
use crate::shrinkage::{prior, tendon};
use crate::welding::Side;

/// The joints of a point as its orders are laid.
#[derive(Debug, Default)]
pub struct ByFormula {
    joints: [Joint; 2],
    /// Stress that each order so far leaves at outer and inner seam by pulling at the other, MPa.
    left_mpa: Vec<[f64; 2]>,
}

impl ByFormula {
    /// Stress in web edge and flange at a seam when an order comes, MPa: a flange that joined late brings none.
    fn stress(&self, place: &Place<'_>, order: usize, seam: usize, flange: Parts) -> [f64; 2] {
        let turns = place.plan.turns(place.index);
        let come = place.plan.come(place.index, order, seam);
        let mut stress = [0.0; 2];
        for ((left, come), turn) in self.left_mpa.iter().zip(come).zip(turns) {
            let now = come * left[seam];
            stress[0] += now;
            stress[1] += if turn.parts.contains(flange) { now } else { 0.0 };
        }
        stress
    }
}

/// Force that hot cutting has spent in each web edge, N.
pub fn spent_n(job: &Job, web_mm: f64) -> f64 {
    if job.thermally_cut_web { prior::cut_edge_force_n(web_mm) } else { 0.0 }
}

impl Pulls for ByFormula {
    fn go_to(&mut self, place: &Place<'_>) {
        self.joints = [Joint::with_spent_force(spent_n(place.job, place.span().plates.web_mm)); 2];
        self.left_mpa.clear();
    }

    #[inline]
    fn lay(
        &mut self,
        place: &Place<'_>,
        order: usize,
        turn: &StageHere,
        joined: &Joined,
        effects: &mut [Effect],
    ) {
        let steel = &place.job.member.steel;
        let half_web_mm2 = 0.5 * place.depth_mm * place.span().plates.web_mm;
        let warmth = tendon::warmth_factor(turn.preheat_k);
        let mut left = [0.0; 2];
        for pair in turn.pairs.iter().flatten() {
            let seam = seam_index(pair.seam);
            let stress = self.stress(place, order, seam, Parts::flange(pair.seam));
            let factor = warmth * prior::factor(pair.mean_stress(stress) / steel.yield_mpa);
            let available_mm2 = pair.flange_mm2 + half_web_mm2;
            let laid = pair.fillets.laid(joined.give_per_mm2[seam], factor, available_mm2, steel.yield_mpa);
            let added = self.joints[seam].lay(&laid);
            share_among_passes(joined, pair, &laid, added, effects);
            let other = 1 - seam;
            let strain = joined.response[seam].by_one.at(place.seam_y_mm()[other]);
            left[other] = steel.e_mpa * added.force_n * strain;
        }
        // orders without heat here leave nothing
        self.left_mpa.resize(order, [0.0; 2]);
        self.left_mpa.push(left);
    }

    fn capped(&self) -> bool {
        self.joints.iter().any(Joint::capped)
    }
}

/// Shares what a pair of passes adds between its passes in proportion to their lone forces.
fn share_among_passes(joined: &Joined, pair: &Pair, laid: &Deposit, added: Added, effects: &mut [Effect]) {
    let response = &joined.response[seam_index(pair.seam)];
    let per_n = 1.0 / (laid.lone_n[0] + laid.lone_n[1]);
    let own = [Side::Near.sign(), Side::Far.sign()];
    let own = [0, 1].map(|side| own[side] * laid.lone_n[side] * laid.arm_mm[side]);
    let rest = added.moment_n_mm - own[0] - own[1];
    for side in [0, 1] {
        let Some(pass) = pair.pass[side] else { continue };
        let share = laid.lone_n[side] * per_n;
        let pull = Pull { force_n: added.force_n * share, up_n_mm: 0.0, near_n_mm: own[side] + rest * share };
        effects[pass] =
            Effect { real: response.to(&pull), unit: response.by_one, pull, lone_n: laid.lone_n[side] };
    }
}
