//! From a candidate of the grid to the best near it: one leg, one bead, one speed at a time, in the shop's steps.

use super::book::speed_step_mm_s;
use super::candidate::{Candidate, SearchSpace};
use super::constraints::Objective;
use super::known::{Known, Scored};
use crate::prediction::Job;

/// Rounds before the climb gives up (a choice; it ends much earlier).
const MOST_ROUNDS: usize = 40;

/// Strides of the speed, in steps of its dial.
const STRIDES: [f64; 6] = [-16.0, -4.0, -1.0, 1.0, 4.0, 16.0];

/// Climbs; everything tried comes back, the top last. Where no single move is better, two at once may be: a camber is balanced by the
/// legs of both seams together.
pub(crate) fn local_search(
    ground: &SearchSpace<'_>,
    start: Scored,
    objective: Objective,
    known: &Known,
    job: &mut Job,
) -> Vec<Scored> {
    let confidence = ground.wishes.confidence;
    let mut top = start;
    let mut tried = Vec::new();
    for _ in 0..MOST_ROUNDS {
        let near = neighbours(ground, &top.candidate);
        let mut best = |candidates: &mut dyn Iterator<Item = Candidate>| {
            let mut better: Option<Scored> = None;
            for candidate in candidates {
                let Some(score) = known.score(ground, &candidate, job) else { continue };
                let scored = Scored { candidate, score };
                if score.better(&better.as_ref().unwrap_or(&top).score, objective, confidence) {
                    better = Some(scored.clone());
                }
                tried.push(scored);
            }
            better
        };
        let one = best(&mut near.iter().cloned());
        let found = if one.is_none() && objective == Objective::BalancedCamber {
            best(&mut near.iter().flat_map(|moved| neighbours(ground, moved)))
        } else {
            one
        };
        match found {
            Some(found) => top = found,
            None => break,
        }
    }
    tried.push(top);
    tried
}

/// Everything one move away.
fn neighbours(ground: &SearchSpace<'_>, from: &Candidate) -> Vec<Candidate> {
    let mut out = Vec::new();
    let Some(way) = ground.ways.get(from.way) else { return out };
    for (t, trip) in from.trips.iter().enumerate() {
        let Some(entry) = ground.book.entries.get(trip.entry) else { continue };
        for (b, bead) in trip.beads.iter().enumerate() {
            for step in [-ground.wishes.step_mm, ground.wishes.step_mm] {
                let moved = |at: usize, leg: f64| {
                    let stretch = ground.stretches.get(at)?;
                    let (need, most) = (ground.need_mm(way, stretch), ground.largest_mm(stretch, entry));
                    let leg = ground.wishes.snapped(leg + step);
                    (leg > need - 1e-6 && leg < most + 1e-6).then_some(leg)
                };
                let mut whole = from.clone();
                let mut any = false;
                for (n, (at, leg)) in bead.legs.iter().enumerate() {
                    let Some(leg) = moved(*at, *leg) else { continue };
                    whole.trips[t].beads[b].legs[n].1 = leg;
                    any = true;
                    if bead.legs.len() > 1 {
                        let mut one = from.clone();
                        one.trips[t].beads[b].legs[n].1 = leg;
                        push(ground, one, t, &mut out);
                    }
                }
                if any {
                    push(ground, whole, t, &mut out);
                }
            }
        }
        for stride in STRIDES {
            let mut moved = from.clone();
            moved.trips[t].speed_mm_s += stride * speed_step_mm_s(ground.job.units);
            push(ground, moved, t, &mut out);
        }
    }
    if way.cold(ground.wishes.waits).contains(&!from.cold) {
        out.push(Candidate { cold: !from.cold, ..from.clone() });
    }
    out
}

/// Keeps a moved candidate if its trip has a speed for all its legs, with the speed nearest to the one it had.
fn push(ground: &SearchSpace<'_>, mut moved: Candidate, t: usize, out: &mut Vec<Candidate>) {
    let Some(trip) = moved.trips.get_mut(t) else { return };
    let Some(entry) = ground.book.entries.get(trip.entry) else { return };
    let Some((low, high)) = ground.speeds_mm_s(entry, &trip.beads) else { return };
    let step = speed_step_mm_s(ground.job.units);
    trip.speed_mm_s = (trip.speed_mm_s.clamp(low, high.max(low)) / step).round() * step;
    out.push(moved);
}
