//! What passes pull with by formula. A force changes little along a span: it is worked out at four points of a panel, with all that it hangs on, and
//! is the cubic through them elsewhere; what it does to the section is worked out at every point. With the usual substeps that leaves
//! 5e-5 of a bow at most along a taper of 3 : 1, and a tenth of it along one of 2 : 1 (a test).

use super::effects::{Effect, Effects};
use super::plan::{Pair, StageHere};
use super::point::{Joined, Panel, Place, Pulls};
use crate::bow::{Plane, Pull, Response};
use crate::member::Parts;
use crate::numerics::{GAUSS_2, GAUSS_4, Number, through_gauss_4};
use crate::shrinkage::second_side::{Junction, seam_index};
use crate::shrinkage::warm_join::WarmSeam;
use crate::shrinkage::{prior_stress, tendon};
use crate::welding::Side;

/// The points of a panel at which forces are worked out.
const NODES: usize = GAUSS_4.len();

/// What the passes of one order at one seam pull with.
#[derive(Debug, Clone, Copy, Default)]
struct Laid<N> {
    /// Force that the order adds, N, and sideways moment about the web plane, N·mm, + near.
    force_n: N,
    near_n_mm: N,
    /// Lone force of near and far pass, N (0 where there is none).
    lone_n: [N; 2],
}

/// Room for what is laid in a panel.
#[derive(Debug, Default)]
pub(crate) struct LaidRoom<N = f64> {
    /// For each order and seam, at the nodes.
    laid: Vec<[Laid<N>; NODES]>,
    /// At one node, stress that each order so far leaves at outer and inner seam by pulling at the other, MPa.
    left_mpa: Vec<[N; 2]>,
}

/// How what is laid at a point follows from the nodes.
#[derive(Debug, Clone, Copy)]
enum At {
    /// The point is one of them.
    Node(usize),
    /// What each counts there.
    Between([f64; NODES]),
}

/// The formulas along a panel.
#[derive(Debug)]
pub(crate) struct ByFormula<'a, N = f64> {
    room: &'a mut LaidRoom<N>,
    capped: N,
    /// Of the panel.
    substeps: usize,
    at: At,
}

impl<'a, N: Number> ByFormula<'a, N> {
    /// Before anything is laid.
    pub(crate) fn new(room: &'a mut LaidRoom<N>) -> Self {
        Self { room, capped: N::default(), substeps: 0, at: At::Node(0) }
    }

    /// Works out all orders at one node.
    #[cfg_attr(wide, inline(always))]
    fn at_node(&mut self, place: &Place<'_, N>, node: usize) {
        let turns = place.turns;
        let mut joints = <[Junction<N>; 2]>::default();
        for joint in &mut joints {
            joint.begin(place.plan.spent_n[place.index]);
        }
        self.room.left_mpa.clear();
        let mut order = 0;
        while let Some(first) = turns.get(order) {
            let joined = Joined::at(place, first.parts);
            while let Some(turn) = turns.get(order).filter(|turn| turn.parts == first.parts) {
                let mut left = [N::default(); 2];
                // jobs side by side lay heat at the same orders
                if turn.heat_j_per_mm.nth(0) > 0.0 {
                    let [outer, inner] = &mut joints;
                    left[1] = self.lay_pair::<0>(place, (order, node), turn, &joined, outer);
                    left[0] = self.lay_pair::<1>(place, (order, node), turn, &joined, inner);
                }
                self.room.left_mpa.push(left);
                order += 1;
            }
        }
        self.capped = self.capped.max(joints[0].capped().max(joints[1].capped()));
    }

    /// Stress in web edge and flange at a seam when an order comes, MPa: a flange that joined late brings none.
    #[cfg_attr(wide, inline(always))]
    fn stress(&self, place: &Place<'_, N>, turn: &StageHere<N>, seam: usize, flange: Parts) -> [N; 2] {
        let mut stress = [N::default(); 2];
        let earlier = self.room.left_mpa.iter().zip(place.plan.come(turn, seam)).zip(place.turns);
        for ((left, come), earlier) in earlier {
            let now = *come * left[seam];
            stress[0] += now;
            stress[1] += if earlier.parts.contains(flange) { now } else { N::default() };
        }
        stress
    }

    /// Factor on the forces of a pair by that stress.
    #[cfg_attr(wide, inline(always))]
    fn stressed(&self, place: &Place<'_, N>, turn: &StageHere<N>, pair: &Pair<N>) -> N {
        if self.room.left_mpa.is_empty() && pair.cut_mpa == N::default() {
            return N::all(1.0);
        }
        let stress = self.stress(place, turn, seam_index(pair.seam), Parts::flange(pair.seam));
        (pair.mean_stress(stress) / place.plan.yield_mpa).each(prior_stress::factor)
    }

