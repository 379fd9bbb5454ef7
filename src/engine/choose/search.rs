//! The search: every way with every procedure, leg, speed and wait on a grid, screened on all cores; then a climb from
//! the best, leg by leg and speed by speed, in the shop's own steps. Climbs meet: a candidate is predicted once.

use super::book::{Entry, speed_step_mm_s};
use super::candidate::{Candidate, SearchSpace, Trip};
use super::constraints::Objective;
use super::known::{Known, Scored};
use super::local_search::local_search;
use super::requirement::Stretch;
use super::scheme::Scheme;
use super::score::{Rank, before, screened};
use crate::prediction::Job;
use rayon::prelude::*;
use std::collections::HashSet;

/// Speeds tried in a window: its ends and so many more between, most first; fewer if there are too many candidates.
const SPEEDS: [usize; 3] = [3, 2, 1];
/// Climbs start from so many of the best, for each objective.
const STARTS: usize = 6;

/// What the search brings back.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Found {
    /// Everything screened and climbed through, the grid first.
    pub all: Vec<Scored>,
    /// Candidates of the grid.
    pub grid: usize,
}

/// Searches for every objective.
pub fn search(ground: &SearchSpace<'_>) -> Found {
    search_for(ground, &Objective::ALL)
}

/// Searches for some objectives only.
pub(crate) fn search_for(ground: &SearchSpace<'_>, objectives: &[Objective]) -> Found {
    let base = base(ground.job);
    let grid = grid(ground);
    let mut all: Vec<Scored> = screen(ground, &grid, &base);
    let known = Known::of(&all);
    let mut there: HashSet<Vec<u64>> = all.iter().map(|s| s.candidate.bits()).collect();
    for objective in objectives {
        let starts = best(&all, *objective, ground.wishes.confidence, STARTS);
        let bettered: Vec<Vec<Scored>> = starts
            .into_par_iter()
            .map_init(|| base.clone(), |job, start| local_search(ground, start, *objective, &known, job))
            .collect();
        // in the order of the climbs, whichever thread met a candidate first
        all.extend(bettered.into_iter().flatten().filter(|s| there.insert(s.candidate.bits())));
    }
    Found { all, grid: grid.len() }
}

/// The job without what only weighs it down while it is predicted many times.
pub fn base(job: &Job) -> Job {
    Job { carries: None, notes: Vec::new(), title: String::new(), ..job.clone() }
}

/// Scores candidates on all cores; those that cannot be laid are left out. The order is that of the candidates.
pub fn screen(ground: &SearchSpace<'_>, candidates: &[Candidate], base: &Job) -> Vec<Scored> {
    candidates
        .par_iter()
        .map_init(
            || base.clone(),
            |job, candidate| {
                let score = screened(ground, candidate, job)?;
                Some(Scored { candidate: candidate.clone(), score })
            },
        )
        .flatten()
        .collect()
}

/// The best few by an objective, best first; equals in the order they came.
pub(crate) fn best(all: &[Scored], objective: Objective, confidence: f64, count: usize) -> Vec<Scored> {
    let mut order: Vec<usize> = (0..all.len()).collect();
    let ranks: Vec<Rank> = all.iter().map(|s| s.score.rank(objective, confidence)).collect();
    order.sort_by(|a, b| before(&ranks[*a], &ranks[*b]).then(a.cmp(b)));
    let mut out: Vec<Scored> = Vec::new();
    for scored in order.into_iter().filter_map(|at| all.get(at)) {
        if out.len() >= count {
            break;
        }
        if out.iter().all(|o| o.candidate != scored.candidate) {
            out.push(scored.clone());
        }
    }
    out
}

/// Every candidate of the grid: as fine as the number wished for allows.
pub fn grid(ground: &SearchSpace<'_>) -> Vec<Candidate> {
    let most = ground.wishes.candidates;
    for skip in 1..=8 {
        for speeds in SPEEDS {
            let count: usize =
                (0..ground.ways.len()).map(|way| of_way(ground, way, skip, speeds).count()).sum();
            if count <= most || (skip == 8 && speeds == 1) {
                return (0..ground.ways.len())
                    .flat_map(|way| of_way(ground, way, skip, speeds).candidates(way))
                    .take(most)
                    .collect();
            }
        }
    }
    Vec::new()
}

/// Variants of each trip of a way, to be combined.
struct Variants {
    /// For each trip: what it may be.
    trips: Vec<Vec<Trip>>,
    /// Whether trips that share leg knobs vary together: then only equal numbers combine.
    tied: bool,
    cold: Vec<bool>,
}

fn of_way(ground: &SearchSpace<'_>, at: usize, skip: usize, speeds: usize) -> Variants {
    let none = Variants { trips: vec![Vec::new()], tied: false, cold: Vec::new() };
    let Some(way) = ground.ways.get(at) else { return none };
    let cold = way.cold(ground.wishes.waits);
    // Trips that share knobs, as the two sides of one seam, are laid alike.
    let tied = way.trips.len() > 2 || way.trips.iter().any(|t| t.len() == 2 && t[0].knob == t[1].knob);
    let per_trip = |trip: usize| variants(ground, way, trip, skip, speeds);
    if !tied {
        return Variants { trips: (0..way.trips.len()).map(per_trip).collect(), tied, cold };
    }
    let both = tied_trips(ground, way, skip, speeds);
    Variants { trips: both, tied, cold }
}

