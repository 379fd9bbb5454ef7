//! One point of the walk: every order laid on the section joined by then, strains carried on one line.

use super::Job;
use super::plan::{Pair, Plan, StageHere};
use crate::bow::{Plane, Pull, Response, ripple};
use crate::member::{Parts, Seam, Section, Span, properties};
use crate::shrinkage::second_side::seam_index;
use crate::shrinkage::tendon;

/// What one pass does at one point.
#[derive(Debug, Clone, Copy, Default)]
pub struct Effect {
    /// Strain it adds.
    pub real: Plane,
    /// Strain by 1 N, and 1 N·mm sideways, along its seam.
    pub unit: Plane,
    /// Its pull at its own seam.
    pub pull: Pull,
    /// Force of a lone first pass by formula, N.
    pub lone_n: f64,
}

/// Where a point lies.
#[derive(Debug, Clone, Copy)]
pub struct Place<'a> {
    /// Job.
    pub job: &'a Job,
    /// Its plan.
    pub plan: &'a Plan,
    /// Number of the span in the plan.
    pub index: usize,
    /// Station, mm.
    pub x_mm: f64,
    /// Clear web depth there, mm.
    pub depth_mm: f64,
    /// Cosine of the inclination of the inner flange.
    pub cos: f64,
}

impl<'a> Place<'a> {
    /// At x, mm, in a span.
    pub fn of(job: &'a Job, plan: &'a Plan, index: usize, x_mm: f64) -> Self {
        let span = &plan.spans[index];
        let cos = 1.0 / (1.0 + span.slope * span.slope).sqrt();
        Self { job, plan, index, x_mm, depth_mm: span.depth_mm(x_mm), cos }
    }

    /// Its span.
    pub fn span(&self) -> &'a Span {
        &self.plan.spans[self.index]
    }

    /// Places of outer and inner seam, mm.
    pub const fn seam_y_mm(&self) -> [f64; 2] {
        [0.0, self.depth_mm]
    }
}

/// The parts joined at a point.
#[derive(Debug, Clone, Copy)]
pub struct Joined {
    /// Which.
    pub parts: Parts,
    /// Their section.
    pub section: Section,
    /// What it does under pulls along outer and inner seam.
    pub response: [Response; 2],
    /// For each seam: its strain by unit force along it and along the other, times −E, 1/mm².
    pub give_per_mm2: [[f64; 2]; 2],
}

impl Joined {
    #[inline]
    fn at(place: &Place<'_>, parts: Parts) -> Self {
        let (span, e_mpa) = (place.span(), place.job.member.steel.e_mpa);
        let section = properties(&span.plates, place.depth_mm, span.slope, parts);
        let seam_y = place.seam_y_mm();
        let response = [
            Response::of(&section, seam_y[0], 1.0, 1.0, e_mpa),
            Response::of(&section, seam_y[1], place.cos, -1.0, e_mpa),
        ];
        let give = |at: usize, by: usize| -e_mpa * response[by].by_one.at(seam_y[at]);
        let give_per_mm2 = [[give(0, 0), give(0, 1)], [give(1, 1), give(1, 0)]];
        Self { parts, section, response, give_per_mm2 }
    }

    /// Lone force of near and far pass of a pair where nothing was laid before, N.
    pub fn lone_n(&self, turn: &StageHere, pair: &Pair, side: crate::welding::Side) -> f64 {
        let give = self.give_per_mm2[seam_index(pair.seam)];
        pair.fillets.lone_n(side, give, tendon::warmth_factor(turn.preheat_k))
    }
}

/// What passes pull with, by formula or from stations.
pub trait Pulls {
    /// Goes to another point.
    fn go_to(&mut self, place: &Place<'_>);
    /// Lays one order of the job, where any heat is laid.
    fn lay(
        &mut self,
        place: &Place<'_>,
        order: usize,
        turn: &StageHere,
        joined: &Joined,
        effects: &mut [Effect],
    );
    /// Whether yield held a force down at this point.
    fn capped(&self) -> bool {
        false
    }
}

/// What the whole sequence leaves at one point.
#[derive(Debug, Clone, Copy)]
pub struct Here {
    /// Largest mean temperature rise, K.
    pub warmest_k: f64,
    /// Whether yield held a force down.
    pub capped: bool,
    /// Centroid of the finished section, mm.
    pub centroid_mm: f64,
    /// Strain while the web was still flat.
    pub flat: Plane,
    /// Strain, − shortens, of outer and inner web edge along x since the first order, and of outer and inner flange along
    /// their own axes since they joined.
    pub lines: [f64; 4],
}

fn sum(effects: &[Effect]) -> Plane {
    effects.iter().fold(Plane::default(), |sum, e| sum.plus(e.real))
}

/// Lays every order at a place and leaves each pass's effect in `effects`.
pub fn lay_all(pulls: &mut impl Pulls, place: &Place<'_>, effects: &mut [Effect]) -> Here {
    let turns = place.plan.turns(place.index);
    let seam_y = place.seam_y_mm();
    let mut joined = Joined::at(place, turns.first().map_or(Parts::ALL, |turn| turn.parts));
    // strain of the member's edge when its flange joined
    let mut begun = [0.0; 2];
    let mut warmest_k: f64 = 0.0;
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
        // an even preheat stretches the whole section and yields none of it
        let rise = tendon::mean_rise_k(turn.heat_j_per_mm, joined.section.area_mm2, 0.0);
        warmest_k = warmest_k.max(rise);
        if turn.heat_j_per_mm > 0.0 {
            pulls.lay(place, order, turn, &joined, effects);
        }
    }
    let flat = sum(effects);
    let left = ripple(place, &joined, effects).unwrap_or(flat);
    let edges = seam_y.map(|y| left.at(y));
    let flange = |slot: usize, seam| {
        let there = joined.parts.contains(Parts::flange(seam));
        if there { edges[slot] - begun[slot] } else { 0.0 }
    };
    Here {
        warmest_k,
        capped: pulls.capped(),
        centroid_mm: joined.section.centroid_mm,
        flat,
        lines: [edges[0], edges[1], flange(0, Seam::Outer), place.cos * flange(1, Seam::Inner)],
    }
}

/// A flange clamped straight on a swept member shares the earlier curvature between old and new stiffness.
fn share_out_sweep(effects: &mut [Effect], kept: f64) {
    for effect in effects {
        effect.real.lateral *= kept;
        effect.unit.lateral *= kept;
    }
}

/// Lets the web ripple if it does: the rest shortens and bends more. Returns the strain that is left.
fn ripple(place: &Place<'_>, joined: &Joined, effects: &mut [Effect]) -> Option<Plane> {
    let (web_mm, e_mpa) = (place.span().plates.web_mm, place.job.member.steel.e_mpa);
    let flat = sum(effects);
    let buckled = ripple::buckled(&joined.section, web_mm, place.depth_mm, &flat, e_mpa)?;
    for effect in effects.iter_mut() {
        buckled.softening.soften(&mut effect.real);
        buckled.softening.soften(&mut effect.unit);
    }
    Some(sum(effects))
}
