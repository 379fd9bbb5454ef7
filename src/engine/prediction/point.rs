//! One point of the walk: every order laid on the section joined by then, strains carried on one line.

use super::Job;
use super::effects::Effects;
use super::plan::{Pair, StageHere, WalkPlan};
use crate::bow::{Gives, Plane, Response, web_ripple};
use crate::member::{Parts, Seam, Section, Span, inclined};
use crate::numerics::Number;
use crate::shrinkage::second_side::seam_index;
use crate::shrinkage::tendon;

/// Where a point lies.
#[derive(Debug, Clone, Copy)]
pub(super) struct Place<'a, N = f64> {
    /// Job; of several side by side the first.
    pub job: &'a Job,
    /// Its plan.
    pub plan: &'a WalkPlan<N>,
    /// Number of the span in the plan.
    pub index: usize,
    /// The span.
    pub(crate) span: &'a Span<N>,
    /// Its turns, in order.
    pub(crate) turns: &'a [StageHere<N>],
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
        let (span, turns) = (&plan.spans[index], plan.turns(index));
        Self { job, plan, index, span, turns, x_mm, depth_mm: span.depth_mm(x_mm), cos }
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
    /// Those at a place.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn at(place: &Place<'_, N>, parts: Parts) -> Self {
        let e_mpa = place.plan.e_mpa;
        let section = inclined(&place.span.plates, place.depth_mm, place.cos, parts);
        let seam_y = place.seam_y_mm();
        let gives = Gives::of(&section, e_mpa);
        let response =
            [gives.under_pulls(seam_y[0], N::all(1.0), 1.0), gives.under_pulls(seam_y[1], place.cos, -1.0)];
        // the outer seam lies where y is 0
        let outer = |by: usize| -e_mpa * response[by].by_one.at_edge;
        let inner = |by: usize| -e_mpa * response[by].by_one.at(seam_y[1]);
        let give_per_mm2 = [[outer(0), outer(1)], [inner(1), inner(0)]];
        Self { parts, section, response, give_per_mm2 }
    }

    /// Lone force of near and far pass of a pair where nothing was laid before, N.
    pub(crate) fn lone_n(&self, turn: &StageHere<N>, pair: &Pair<N>, side: crate::welding::Side) -> N {
        let give = self.give_per_mm2[seam_index(pair.seam)];
        pair.fillets.lone_n(side, give, tendon::warmth_factor(turn.preheat_k))
    }
}

/// Some substeps of a span, over which a force goes as a cubic.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Panel<'a, N = f64> {
    /// Job; of several side by side the first.
    pub(crate) job: &'a Job,
    /// Its plan.
    pub(crate) plan: &'a WalkPlan<N>,
    /// Number of the span in the plan.
    pub(crate) index: usize,
    /// Cosine of the inclination of the inner flange.
    pub(crate) cos: N,
    /// Its start and its end, mm.
    pub(crate) ends_mm: [N; 2],
    /// How many substeps it has; none where plates and depth stay, so that each point is like the first.
    pub(crate) substeps: usize,
}

impl<'a, N: Number> Panel<'a, N> {
    /// At a part of its length.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn place(&self, at: f64) -> Place<'a, N> {
        let [from, to] = self.ends_mm;
        Place::of(self.job, self.plan, self.index, from + (to - from) * at, self.cos)
    }
}

