//! One set of legs, procedures and speeds, and the passes it makes.

use super::book::{ArcSetting, Costs, Entry, speed_step_mm_s};
use super::requirement::{Requirement, Stretch};
use super::scheme::{Scheme, on_both_sides, ways, welds};
use super::{Book, Constraints};
use crate::angular::cup::hot_through;
use crate::prediction::{Job, may_burn_through, stitch_rule_of};
use crate::shrinkage::tendon::heat_parameter;
use crate::steel::DENSITY_KG_PER_MM3;
use crate::strength::{Deposited, SAME_LEG_MM, SHOP_WARM_C, Warmth, largest_pass};
use crate::welding::{FlangeFit, HeatSource, Pass, Wait, WeldingOrder};

/// Everything a candidate is made from.
pub struct SearchSpace<'a> {
    /// The job without its passes.
    pub job: &'a Job,
    /// Shop book.
    pub book: &'a Book,
    /// Stretches with their needs.
    pub stretches: &'a [Stretch],
    /// What the user asks.
    pub wishes: &'a Constraints,
    /// Ways.
    pub ways: Vec<Scheme>,
}

/// Legs of one bead, stretch by stretch of its seam.
#[derive(Debug, Clone, PartialEq)]
pub struct BeadLegs {
    /// (number of the stretch, leg mm).
    pub legs: Vec<(usize, f64)>,
}

/// One trip through the line.
#[derive(Debug, Clone, PartialEq)]
pub struct Trip {
    /// Number of the entry in the book.
    pub entry: usize,
    /// Travel speed of all its beads, mm/s.
    pub speed_mm_s: f64,
    /// Beads, as the way has its lanes.
    pub beads: Vec<BeadLegs>,
}

/// One candidate.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// Number of the way.
    pub way: usize,
    /// Trips.
    pub trips: Vec<Trip>,
    /// Whether to wait until cold between trips.
    pub cold: bool,
}

/// Time, metal and money of a candidate.
#[derive(Debug, Clone, Copy, PartialEq, Default, serde::Serialize)]
pub struct CandidateCost {
    /// The arc burns, s.
    pub arc_s: f64,
    /// The member is on the line, with handling and waiting, s.
    pub line_s: f64,
    /// Of that it lies until it is cold, s.
    pub cold_s: f64,
    /// What it costs in the shop's money: crew and place, waiting, and what a kilogram of weld metal uses up.
    pub cost: f64,
    /// The same as time of crew and place, s; the money itself where an hour costs nothing.
    #[serde(skip)]
    pub crew_s: f64,
    /// Deposit, kg.
    pub deposit_kg: f64,
    /// Settings to make: one for every pass, one more for every procedure.
    pub settings: u32,
    /// Waits until cold.
    pub waits: u32,
    /// Changes of setting while the arc burns, of speed between trips of one procedure, and of procedure.
    pub changes: u32,
    /// How near the settings come to the edge of what is qualified: 0 in the middle of every range, 1 on an edge.
    pub edge: f64,
    /// Whether a plate gets so much heat that it may burn through.
    #[serde(skip)]
    pub burns: bool,
}

impl CandidateCost {
    /// With its money.
    pub(crate) fn priced(self, costs: &Costs) -> Self {
        let hours = |s: f64| s / 3600.0;
        let crew = costs.per_hour * hours(self.line_s - self.cold_s);
        let cost = crew + costs.waiting_per_hour * hours(self.cold_s) + costs.per_kg * self.deposit_kg;
        let crew_s = if costs.per_hour > 0.0 { 3600.0 * cost / costs.per_hour } else { cost };
        Self { cost, crew_s, ..self }
    }
}

/// What a change of setting in a trip costs beside the line, s (a choice: a crater, a grind, a look).
pub(crate) const CHANGE_S: f64 = 60.0;
/// What a change of procedure between trips costs, s (a choice: wire, flux, contact tips).
pub(crate) const PROCEDURE_S: f64 = 900.0;

