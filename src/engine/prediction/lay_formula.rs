//! At one point of the walk: what passes pull with by formula.

use super::plan::{Pair, StageHere};
use super::point::{Effect, Joined, Place, Pulls};
use crate::bow::Pull;
use crate::member::Parts;
use crate::numerics::Number;
use crate::shrinkage::second_side::{Added, Junction, LaidPasses, seam_index};
use crate::shrinkage::{prior_stress, tendon};
use crate::welding::Side;

/// The joints of a point as its orders are laid.
#[derive(Debug, Default)]
pub(crate) struct ByFormula<N = f64> {
    joints: [Junction<N>; 2],
    /// Stress that each order so far leaves at outer and inner seam by pulling at the other, MPa.
    left_mpa: Vec<[N; 2]>,
}

impl<N: Number> ByFormula<N> {
    /// Stress in web edge and flange at a seam when an order comes, MPa: a flange that joined late brings none.
    #[cfg_attr(wide, inline(always))]
    fn stress(&self, place: &Place<'_, N>, order: usize, seam: usize, flange: Parts) -> [N; 2] {
        let turns = place.plan.turns(place.index);
        let come = place.plan.come(place.index, order, seam);
        let mut stress = [N::default(); 2];
        for ((left, come), turn) in self.left_mpa.iter().zip(come).zip(turns) {
            let now = *come * left[seam];
            stress[0] += now;
            stress[1] += if turn.parts.contains(flange) { now } else { N::default() };
        }
        stress
    }

    /// Factor on the forces of a pair by that stress.
    #[cfg_attr(wide, inline(always))]
    fn stressed(&self, place: &Place<'_, N>, order: usize, pair: &Pair<N>) -> N {
        if self.left_mpa.is_empty() && pair.cut_mpa == N::default() {
            return N::all(1.0);
        }
        let stress = self.stress(place, order, seam_index(pair.seam), Parts::flange(pair.seam));
        (pair.mean_stress(stress) / place.plan.yield_mpa).each(prior_stress::factor)
    }
}

impl<N: Number> Pulls<N> for ByFormula<N> {
    const ALIKE_ALONG: bool = true;

    #[cfg_attr(wide, inline(always))]
    fn go_to(&mut self, place: &Place<'_, N>) {
        self.joints = [Junction::with_spent_force(place.plan.spent_n[place.index]); 2];
        self.left_mpa.clear();
    }

    #[cfg_attr(wide, inline(always))]
    fn lay(
        &mut self,
        place: &Place<'_, N>,
        order: usize,
        turn: &StageHere<N>,
        joined: &Joined<N>,
        effects: &mut [Effect<N>],
    ) {
        let plan = place.plan;
        let half_web_mm2 = place.depth_mm * place.span().plates.web_mm * 0.5;
        let warmth = tendon::warmth_factor(turn.preheat_k);
        // after the last order nobody asks
        let goes_on = order + 1 < plan.turns(place.index).len();
        let mut left = [N::default(); 2];
        for pair in turn.pairs.iter().flatten() {
            let seam = seam_index(pair.seam);
            let factor = warmth * self.stressed(place, order, pair);
            let available_mm2 = pair.flange_mm2 + half_web_mm2;
            let laid = pair.fillets.laid(joined.give_per_mm2[seam], factor, available_mm2, plan.yield_mpa);
            let added = self.joints[seam].lay(&laid);
            share_among_passes(joined, pair, &laid, added, effects);
            if goes_on {
                let other = 1 - seam;
                let strain = joined.response[seam].by_one.at(place.seam_y_mm()[other]);
                left[other] = plan.e_mpa * added.force_n * strain;
            }
        }
        if goes_on {
            // orders without heat here leave nothing
            self.left_mpa.resize(order, [N::default(); 2]);
            self.left_mpa.push(left);
        }
    }

    #[cfg_attr(wide, inline(always))]
    fn capped(&self) -> N {
        self.joints[0].capped().max(self.joints[1].capped())
    }
}

/// Shares what a pair of passes adds between its passes in proportion to their lone forces.
#[cfg_attr(wide, inline(always))]
fn share_among_passes<N: Number>(
    joined: &Joined<N>,
    pair: &Pair<N>,
    laid: &LaidPasses<N>,
    added: Added<N>,
    effects: &mut [Effect<N>],
) {
    let response = &joined.response[seam_index(pair.seam)];
    let mut pulls = |pass: usize, side: usize, force_n: N, near_n_mm: N| {
        effects[pass] = Effect {
            real: response.under_force(force_n, near_n_mm),
            unit: response.by_one,
            pull: Pull { force_n, up_n_mm: N::default(), near_n_mm },
            lone_n: laid.lone_n[side],
        };
    };
    let [near, far] = match pair.pass {
        [Some(near), Some(far)] => [near, far],
        [Some(alone), None] => return pulls(alone, 0, added.force_n, added.moment_n_mm),
        [None, Some(alone)] => return pulls(alone, 1, added.force_n, added.moment_n_mm),
        [None, None] => return,
    };
    let per_n = (laid.lone_n[0] + laid.lone_n[1]).inverse();
    let sign = [Side::Near.sign(), Side::Far.sign()];
    let own = [0, 1].map(|side: usize| laid.lone_n[side] * laid.arm_mm[side] * sign[side]);
    let rest = added.moment_n_mm - own[0] - own[1];
    for (side, pass) in [near, far].into_iter().enumerate() {
        let share = laid.lone_n[side] * per_n;
        pulls(pass, side, added.force_n * share, own[side] + rest * share);
    }
}