/// What passes pull with, by formula or from stations.
pub(crate) trait Pulls<N: Number> {
    /// Whether they pull alike at all points of a span in which neither plates nor depth change.
    const ALIKE_ALONG: bool;
    /// Enters another panel.
    fn enter(&mut self, panel: &Panel<'_, N>);
    /// Goes to another point, at that part of the panel.
    fn go_to(&mut self, place: &Place<'_, N>, at: f64);
    /// Lays one order of the job, where any heat is laid.
    fn lay(
        &mut self,
        place: &Place<'_, N>,
        order: usize,
        turn: &StageHere<N>,
        joined: &Joined<N>,
        effects: &mut impl Effects<N>,
    );
    /// Strain of a section so joined by what the passes before an order have still to pull as they cool, when its flange joins.
    fn cools(&self, place: &Place<'_, N>, order: usize, joined: &Joined<N>) -> Plane<N>;
    /// 1 where yield held a force down in this panel, else 0.
    fn capped(&self) -> N;
}

/// What the whole sequence leaves at one point.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Here<N> {
    /// Largest mean temperature rise, K.
    pub(crate) warmest_k: N,
    /// Largest mean temperature rise of the parts there when a flange joins them, K.
    pub(crate) joined_k: N,
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

/// Lays every order at a place, at that part of its panel, and leaves in `effects` what passes do.
#[cfg_attr(wide, inline(always))]
pub(crate) fn lay_all<N: Number>(
    pulls: &mut impl Pulls<N>,
    (place, at): (&Place<'_, N>, f64),
    effects: &mut impl Effects<N>,
) -> Here<N> {
    let turns = place.turns;
    let seam_y = place.seam_y_mm();
    // strain of the member's edge when its flange joined
    let mut begun = [N::default(); 2];
    let (mut warmest_k, mut joined_k) = (N::default(), N::default());
    effects.clear();
    pulls.go_to(place, at);
    let mut order = 0;
    // parts joined before
    let mut before: Option<Joined<N>> = None;
    let joined = loop {
        let parts = turns.get(order).map_or(Parts::ALL, |turn| turn.parts);
        let joined = Joined::at(place, parts);
        if let Some(fewer) = before {
            // what is still warm is longer than it will be, and that is what the flange joins: the doing of the step that joins it, or else of the
            // one before
            let laid = || turns[..=order].iter().rev().find_map(|turn| place.plan.first_pass(turn));
            let step = if place.plan.joins_warm(order) { laid() } else { None };
            if let Some(pass) = step {
                let shortens = pulls.cools(place, order, &fewer);
                joined_k = joined_k.max(-shortens.at(fewer.section.centroid_mm) / tendon::ALPHA);
                effects.add(pass, shortens.times(-1.0));
            }
            let now = effects.sum();
            for (slot, seam) in Seam::BOTH.into_iter().enumerate() {
                let flange = Parts::flange(seam);
                if parts.contains(flange) && !fewer.parts.contains(flange) {
                    begun[slot] = now.at(seam_y[slot]);
                }
            }
            if !turns[order].follows {
                share_out_sweep(effects, fewer.section.i_y_mm4 / joined.section.i_y_mm4);
            }
            if let Some(pass) = step {
                effects.add(pass, pulls.cools(place, order, &joined));
            }
        }
        while let Some(turn) = turns.get(order).filter(|turn| turn.parts == parts) {
            // a section that is warm all over before it is welded is longer, not strained: what the welds add makes it yield
            warmest_k = warmest_k.max(tendon::mean_rise_k(turn.warm_j_per_mm, joined.section.area_mm2));
            // jobs side by side lay heat at the same orders
            if turn.heat_j_per_mm.nth(0) > 0.0 {
                pulls.lay(place, order, turn, &joined, effects);
            }
            order += 1;
        }
        if order >= turns.len() {
            break joined;
        }
        before = Some(joined);
    };
    let flat = effects.sum();
    let left = ripple(place, &joined, &flat, effects);
    let edges = [left.at_edge, left.at(seam_y[1])];
    let flange = |slot: usize, seam| {
        let there = joined.parts.contains(Parts::flange(seam));
        if there { edges[slot] - begun[slot] } else { N::default() }
    };
    Here {
        warmest_k,
        joined_k,
        capped: pulls.capped(),
        centroid_mm: joined.section.centroid_mm,
        flat,
        left,
        lines: [edges[0], edges[1], flange(0, Seam::Outer), place.cos * flange(1, Seam::Inner)],
    }
}

/// A flange clamped straight on a swept member shares the earlier curvature between old and new stiffness.
#[cfg_attr(wide, inline(always))]
fn share_out_sweep<N: Number>(effects: &mut impl Effects<N>, kept: N) {
    effects.change(|strain| strain.lateral *= kept);
}

/// Lets the web ripple if it does: the rest shortens and bends more. Returns the strain that is left.
#[cfg_attr(wide, inline(always))]
fn ripple<N: Number>(
    place: &Place<'_, N>,
    joined: &Joined<N>,
    flat: &Plane<N>,
    effects: &mut impl Effects<N>,
) -> Plane<N> {
    let mut left = *flat;
    let web_mm = place.span.plates.web_mm;
    if let Some(buckled) =
        web_ripple::buckled(&joined.section, web_mm, place.depth_mm, flat, place.plan.e_mpa)
    {
        buckled.softening.soften(&mut left);
        effects.change(|strain| buckled.softening.soften(strain));
    }
    left
}