/// Legs worth trying for a knob: from the least any of its stretches needs to the most one takes, every `skip`-th step.
fn legs(ground: &SearchSpace<'_>, way: &Scheme, knob: usize, entry: usize, skip: usize) -> Vec<f64> {
    let Some(entry) = ground.book.entries.get(entry) else { return Vec::new() };
    let lanes = || way.trips.iter().flatten().filter(move |l| l.knob == knob);
    let own: Vec<&Stretch> =
        ground.stretches.iter().filter(|s| lanes().any(|l| super::scheme::welds(l, s))).collect();
    let least = own.iter().map(|s| ground.need_mm(way, s)).fold(f64::INFINITY, f64::min);
    let most = own.iter().map(|s| ground.largest_mm(s, entry)).fold(0.0, f64::max);
    if !least.is_finite() {
        return Vec::new();
    }
    let step = ground.wishes.step_mm * skip as f64;
    let count = ((most - least) / step + 1e-6).floor();
    let leg = |n: usize| ground.wishes.snapped(least + n as f64 * step);
    if count < 0.0 { Vec::new() } else { (0..=count as usize).map(leg).collect() }
}

/// Speeds of a window: both ends and between; the fast end alone if one is asked for.
fn speeds_of((low, high): (f64, f64), count: usize, step: f64) -> Vec<f64> {
    if count < 2 || high - low < step {
        return vec![high];
    }
    let last = (count - 1) as f64;
    let at = |n: usize| ((low + (high - low) * n as f64 / last) / step).round() * step;
    (0..count).map(|n| at(n).clamp(low, high)).collect()
}

fn variants(ground: &SearchSpace<'_>, way: &Scheme, trip: usize, skip: usize, speeds: usize) -> Vec<Trip> {
    let mut out: Vec<Trip> = Vec::new();
    let step = speed_step_mm_s(ground.job.units);
    let own: Vec<usize> = way.trips.get(trip).map_or_else(Vec::new, |t| t.iter().map(|l| l.knob).collect());
    laid(ground, way, (&own[..], skip), |number, entry, legs| {
        let Some(beads) = ground.beads(way, trip, entry, legs) else { return };
        let Some(window) = ground.speeds_mm_s(entry, &beads) else { return };
        for speed_mm_s in speeds_of(window, speeds, step) {
            let made = Trip { entry: number, speed_mm_s, beads: beads.clone() };
            if out.last() != Some(&made) {
                out.push(made);
            }
        }
    });
    out
}

/// Every procedure that may be used with every pick of legs for some knobs, every `skip`-th step.
fn laid(
    ground: &SearchSpace<'_>,
    way: &Scheme,
    (knobs, skip): (&[usize], usize),
    mut then: impl FnMut(usize, &Entry, &[f64]),
) {
    for (number, entry) in ground.book.entries.iter().enumerate().filter(|(_, e)| ground.may_use(e)) {
        let choices: Vec<(usize, Vec<f64>)> =
            knobs.iter().map(|k| (*k, legs(ground, way, *k, number, skip))).collect();
        each(&choices, &mut vec![0.0; way.knobs], &mut |legs| then(number, entry, legs));
    }
}

/// Every pick of one value for each knob; a knob without values is left at nothing.
fn each(choices: &[(usize, Vec<f64>)], picked: &mut Vec<f64>, then: &mut dyn FnMut(&[f64])) {
    let Some(((knob, values), rest)) = choices.split_first() else {
        then(picked);
        return;
    };
    if values.is_empty() {
        each(rest, picked, then);
    }
    for value in values {
        if let Some(slot) = picked.get_mut(*knob) {
            *slot = *value;
        }
        each(rest, picked, then);
    }
}

/// Trips of a way whose knobs are shared: one entry, one set of legs, one place in the window of speeds for all; trip
/// number n of each list belong together.
fn tied_trips(ground: &SearchSpace<'_>, way: &Scheme, skip: usize, speeds: usize) -> Vec<Vec<Trip>> {
    let step = speed_step_mm_s(ground.job.units);
    let mut out: Vec<Vec<Trip>> = vec![Vec::new(); way.trips.len()];
    let knobs: Vec<usize> = (0..way.knobs).collect();
    laid(ground, way, (&knobs[..], skip), |number, entry, legs| {
        let made: Option<Vec<Vec<Trip>>> = (0..way.trips.len())
            .map(|trip| {
                let beads = ground.beads(way, trip, entry, legs)?;
                let window = ground.speeds_mm_s(entry, &beads)?;
                let mut at = speeds_of(window, speeds, step);
                at.resize(speeds, window.1);
                let of = |speed_mm_s| Trip { entry: number, speed_mm_s, beads: beads.clone() };
                Some(at.into_iter().map(of).collect())
            })
            .collect();
        if let Some(made) = made {
            out.iter_mut().zip(made).for_each(|(list, trips)| list.extend(trips));
        }
    });
    out
}

impl Variants {
    fn count(&self) -> usize {
        let lengths = self.trips.iter().map(Vec::len);
        let sets = if self.tied { lengths.min().unwrap_or(0) } else { lengths.product() };
        sets.saturating_mul(self.cold.len())
    }

    fn candidates(&self, way: usize) -> Vec<Candidate> {
        let mut sets: Vec<Vec<Trip>> = Vec::new();
        if self.tied {
            let count = self.trips.iter().map(Vec::len).min().unwrap_or(0);
            sets.extend((0..count).map(|n| self.trips.iter().filter_map(|t| t.get(n).cloned()).collect()));
        } else {
            sets.push(Vec::new());
            for trips in &self.trips {
                sets = sets
                    .iter()
                    .flat_map(|set| trips.iter().map(|t| set.iter().chain([t]).cloned().collect::<Vec<_>>()))
                    .collect();
            }
        }
        let with = |cold: bool| {
            sets.iter().map(move |trips| Candidate { way, trips: trips.clone(), cold }).collect::<Vec<_>>()
        };
        self.cold.iter().flat_map(|cold| with(*cold)).collect()
    }
}
