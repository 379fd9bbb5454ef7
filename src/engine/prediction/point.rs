//! One point of the walk: every order laid on the section joined by then, strains carried on one line.

use super::Job;
use super::plan::{Pair, StageHere, WalkPlan};
use crate::bow::{Gives, Plane, Pull, Response, web_ripple};
use crate::member::{Parts, Seam, Section, Span, inclined};
use crate::numerics::Number;
use crate::shrinkage::second_side::seam_index;
use crate::shrinkage::tendon;

/// What one pass does at one point.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Effect<N = f64> {
    /// Strain it adds.
    pub(crate) real: Plane<N>,
    /// Strain by 1 N, and 1 N·mm sideways, along its seam.
    pub(crate) unit: Plane<N>,
    /// Its pull at its own seam.
    pub(crate) pull: Pull<N>,
    /// Force of a lone first pass by formula, N.
    pub(crate) lone_n: N,
}

/// Where a point lies.
#[derive(Debug, Clone, Copy)]
pub(super) struct Place<'a, N = f64> {
    /// Job; of several side by side the first.
    pub job: &'a Job,
    /// Its plan.
    pub plan: &'a WalkPlan<N>,
    /// Number of the span in the plan.
    pub index: usize,
    /// Station, mm.
    pub x_mm: N,
    /// Clear web depth there, mm.
    pub depth_mm: N,
    /// Cosine of the inclination of the inner flange.
    pub(crate) cos: N,
}

impl<'a, N: Number> Place<'a, N> {
    /// At x, mm, in a span whose inner flange is inclined by an angle of that cosine.
    #[cfg_attr(wide, inline(always))]
    pub(super) fn of(job: &'a Job, plan: &'a WalkPlan<N>, index: usize, x_mm: N, cos: N) -> Self {
        Self { job, plan, index, x_mm, depth_mm: plan.spans[index].depth_mm(x_mm), cos }
    }

    /// Its span.
    #[cfg_attr(wide, inline(always))]
    pub(super) fn span(&self) -> &'a Span<N> {
        &self.plan.spans[self.index]
    }

    /// Places of outer and inner seam, mm.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn seam_y_mm(&self) -> [N; 2] {
        [N::default(), self.depth_mm]
    }
}

/// The parts joined at a point.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Joined<N = f64> {
    /// Which.
    pub(crate) parts: Parts,
    /// Their section.
    pub(crate) section: Section<N>,
    /// What it does under pulls along outer and inner seam.
    pub(crate) response: [Response<N>; 2],
    /// For each seam: its strain by unit force along it and along the other, times −E, 1/mm².
    pub(crate) give_per_mm2: [[N; 2]; 2],
}

impl<N: Number> Joined<N> {
    #[cfg_attr(wide, inline(always))]
    fn at(place: &Place<'_, N>, parts: Parts) -> Self {
        let e_mpa = place.plan.e_mpa;
        let section = inclined(&place.span().plates, place.depth_mm, place.cos, parts);
        let seam_y = place.seam_y_mm();
        let gives = Gives::of(&section, e_mpa);
        let response =
            [gives.under_pulls(seam_y[0], N::all(1.0), 1.0), gives.under_pulls(seam_y[1], place.cos, -1.0)];
        let give = |at: usize, by: usize| -e_mpa * response[by].by_one.at(seam_y[at]);
        let give_per_mm2 = [[give(0, 0), give(0, 1)], [give(1, 1), give(1, 0)]];
        Self { parts, section, response, give_per_mm2 }
    }

    /// Lone force of near and far pass of a pair where nothing was laid before, N.
    pub(crate) fn lone_n(&self, turn: &StageHere<N>, pair: &Pair<N>, side: crate::welding::Side) -> N {
        let give = self.give_per_mm2[seam_index(pair.seam)];
        pair.fillets.lone_n(side, give, tendon::warmth_factor(turn.preheat_k))
    }
}

