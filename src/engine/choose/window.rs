//! The window of one trip: leg against travel speed, with the border of every rule.

use super::book::{Entry, speed_step_mm_s};
use super::candidate::{Candidate, SearchSpace, Trip};
use super::score::screened;
use super::search::base;
use crate::numerics::halved;
use crate::units::{System, show};
use crate::welding::{fillet, melt};
use serde::Serialize;

/// Speeds at which borders are worked out.
const SPEEDS: usize = 41;

/// The line one rule draws.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Border {
    /// The rule in a few words.
    pub name: String,
    /// Points (speed mm/s, leg mm).
    pub points: Vec<(f64, f64)>,
    /// Whether legs below the line are ruled out, else those above it.
    pub rules_out_below: bool,
}

/// Everything the picture shows.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Window {
    /// Name of the procedure.
    pub procedure: String,
    /// Which run through the line, in words.
    pub run: String,
    /// Slowest and fastest speed shown, mm/s.
    pub speed_mm_s: (f64, f64),
    /// Slowest and fastest speed of line and procedure, mm/s.
    pub qualified_mm_s: (f64, f64),
    /// Smallest and largest leg shown, mm.
    pub leg_mm: (f64, f64),
    /// Borders.
    pub borders: Vec<Border>,
    /// Chosen (speed, leg) of every different leg of the trip.
    pub chosen: Vec<(f64, f64)>,
}

/// The window of a trip of a candidate: one leg for all its beads, everything else as chosen; borders are named in these units.
pub fn window(ground: &SearchSpace<'_>, candidate: &Candidate, trip: usize, units: System) -> Option<Window> {
    let way = ground.ways.get(candidate.way)?;
    let own = candidate.trips.get(trip)?;
    let entry = ground.book.entries.get(own.entry)?;
    let stretches: Vec<usize> = own.beads.iter().flat_map(|b| b.legs.iter().map(|l| l.0)).collect();
    let of = |at: &usize| ground.stretches.get(*at);
    let (line, range) = (ground.book.line.speed_mm_s, entry.speed_mm_s);
    let qualified = (line.0.max(range.0), line.1.min(range.1));
    let shown = (0.75 * qualified.0, 1.15 * qualified.1);
    let needs: Vec<_> = stretches.iter().filter_map(of).map(|s| ground.requirement(way, s)).collect();
    let strength = needs.iter().map(|n| n.strength_mm).fold(0.0, f64::max);
    let minimums = needs.iter().map(|n| n.minimum_mm);
    let (least, most) = minimums.fold((f64::INFINITY, 0.0_f64), |(l, h), m| (l.min(m), h.max(m)));
    let plates = stretches.iter().filter_map(of).map(|s| s.largest_mm).fold(f64::INFINITY, f64::min);
    let level = |mm: f64| vec![(shown.0, mm), (shown.1, mm)];
    let leg = |mm: f64| show::plate(mm, units);
    let mut borders = Vec::new();
    let mut border = |name, points, rules_out_below| borders.push(Border { name, points, rules_out_below });
    border(format!("strength {}", leg(strength)), level(strength), true);
    border(format!("code minimum {}", leg(most)), level(most), true);
    border(format!("plate, 1.2 t, {}", leg(plates)), level(plates), false);
    if most > least + 0.05 {
        border(format!("thinner flange {}", leg(least)), level(least), true);
    }
    let one_pass = crate::strength::largest_pass(entry.process, entry.position, 1);
    if let Some(pass) = one_pass.filter(|p| p.leg_mm < plates) {
        border(format!("one pass {}", leg(pass.leg_mm)), level(pass.leg_mm), false);
    }
    let curve = |current: f64| -> Vec<(f64, f64)> {
        let gap = ground.job.fit_up_gap_mm;
        speeds(shown).map(|v| (v, left_mm(entry, current, v, gap))).collect()
    };
    let (low, high) = entry.current_a;
    border(format!("{low:.0} A"), curve(low), true);
    border(format!("{high:.0} A"), curve(high), false);
    let inside = tolerance(ground, candidate, trip, entry, qualified);
    if inside.len() > 1 {
        border(format!("tolerances, {:.0} %", 100.0 * ground.wishes.confidence), inside, false);
    }
    let mut chosen: Vec<(f64, f64)> =
        own.beads.iter().flat_map(|b| &b.legs).map(|l| (own.speed_mm_s, l.1)).collect();
    chosen.sort_by(|a, b| a.1.total_cmp(&b.1));
    chosen.dedup_by(|a, b| (a.1 - b.1).abs() < 1e-9);
    let largest = chosen.iter().map(|c| c.1).fold(plates, f64::max);
    Some(Window {
        procedure: entry.name.clone(),
        run: if candidate.trips.len() == 1 { String::new() } else { format!("run {}", trip + 1) },
        speed_mm_s: shown,
        qualified_mm_s: qualified,
        leg_mm: (0.0, 1.35 * largest),
        borders,
        chosen,
    })
}

fn speeds((low, high): (f64, f64)) -> impl Iterator<Item = f64> {
    (0..SPEEDS).map(move |n| low + n as f64 / (SPEEDS - 1) as f64 * (high - low))
}

/// Leg that a current lays at a speed (mm/s) over a root gap, mm.
fn left_mm(entry: &Entry, current_a: f64, speed_mm_s: f64, gap_mm: f64) -> f64 {
    let deposit_mm2 = melt::section_mm2(entry.deposition_kg_per_h(current_a), speed_mm_s);
    fillet::leg_left_mm(fillet::leg_of_deposit_mm(deposit_mm2), gap_mm)
}

/// Largest leg, the same all along, that keeps the tolerances at each speed.
fn tolerance(
    ground: &SearchSpace<'_>,
    candidate: &Candidate,
    trip: usize,
    entry: &Entry,
    (low, high): (f64, f64),
) -> Vec<(f64, f64)> {
    let mut job = base(ground.job);
    let gap = ground.job.fit_up_gap_mm;
    let mut held = |speed_mm_s: f64, leg_mm: f64| {
        let mut moved = candidate.clone();
        let Some(own) = moved.trips.get_mut(trip) else { return false };
        *own = Trip { speed_mm_s, ..own.clone() };
        own.beads.iter_mut().flat_map(|b| &mut b.legs).for_each(|l| l.1 = leg_mm);
        screened(ground, &moved, &mut job).is_some_and(|s| s.inside >= ground.wishes.confidence)
    };
    let step = speed_step_mm_s(ground.job.units);
    let mut out = Vec::new();
    for speed in speeds((low, high)) {
        let speed = (speed / step).round() * step;
        let legs = |current| left_mm(entry, current, speed, gap);
        let (small, large) = (legs(entry.current_a.0), legs(entry.current_a.1));
        let (inside, outside) = (small * 1.002, large * 0.998);
        if inside >= outside || held(speed, outside) {
            continue;
        }
        if !held(speed, inside) {
            out.push((speed, small));
            continue;
        }
        let wide = |inside: f64, outside: f64| outside - inside > 0.02;
        out.push((speed, halved([inside, outside], usize::MAX, wide, |leg| held(speed, leg))[0]));
    }
    out
}