impl<'a> SearchSpace<'a> {
    /// With all ways there are.
    pub fn new(job: &'a Job, book: &'a Book, stretches: &'a [Stretch], wishes: &'a Constraints) -> Self {
        Self { job, book, stretches, wishes, ways: ways(&book.line, stretches, wishes) }
    }

    /// Thickest plate of any seam, mm.
    pub(crate) fn thickest_mm(&self) -> f64 {
        self.stretches.iter().map(|s| s.flange_mm.max(s.web_mm)).fold(0.0, f64::max)
    }

    /// How warm the steel must be for a procedure.
    pub(crate) fn preheat(&self, entry: &Entry) -> Warmth {
        let weld = Deposited {
            process: entry.process,
            hydrogen_ml_per_100_g: entry.hydrogen_ml_per_100_g,
            heat_kj_per_mm: entry.least_heat_kj_per_mm(),
        };
        self.job.warmth(&weld, self.thickest_mm())
    }

    /// Whether a procedure is as warm as its process, the steel and the thickest plate ask for; a warm shop counts.
    pub(crate) fn warm_enough(&self, entry: &Entry) -> bool {
        self.preheat(entry).holds(entry.preheat_c)
    }

    /// Whether a procedure may be used: named by the user, or any; as warm as it must be; and preheated only where the table asks
    /// for anything, unless it is named.
    pub fn may_use(&self, entry: &Entry) -> bool {
        let named = self.wishes.only.contains(&entry.name);
        let wished = self.wishes.only.is_empty() || named;
        let warm = entry.preheat_c > SHOP_WARM_C;
        wished && self.warm_enough(entry) && (!warm || named || self.preheat(entry).least_c > 0.0)
    }