/// What passes pull with, by formula or from stations.
pub(crate) trait Pulls<N> {
    /// Whether they pull alike at all points of a span in which neither plates nor depth change.
    const ALIKE_ALONG: bool;
    /// Goes to another point.
    fn go_to(&mut self, place: &Place<'_, N>);
    /// Lays one order of the job, where any heat is laid.
    fn lay(
        &mut self,
        place: &Place<'_, N>,
        order: usize,
        turn: &StageHere<N>,
        joined: &Joined<N>,
        effects: &mut [Effect<N>],
    );
    /// 1 where yield held a force down at this point, else 0.
    fn capped(&self) -> N;
}

/// What the whole sequence leaves at one point.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Here<N> {
    /// Largest mean temperature rise, K.
    pub(crate) warmest_k: N,
    /// 1 where yield held a force down, else 0.
    pub(crate) capped: N,
    /// Centroid of the finished section, mm.
    pub centroid_mm: N,
    /// Strain while the web was still flat.
    pub flat: Plane<N>,
    /// Strain that is left once the web has rippled, if it does.
    pub left: Plane<N>,
    /// Strain, − shortens, of outer and inner web edge along x since the first order, and of outer and inner flange along
    /// their own axes since they joined.
    pub lines: [N; 4],
}

#[cfg_attr(wide, inline(always))]
fn sum<N: Number>(effects: &[Effect<N>]) -> Plane<N> {
    let mut sum = Plane::default();
    for effect in effects {
        sum = sum.plus(effect.real);
    }
    sum
}

/// Lays every order at a place and leaves each pass's effect in `effects`.
#[cfg_attr(wide, inline(always))]
pub(crate) fn lay_all<N: Number>(
    pulls: &mut impl Pulls<N>,
    place: &Place<'_, N>,
    effects: &mut [Effect<N>],
) -> Here<N> {
    let turns = place.plan.turns(place.index);
    let seam_y = place.seam_y_mm();
    let mut joined = Joined::at(place, turns.first().map_or(Parts::ALL, |turn| turn.parts));
    // strain of the member's edge when its flange joined
    let mut begun = [N::default(); 2];
    let mut warmest_k = N::default();
    effects.fill(Effect::default());
    pulls.go_to(place);
    for (order, turn) in turns.iter().enumerate() {
        if turn.parts != joined.parts {
            let before = std::mem::replace(&mut joined, Joined::at(place, turn.parts));
            let now = sum(effects);
            for (slot, seam) in Seam::BOTH.into_iter().enumerate() {
                let flange = Parts::flange(seam);
                if turn.parts.contains(flange) && !before.parts.contains(flange) {
                    begun[slot] = now.at(seam_y[slot]);
                }
            }
            if !turn.follows {
                share_out_sweep(effects, before.section.i_y_mm4 / joined.section.i_y_mm4);
            }
        }
        // a section that is warm all over before it is welded is longer, not strained: what the welds add makes it yield
        warmest_k = warmest_k.max(tendon::mean_rise_k(turn.heat_j_per_mm, joined.section.area_mm2));
        // jobs side by side lay heat at the same orders
        if turn.heat_j_per_mm.nth(0) > 0.0 {
            pulls.lay(place, order, turn, &joined, effects);
        }
    }
    let flat = sum(effects);
    let left = ripple(place, &joined, &flat, effects);
    let edges = [left.at(seam_y[0]), left.at(seam_y[1])];
    let flange = |slot: usize, seam| {
        let there = joined.parts.contains(Parts::flange(seam));
        if there { edges[slot] - begun[slot] } else { N::default() }
    };
    Here {
        warmest_k,
        capped: pulls.capped(),
        centroid_mm: joined.section.centroid_mm,
        flat,
        left,
        lines: [edges[0], edges[1], flange(0, Seam::Outer), place.cos * flange(1, Seam::Inner)],
    }
}

/// A flange clamped straight on a swept member shares the earlier curvature between old and new stiffness.
#[cfg_attr(wide, inline(always))]
fn share_out_sweep<N: Number>(effects: &mut [Effect<N>], kept: N) {
    for effect in effects {
        effect.real.lateral *= kept;
        effect.unit.lateral *= kept;
    }
}

/// Lets the web ripple if it does: the rest shortens and bends more. Returns the strain that is left.
#[cfg_attr(wide, inline(always))]
fn ripple<N: Number>(
    place: &Place<'_, N>,
    joined: &Joined<N>,
    flat: &Plane<N>,
    effects: &mut [Effect<N>],
) -> Plane<N> {
    let mut left = *flat;
    let web_mm = place.span().plates.web_mm;
    if let Some(buckled) =
        web_ripple::buckled(&joined.section, web_mm, place.depth_mm, flat, place.plan.e_mpa)
    {
        buckled.softening.soften(&mut left);
        for effect in effects.iter_mut() {
            buckled.softening.soften(&mut effect.real);
            buckled.softening.soften(&mut effect.unit);
        }
    }
    left
}
