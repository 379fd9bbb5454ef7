//! At one point of the walk: what passes pull with by formula.

use super::effects::{Effect, Effects};
use super::plan::{Pair, StageHere};
use super::point::{Joined, Place, Pulls};
use crate::bow::{Pull, Response};
use crate::member::Parts;
use crate::numerics::Number;
use crate::shrinkage::second_side::{Added, Junction, LaidPasses, seam_index};
use crate::shrinkage::{prior_stress, tendon};
use crate::welding::Side;

/// The joints of a point as its orders are laid.
#[derive(Debug)]
pub(crate) struct ByFormula<'a, N = f64> {
    joints: [Junction<N>; 2],
    /// Stress that each order so far leaves at outer and inner seam by pulling at the other, MPa. Elsewhere, so that the joints can stay in
    /// registers.
    left_mpa: &'a mut Vec<[N; 2]>,
}

impl<'a, N: Number> ByFormula<'a, N> {
    /// Before anything is laid; the list is emptied at every point.
    pub(crate) fn new(left_mpa: &'a mut Vec<[N; 2]>) -> Self {
        Self { joints: Default::default(), left_mpa }
    }

    /// Stress in web edge and flange at a seam when an order comes, MPa: a flange that joined late brings none.
    #[cfg_attr(wide, inline(always))]
    fn stress(&self, place: &Place<'_, N>, turn: &StageHere<N>, seam: usize, flange: Parts) -> [N; 2] {
        let mut stress = [N::default(); 2];
        for ((left, come), earlier) in self.left_mpa.iter().zip(place.plan.come(turn, seam)).zip(place.turns)
        {
            let now = *come * left[seam];
            stress[0] += now;
            stress[1] += if earlier.parts.contains(flange) { now } else { N::default() };
        }
        stress
    }

    /// Factor on the forces of a pair by that stress.
    #[cfg_attr(wide, inline(always))]
    fn stressed(&self, place: &Place<'_, N>, turn: &StageHere<N>, pair: &Pair<N>) -> N {
        if self.left_mpa.is_empty() && pair.cut_mpa == N::default() {
            return N::all(1.0);
        }
        let stress = self.stress(place, turn, seam_index(pair.seam), Parts::flange(pair.seam));
        (pair.mean_stress(stress) / place.plan.yield_mpa).each(prior_stress::factor)
    }

    /// Lays the passes at the seam of that number, known as it is compiled. Returns the stress, MPa, that they leave at the other one.
    #[cfg_attr(wide, inline(always))]
    fn lay_pair<const SEAM: usize>(
        &mut self,
        place: &Place<'_, N>,
        turn: &StageHere<N>,
        joined: &Joined<N>,
        effects: &mut impl Effects<N>,
    ) -> N {
        let plan = place.plan;
        let Some(pair) = plan.pair(turn, SEAM) else { return N::default() };
        let factor = tendon::warmth_factor(turn.preheat_k) * self.stressed(place, turn, pair);
        let available_mm2 = pair.flange_mm2 + place.depth_mm * place.span.plates.web_mm * 0.5;
        let laid = pair.fillets.laid(joined.give_per_mm2[SEAM], factor, available_mm2, plan.yield_mpa);
        let added = self.joints[SEAM].lay(&laid);
        let response = &joined.response[SEAM];
        share_among_passes(response, pair, &laid, added, effects);
        plan.e_mpa * added.force_n * response.by_one.at(place.seam_y_mm()[1 - SEAM])
    }
}

impl<N: Number> Pulls<N> for ByFormula<'_, N> {
    const ALIKE_ALONG: bool = true;

    #[cfg_attr(wide, inline(always))]
    fn go_to(&mut self, place: &Place<'_, N>) {
        for joint in &mut self.joints {
            joint.begin(place.plan.spent_n[place.index]);
        }
        self.left_mpa.clear();
    }

    #[cfg_attr(wide, inline(always))]
    fn lay(
        &mut self,
        place: &Place<'_, N>,
        order: usize,
        turn: &StageHere<N>,
        joined: &Joined<N>,
        effects: &mut impl Effects<N>,
    ) {
        let outer = self.lay_pair::<0>(place, turn, joined, effects);
        let inner = self.lay_pair::<1>(place, turn, joined, effects);
        // after the last order nobody asks
        if order + 1 < place.turns.len() {
            // orders without heat here leave nothing
            self.left_mpa.resize(order, [N::default(); 2]);
            self.left_mpa.push([inner, outer]);
        }
    }

    #[cfg_attr(wide, inline(always))]
    fn capped(&self) -> N {
        self.joints[0].capped().max(self.joints[1].capped())
    }
}

/// Shares what a pair of passes adds between its passes in proportion to their lone forces, if they are kept apart.
#[cfg_attr(wide, inline(always))]
fn share_among_passes<N: Number, E: Effects<N>>(
    response: &Response<N>,
    pair: &Pair<N>,
    laid: &LaidPasses<N>,
    added: Added<N>,
    effects: &mut E,
) {
    let mut pulls = |pass: usize, side: usize, force_n: N, near_n_mm: N| {
        let effect = Effect {
            real: response.under_force(force_n, near_n_mm),
            unit: response.by_one,
            pull: Pull { force_n, up_n_mm: N::default(), near_n_mm },
            lone_n: laid.lone_n[side],
        };
        effects.put(seam_index(pair.seam), pass, effect);
    };
    let [near, far] = match pair.pass {
        [Some(near), Some(far)] if E::APART => [near, far],
        [Some(alone), _] => return pulls(alone, 0, added.force_n, added.moment_n_mm),
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