    /// What a stretch needs of each side in a way.
    pub fn requirement<'s>(&self, way: &Scheme, stretch: &'s Stretch) -> &'s Requirement {
        if on_both_sides(way, stretch) { &stretch.two } else { stretch.one.as_ref().unwrap_or(&stretch.two) }
    }

    /// Leg that a stretch needs of each side in a way, in the shop's steps, mm: stitches carry with what the code leaves of them.
    pub(crate) fn need_mm(&self, way: &Scheme, stretch: &Stretch) -> f64 {
        let need = self.requirement(way, stretch);
        let strength_mm = stitch_rule_of(self.job).stitched_leg_mm(way.stitch.as_ref(), need.strength_mm);
        need.leg_mm.max(self.wishes.step_up(strength_mm))
    }

    /// Largest leg of a stretch with an entry, mm.
    pub fn largest_mm(&self, stretch: &Stretch, entry: &Entry) -> f64 {
        let pass =
            largest_pass(entry.process, entry.position, 1).map_or(f64::INFINITY, |p| p.leg_mm + SAME_LEG_MM);
        let most = stretch.largest_mm.min(entry.leg_mm.1).min(pass);
        self.wishes.step_down(most)
    }

    /// Beads of a trip where every lane has that leg, or more where a stretch needs it; `None` if plates or entry do
    /// not take it.
    pub(crate) fn beads(
        &self,
        way: &Scheme,
        trip: usize,
        entry: &Entry,
        legs_mm: &[f64],
    ) -> Option<Vec<BeadLegs>> {
        let lanes = way.trips.get(trip)?;
        lanes
            .iter()
            .map(|lane| {
                let base = *legs_mm.get(lane.knob)?;
                let own = self.stretches.iter().enumerate().filter(|(_, s)| welds(lane, s));
                let legs: Option<Vec<(usize, f64)>> = own
                    .map(|(at, s)| {
                        let need = self.need_mm(way, s);
                        let most = self.largest_mm(s, entry);
                        (need <= most + 1e-9).then(|| (at, base.min(most).max(need)))
                    })
                    .collect();
                legs.map(|legs| BeadLegs { legs })
            })
            .collect()
    }

    /// Speeds at which a trip fills all its legs, mm/s.
    pub fn speeds_mm_s(&self, entry: &Entry, beads: &[BeadLegs]) -> Option<(f64, f64)> {
        let (mut low, mut high) = self.book.line.speed_mm_s;
        for (_, leg) in beads.iter().flat_map(|b| &b.legs) {
            let (slow, fast) = entry.speeds_within(*leg, self.job.fit_up_gap_mm, self.wishes.margin)?;
            low = low.max(slow);
            high = high.min(fast);
        }
        let step = speed_step_mm_s(self.job.units);
        let (low, high) = ((low / step - 1e-6).ceil() * step, (high / step + 1e-6).floor() * step);
        (low <= high + 1e-9).then_some((low, high))
    }

    /// Whether a pass could be laid one step smaller, alone or with all the larger legs of its trip, at some speed.
    pub(crate) fn lays_less(&self, candidate: &Candidate, pass: &Pass) -> bool {
        let Some(trip) = candidate.trips.get((pass.order as usize).wrapping_sub(1)) else { return false };
        let Some(entry) = self.book.entries.get(trip.entry) else { return false };
        let less = |legs: &mut (usize, f64), only: bool| {
            let own = self
                .stretches
                .get(legs.0)
                .is_some_and(|s| s.seam == pass.seam && s.from_mm < pass.to_mm && s.to_mm > pass.from_mm);
            if legs.1 >= pass.leg_mm - 1e-6 && (own || !only) {
                legs.1 -= self.wishes.step_mm;
            }
        };
        [true, false].into_iter().any(|only| {
            let mut beads = trip.beads.clone();
            beads.iter_mut().flat_map(|b| &mut b.legs).for_each(|legs| less(legs, only));
            self.speeds_mm_s(entry, &beads).is_some()
        })
    }

    /// Setting of one leg in a trip.
    pub fn setting(&self, trip: &Trip, leg_mm: f64) -> Option<ArcSetting> {
        self.book.entries.get(trip.entry)?.setting(leg_mm, self.job.fit_up_gap_mm, trip.speed_mm_s)
    }

    /// Passes and orders of a candidate, put into a job with what a record of the shop's pieces says of such passes; `None` if a setting
    /// is outside its ranges, or a leg larger than needed would heat its flange through.
    pub fn lay(&self, candidate: &Candidate, job: &mut Job) -> Option<CandidateCost> {
        let way = self.ways.get(candidate.way)?;
        let line = &self.book.line;
        let mut effort = CandidateCost::default();
        job.passes.clear();
        job.orders.clear();
        let mut before_s = 0.0;
        let (fraction, rule) = (way.welded_fraction(), stitch_rule_of(self.job));
        for (number, (trip, lanes)) in candidate.trips.iter().zip(&way.trips).enumerate() {
            let entry = self.book.entries.get(trip.entry)?;
            let order = number as u32 + 1;
            let (mut first, mut last) = (f64::INFINITY, 0.0_f64);
            let from = job.passes.len();
            // stretches of one leg have one setting
            let mut known: Option<(f64, ArcSetting)> = None;
            for (bead, lane) in trip.beads.iter().zip(lanes) {
                for (at, leg_mm) in &bead.legs {
                    let stretch = self.stretches.get(*at)?;
                    let setting = match known {
                        Some((leg, setting)) if leg.to_bits() == leg_mm.to_bits() => setting,
                        _ => entry.setting(*leg_mm, self.job.fit_up_gap_mm, trip.speed_mm_s)?,
                    };
                    known = Some((*leg_mm, setting));
                    if way.stitch.is_some_and(|stitch| rule.too_short(&stitch, *leg_mm)) {
                        return None;
                    }
                    // a flange hot through folds less, and may melt through: more leg than is needed is not the way there
                    let heat_j_per_mm = entry.net_heat_j_per_mm(&setting);
                    let q = heat_parameter(heat_j_per_mm, stretch.flange_mm, stretch.web_mm);
                    let more = *leg_mm > self.need_mm(way, stretch) + 1e-6;
                    if more && hot_through(q, stretch.web_mm, *leg_mm) {
                        return None;
                    }
                    effort.burns |= may_burn_through(q);
                    effort.edge = effort.edge.max(entry.edge(&setting));
                    let deposit_mm2 = entry.deposit_mm2(&setting);
                    first = first.min(stretch.from_mm);
                    last = last.max(stretch.to_mm);
                    let length = stretch.to_mm - stretch.from_mm;
                    effort.deposit_kg += fraction * deposit_mm2 * length * DENSITY_KG_PER_MM3;
                    match job.passes.get_mut(from..).and_then(<[Pass]>::last_mut) {
                        Some(pass) if goes_on(pass, lane.side, stretch, *leg_mm) => {
                            pass.to_mm = stretch.to_mm
                        }
                        _ => job.passes.push(Pass {
                            seam: stretch.seam,
                            side: lane.side,
                            from_mm: stretch.from_mm,
                            to_mm: stretch.to_mm,
                            order,
                            leg_mm: *leg_mm,
                            layers: 1,
                            heat_j_per_mm,
                            heat_source: HeatSource::Procedure,
                            deposit_mm2,
                            stitch: way.stitch,
                            preheat_k: entry.preheat_c - SHOP_WARM_C,
                            force_factor: 1.0,
                            process: entry.process,
                            travel_speed_mm_s: Some(setting.speed_mm_s),
                            wps: entry.wps.clone(),
                        }),
                    }
                }
            }
            if job.passes.len() == from {
                return None;
            }
            job.passes[from..].sort_by(|a, b| {
                let key = |p: &Pass| (p.seam, p.side == crate::welding::Side::Far);
                key(a).cmp(&key(b)).then(a.from_mm.total_cmp(&b.from_mm))
            });
            let other = |t: &Trip| t.entry == trip.entry && (t.speed_mm_s - trip.speed_mm_s).abs() > 1e-9;
            effort.changes += u32::from(candidate.trips.iter().take(number).any(other));
            let lanes_laid = trip.beads.iter().filter(|b| !b.legs.is_empty()).count();
            effort.changes += (job.passes.len() - from).saturating_sub(lanes_laid) as u32;
            // heads pass the gaps between stitches at the same speed
            let travel_s = (last - first) / trip.speed_mm_s;
            let turn_s = if way.turned.get(number) == Some(&true) { line.turn_over_s } else { 0.0 };
            let handling_s = line.run_s + turn_s;
            let lag_s = as_a_clock_shows(handling_s + 0.5 * (before_s + travel_s));
            let wait = if candidate.cold { Wait::Cold } else { Wait::Seconds(lag_s) };
            let wait = if number == 0 { Wait::Cold } else { wait };
            job.orders.push(WeldingOrder {
                number: order,
                joined: way.joined(number),
                wait,
                fit: FlangeFit::Straight,
            });
            effort.arc_s += fraction * travel_s;
            effort.line_s += travel_s + handling_s;
            if number > 0 && candidate.cold {
                effort.line_s += line.cold_s;
                effort.cold_s += line.cold_s;
                effort.waits += 1;
            }
            before_s = travel_s;
        }
        let mut used: Vec<usize> = candidate.trips.iter().map(|t| t.entry).collect();
        used.sort_unstable();
        used.dedup();
        effort.settings = (job.passes.len() + used.len()) as u32;
        effort.line_s += CHANGE_S * f64::from(effort.changes);
        let others = used.len().saturating_sub(1) as u32;
        effort.line_s += PROCEDURE_S * f64::from(others);
        effort.changes += others;
        let entries = candidate.trips.iter().filter_map(|trip| self.book.entries.get(trip.entry));
        job.reconsider(&entries.map(|entry| entry.name.as_str()).collect::<Vec<_>>());
        Some(effort.priced(&self.book.costs))
    }
}

/// A time as somebody reads it off: in seconds up to a minute, in tenths of minutes beyond, s.
fn as_a_clock_shows(s: f64) -> f64 {
    if s < 60.0 { s.round().max(1.0) } else { (s / 6.0).round() * 6.0 }
}

/// Whether a pass simply goes on into the next stretch.
fn goes_on(pass: &Pass, side: crate::welding::Side, stretch: &Stretch, leg_mm: f64) -> bool {
    pass.seam == stretch.seam
        && pass.side == side
        && (pass.to_mm - stretch.from_mm).abs() < 1e-6
        && (pass.leg_mm - leg_mm).abs() < 1e-9
}