    /// Lays the passes of an order at the seam of that number, known as it is compiled, at a node. Returns the stress, MPa, that they leave at
    /// the other one.
    #[cfg_attr(wide, inline(always))]
    fn lay_pair<const SEAM: usize>(
        &mut self,
        place: &Place<'_, N>,
        (order, node): (usize, usize),
        turn: &StageHere<N>,
        joined: &Joined<N>,
        joint: &mut Junction<N>,
    ) -> N {
        let plan = place.plan;
        let Some(pair) = plan.pair(turn, SEAM) else { return N::default() };
        let factor = tendon::warmth_factor(turn.preheat_k) * self.stressed(place, turn, pair);
        let available_mm2 = pair.flange_mm2 + place.depth_mm * place.span.plates.web_mm * 0.5;
        let passes = pair.fillets.laid(joined.give_per_mm2[SEAM], factor, available_mm2, plan.yield_mpa);
        let added = joint.lay(&passes);
        let near_n_mm = added.moment_n_mm + (pair.takes_back - 1.0) * added.taken_n_mm;
        let laid = Laid { force_n: added.force_n, near_n_mm, lone_n: passes.lone_n };
        self.room.laid[2 * order + SEAM][node] = laid;
        plan.e_mpa * added.force_n * joined.response[SEAM].by_one.at(place.seam_y_mm()[1 - SEAM])
    }

    /// What an order pulls with at a seam, at the point.
    #[cfg_attr(wide, inline(always))]
    fn laid(&self, order: usize, seam: usize) -> Laid<N> {
        let nodes = &self.room.laid[2 * order + seam];
        let [_, b, c, d] = match self.at {
            At::Node(node) => return nodes[node],
            At::Between(counts) => counts,
        };
        // from the first on, so that what stays the same along a level member does so to the last bit
        let through = |value: fn(&Laid<N>) -> N| {
            let [first, second, third, fourth] = nodes;
            let first = value(first);
            first + (value(second) - first) * b + (value(third) - first) * c + (value(fourth) - first) * d
        };
        Laid {
            force_n: through(|laid| laid.force_n),
            near_n_mm: through(|laid| laid.near_n_mm),
            lone_n: [through(|laid| laid.lone_n[0]), through(|laid| laid.lone_n[1])],
        }
    }
}

impl<N: Number> Pulls<N> for ByFormula<'_, N> {
    const ALIKE_ALONG: bool = true;

    #[cfg_attr(wide, inline(always))]
    fn enter(&mut self, panel: &Panel<'_, N>) {
        let orders = panel.plan.turns(panel.index).len();
        if self.room.laid.len() < 2 * orders {
            self.room.laid.resize(2 * orders, [Laid::default(); NODES]);
        }
        self.capped = N::default();
        self.substeps = panel.substeps;
        let nodes = match panel.substeps {
            0 => &GAUSS_2[..1],
            1 => &GAUSS_2[..],
            _ => &GAUSS_4[..],
        };
        for (node, (at, _)) in nodes.iter().enumerate() {
            self.at_node(&panel.place(*at), node);
        }
    }

    #[cfg_attr(wide, inline(always))]
    fn go_to(&mut self, _: &Place<'_, N>, at: f64) {
        self.at = match self.substeps {
            0 => At::Node(0),
            // its points are its nodes
            1 => At::Node(usize::from(at > 0.5)),
            _ => At::Between(through_gauss_4(at)),
        };
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
        for (seam, response) in joined.response.iter().enumerate() {
            if let Some(pair) = place.plan.pair(turn, seam) {
                share_among_passes(response, pair, &self.laid(order, seam), effects);
            }
        }
    }

    // few members ask for it: it stands apart from what all do
    #[inline(never)]
    fn cools(&self, place: &Place<'_, N>, order: usize, joined: &Joined<N>) -> Plane<N> {
        let (plan, plates, mut sum) = (place.plan, &place.span.plates, Plane::default());
        for (turn, then_s) in place.turns[..order].iter().zip(&plan.clock_s) {
            for (slot, response) in joined.response.iter().enumerate() {
                let Some(pair) = plan.pair(turn, slot) else { continue };
                let seam = WarmSeam {
                    heat_j_per_mm: pair.heat_j_per_mm,
                    flange_mm: plates.flange_mm(pair.seam),
                    web_mm: (plates.web_mm, place.depth_mm),
                    e_mpa: plan.e_mpa,
                };
                let (force_n, up_mm) = seam.pull(plan.clock_s[order] - *then_s);
                let pull = Pull { force_n, up_n_mm: force_n * up_mm, near_n_mm: N::default() };
                sum = sum.plus(response.to(&pull));
            }
        }
        sum
    }

    #[cfg_attr(wide, inline(always))]
    fn capped(&self) -> N {
        self.capped
    }
}

/// Shares what a pair of passes adds between its passes in proportion to their lone forces, if they are kept apart.
#[cfg_attr(wide, inline(always))]
fn share_among_passes<N: Number, E: Effects<N>>(
    response: &Response<N>,
    pair: &Pair<N>,
    laid: &Laid<N>,
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
        [Some(alone), _] => return pulls(alone, 0, laid.force_n, laid.near_n_mm),
        [None, Some(alone)] => return pulls(alone, 1, laid.force_n, laid.near_n_mm),
        [None, None] => return,
    };
    let per_n = (laid.lone_n[0] + laid.lone_n[1]).inverse();
    let arm_mm = pair.fillets.arm_mm();
    let sign = [Side::Near.sign(), Side::Far.sign()];
    let own = [0, 1].map(|side: usize| laid.lone_n[side] * arm_mm[side] * sign[side]);
    let rest = laid.near_n_mm - own[0] - own[1];
    for (side, pass) in [near, far].into_iter().enumerate() {
        let share = laid.lone_n[side] * per_n;
        pulls(pass, side, laid.force_n * share, own[side] + rest * share);
    }
}
