//! What each pass adds along the member by the strip model: stations where it is solved, and smooth curves between.
//!
//! A station is the section at one x, welded in the job's whole sequence. Between stations forces and their moments about
//! the seams are interpolated, which vary slowly with depth; strains are then formed with the exact section at every x.
//! A tapered stretch starts with its two ends. The middle is solved too and compared with the straight line between them:
//! if it lies near enough the three make a parabola, else both halves go on. A level stretch needs one station.

use crate::bow::Pull;
use crate::joint_solver::{SectionError, SectionSteel, ThermalTable, USUAL_SPEED_MM_S};
use crate::member::{Seam, Section, Span, properties};
use crate::prediction::Job;
use crate::prediction::alike::covers;
use crate::prediction::plan::WalkPlan;
use crate::strip::{
    StageOutcome, StripBead, StripEffort, StripJob, StripOutcome, StripSection, StripSettings, StripStage,
    weld,
};
use crate::welding::{FlangeFit, Pass, Side, Wait};
use rayon::prelude::*;

/// Distance of a station from the line between its neighbours, relative to the largest force, at which they suffice
/// (choice: the parabola through all three leaves a small part of it).
pub(crate) const NEAR_ENOUGH: f64 = 0.01;
/// Times a stretch is halved at most.
const MOST_HALVINGS: u32 = 5;
/// How much hotter a side is made to see what it does sideways, relative (choice).
const HOTTER: f64 = 0.05;
/// A slope smaller than this is level.
const LEVEL: f64 = 1e-9;
/// Temperature of a cold shop, °C.
const COLD_C: f64 = 20.0;

/// Why the strip model has no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("strip model at x = {x_mm:.0} mm, passes counted by step: {cause}")]
pub struct StripFailure {
    /// Station, mm.
    pub x_mm: f64,
    /// What went wrong; passes are counted as orders.
    pub cause: SectionError,
}

/// What one pass adds at the outer and the inner seam.
pub(super) type Added = [Pull; 2];

/// All stations of a member.
#[derive(Debug, Clone)]
pub(super) struct Stations {
    /// For each span its panels: three stations each, or one.
    spans: Vec<Vec<Panel>>,
    /// Sections solved.
    pub count: usize,
    /// Largest distance of a station from the line between its neighbours, relative to the largest force.
    pub(crate) gap: f64,
    /// Largest error of the heat balance, relative.
    pub energy_balance: f64,
    /// What all of it took.
    pub effort: StripEffort,
    /// Worst melting by seam: of the flange, and of the web above the fillet.
    pub melted: [[WorstMelt; 2]; 2],
}

/// Where a plate melts through most nearly.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(crate) struct WorstMelt {
    /// Place along the member, mm.
    pub x_mm: f64,
    /// Molten part of its thickness.
    pub share: f64,
    /// Its thickness, mm.
    pub thickness_mm: f64,
}

impl WorstMelt {
    /// The worse of two; of two alike this one.
    fn or(self, other: Self) -> Self {
        if other.share > self.share { other } else { self }
    }
}

#[derive(Debug, Clone)]
struct Node {
    x_mm: f64,
    added: Vec<Added>,
    /// For each order what the parts joined before it still have to pull as they cool, if a flange joins with it, about the outer web edge.
    cools: Vec<Pull>,
}

#[derive(Debug, Clone)]
struct Panel(Vec<Node>);

struct Solved {
    job: StripJob,
    outcome: StripOutcome,
    /// Whether it is a station's own section, not its hotter kin.
    asked: bool,
}

struct Solver<'a> {
    job: &'a Job,
    plan: &'a WalkPlan,
    settings: StripSettings,
    table: ThermalTable,
    solved: Vec<Solved>,
    melted: [[WorstMelt; 2]; 2],
}

impl Stations {
    /// Solves as many stations as the member needs.
    ///
    /// # Errors
    /// [`StripFailure`] of the first station, along the member, that has no answer.
    pub(crate) fn solve(job: &Job, plan: &WalkPlan, settings: StripSettings) -> Result<Self, StripFailure> {
        let (table, melted) = (ThermalTable::steel(), Default::default());
        let mut solver = Solver { job, plan, settings, table, solved: vec![], melted };
        let mut spans: Vec<Vec<Panel>> = vec![vec![]; plan.spans.len()];
        let (mut first, mut ends) = (vec![], vec![]);
        for (index, span) in plan.spans.iter().enumerate().filter(|(_, span)| welded(job, span)) {
            if span.slope.abs() < LEVEL {
                first.push((index, span.middle_mm()));
            } else {
                ends.extend([(index, span.from_mm), (index, span.to_mm)]);
            }
        }
        for ((index, _), node) in first.iter().zip(solver.nodes(&first)?) {
            spans[*index].push(Panel(vec![node]));
        }
        let nodes = solver.nodes(&ends)?;
        let mut open: Vec<(usize, Node, Node)> = vec![];
        for (place, pair) in ends.chunks_exact(2).zip(nodes.chunks_exact(2)) {
            open.push((place[0].0, pair[0].clone(), pair[1].clone()));
        }
        let mut gap: f64 = 0.0;
        for halving in 0..=MOST_HALVINGS {
            let middles: Vec<(usize, f64)> =
                open.iter().map(|(index, a, b)| (*index, 0.5 * (a.x_mm + b.x_mm))).collect();
            let nodes = solver.nodes(&middles)?;
            for ((index, a, b), middle) in std::mem::take(&mut open).into_iter().zip(nodes) {
                let off = off_line(&a, &middle, &b, plan.spans[index].depth_mm(middle.x_mm));
                if off <= NEAR_ENOUGH || halving == MOST_HALVINGS {
                    gap = gap.max(off);
                    spans[index].push(Panel(vec![a, middle, b]));
                } else {
                    open.extend([(index, a, middle.clone()), (index, middle, b)]);
                }
            }
        }
        for panels in &mut spans {
            panels.sort_by(|a, b| a.0[0].x_mm.total_cmp(&b.0[0].x_mm));
        }
        let turns = || solver.solved.iter().flat_map(|s| &s.outcome.turns);
        Ok(Self {
            spans,
            count: solver.solved.iter().filter(|s| s.asked).count(),
            gap,
            energy_balance: turns().map(|t| t.energy_balance.abs()).fold(0.0, f64::max),
            effort: solver.solved.iter().fold(StripEffort::default(), |sum, s| sum.plus(s.outcome.effort)),
            melted: solver.melted,
        })
    }

    /// What each pass of the job adds at x, mm, in that span.
    pub(super) fn at(&self, span: usize, x_mm: f64, passes: usize) -> Vec<Added> {
        let nodes = self.beside(span, x_mm);
        (0..passes)
            .map(|pass| [0, 1].map(|seam: usize| through(&nodes, |node| node.added[pass][seam])))
            .collect()
    }

    /// What the parts joined before an order still have to pull as they cool, if a flange joins with it, about the outer web edge.
    pub(super) fn cools(&self, span: usize, x_mm: f64, order: usize) -> Pull {
        through(&self.beside(span, x_mm), |node| node.cools.get(order).copied().unwrap_or_default())
    }

    /// The nodes beside x, mm, with what each counts on the parabola through them; none where nothing is welded.
    fn beside(&self, span: usize, x_mm: f64) -> Vec<(&Node, f64)> {
        let panels = self.spans.get(span).map(Vec::as_slice).unwrap_or_default();
        let reaches = |panel: &&Panel| panel.0.last().is_some_and(|node| x_mm <= node.x_mm);
        let Some(Panel(nodes)) = panels.iter().find(reaches).or(panels.last()) else { return Vec::new() };
        let weight = |k: usize| -> f64 {
            let others = nodes.iter().enumerate().filter(|(other, _)| *other != k);
            others.map(|(_, node)| (x_mm - node.x_mm) / (nodes[k].x_mm - node.x_mm)).product()
        };
        nodes.iter().enumerate().map(|(k, node)| (node, weight(k))).collect()
    }
}

/// A pull between nodes.
fn through(nodes: &[(&Node, f64)], of: impl Fn(&Node) -> Pull) -> Pull {
    nodes.iter().map(|(node, weight)| of(node).times(*weight)).fold(Pull::default(), Pull::plus)
}

impl Solver<'_> {
    /// Solves stations (span, x): equal sections once, different ones side by side, always in the same order.
    fn nodes(&mut self, places: &[(usize, f64)]) -> Result<Vec<Node>, StripFailure> {
        let jobs: Vec<Vec<StripJob>> = places
            .iter()
            .map(|(span, x)| {
                let job = strip_job(self.job, &self.plan.spans[*span], *x, self.settings);
                let hotter: Vec<StripJob> = (0..job.turns.len()).filter_map(|t| hotter(&job, t)).collect();
                std::iter::once(job).chain(hotter).collect()
            })
            .collect();
        let mut fresh: Vec<(usize, bool, &StripJob)> = vec![];
        for (place, jobs) in jobs.iter().enumerate() {
            for (k, job) in jobs.iter().enumerate() {
                if self.find(job).is_none() && fresh.iter().all(|(_, _, other)| *other != job) {
                    fresh.push((place, k == 0, job));
                }
            }
        }
        let outcomes: Vec<_> = fresh.par_iter().map(|(_, _, job)| weld(job, &self.table)).collect();
        for ((place, asked, job), outcome) in fresh.into_iter().zip(outcomes) {
            let outcome = outcome.map_err(|cause| StripFailure { x_mm: places[place].1, cause })?;
            self.solved.push(Solved { job: job.clone(), outcome, asked });
        }
        let mut nodes = Vec::with_capacity(places.len());
        for ((span, x_mm), jobs) in places.iter().zip(&jobs) {
            let outcomes: Vec<StripOutcome> = jobs
                .iter()
                .filter_map(|job| self.find(job))
                .map(|k| self.solved[k].outcome.clone())
                .collect();
            let added = added(self.job, &self.plan.spans[*span], &jobs[0], &outcomes);
            let melted = outcomes.first().map(|o| o.melted).unwrap_or_default();
            let plates = &self.plan.spans[*span].plates;
            for ((seam, worst), here) in Seam::BOTH.into_iter().zip(&mut self.melted).zip(melted) {
                let at = |share, thickness_mm| WorstMelt { x_mm: *x_mm, share, thickness_mm };
                let flange_mm = plates.flange_mm(seam).1;
                let [flange, web] = *worst;
                *worst = [
                    flange.or(at(here.flange_mm / flange_mm, flange_mm)),
                    web.or(at(here.web_share, plates.web_mm)),
                ];
            }
            let cools = outcomes
                .first()
                .map_or_else(Vec::new, |outcome| cools(self.job, &self.plan.spans[*span], *x_mm, outcome));
            nodes.push(Node { x_mm: *x_mm, added, cools });
        }
        Ok(nodes)
    }

    fn find(&self, job: &StripJob) -> Option<usize> {
        self.solved.iter().position(|solved| solved.job == *job)
    }
}

/// Whether any pass runs along a span.
fn welded(job: &Job, span: &Span) -> bool {
    job.passes.iter().any(|p| covers(p, span.middle_mm()))
}

/// The section at x with everything the job lays there.
fn strip_job(job: &Job, span: &Span, x_mm: f64, settings: StripSettings) -> StripJob {
    let here = |pass: &&Pass| covers(pass, span.middle_mm());
    let turn = |order: &crate::welding::WeldingOrder| {
        let passes = || job.passes.iter().filter(here).filter(|p| p.order == order.number);
        StripStage {
            joined: order.joined,
            follows: order.fit == FlangeFit::Follows,
            wait_s: match order.wait {
                Wait::Cold => None,
                Wait::Seconds(s) => Some(s),
            },
            preheat_c: COLD_C + passes().map(|p| p.preheat_k).fold(0.0, f64::max),
            beads: passes()
                .map(|p| StripBead {
                    seam: p.seam,
                    side: p.side,
                    leg_mm: p.leg_mm,
                    heat_j_per_mm: p.heat_j_per_mm,
                    travel_speed_mm_s: p.travel_speed_mm_s.unwrap_or(USUAL_SPEED_MM_S),
                })
                .collect(),
        }
    };
    let steel =
        SectionSteel { e_mpa: job.member.steel.e_mpa, ..SectionSteel::hot(job.member.steel.yield_mpa) };
    let section = StripSection::of_plates(&span.plates, span.depth_mm(x_mm));
    StripJob::new(section, steel, job.orders.iter().map(turn).collect(), settings)
}

/// Whether a turn welds a seam from both sides.
fn both_sides(turn: &StripStage, seam: Seam) -> bool {
    let laid = |side| turn.beads.iter().any(|b| b.seam == seam && b.side == side);
    laid(Side::Near) && laid(Side::Far)
}

/// The same job with the near beads of one turn hotter, if that turn welds a seam from both sides: of two sides at once only
/// their difference shows sideways, so what one of them does has to be asked for.
fn hotter(job: &StripJob, turn: usize) -> Option<StripJob> {
    let asked = Seam::BOTH.into_iter().any(|seam| both_sides(&job.turns[turn], seam));
    asked.then(|| {
        let mut job = job.clone();
        for bead in job.turns[turn].beads.iter_mut().filter(|b| b.side == Side::Near) {
            bead.heat_j_per_mm *= 1.0 + HOTTER;
        }
        job
    })
}

/// What each pass of the job adds: what its turn changes at each seam, shared by heat among the passes of that seam, or
/// among all if none is there. Of two sides at once each has beside its share the sideways moment that its own heat moves.
/// `outcomes` are those of the job and of its hotter kin, turn by turn.
fn added(job: &Job, span: &Span, asked: &StripJob, outcomes: &[StripOutcome]) -> Vec<Added> {
    let mut all = vec![Added::default(); job.passes.len()];
    let Some((outcome, mut kin)) = outcomes.split_first().map(|(first, rest)| (first, rest.iter())) else {
        return all;
    };
    for (turn, order) in job.orders.iter().enumerate() {
        let now: Vec<(usize, &Pass)> = job
            .passes
            .iter()
            .enumerate()
            .filter(|(_, p)| p.order == order.number && covers(p, span.middle_mm()))
            .collect();
        let hotter = asked.turns.get(turn).filter(|t| Seam::BOTH.into_iter().any(|s| both_sides(t, s)));
        let hotter = hotter.and_then(|t| Some((t, kin.next()?)));
        for (slot, seam) in Seam::BOTH.into_iter().enumerate() {
            let at_seam = now.iter().any(|(_, p)| p.seam == seam);
            let pull = outcome.added(turn, seam);
            let taking = || now.iter().filter(|(_, p)| !at_seam || p.seam == seam);
            let heat: f64 = taking().map(|(_, p)| p.heat_j_per_mm).sum();
            let near: f64 =
                taking().filter(|(_, p)| p.side == Side::Near).map(|(_, p)| p.heat_j_per_mm).sum();
            let moved = hotter.filter(|(t, _)| both_sides(t, seam)).map_or(0.0, |(_, kin)| {
                let moved = kin.added(turn, seam).near_n_mm - pull.near_n_mm;
                moved / HOTTER - near / heat * pull.near_n_mm
            });
            for (index, pass) in taking() {
                let mut own = pull.times(pass.heat_j_per_mm / heat);
                own.near_n_mm += pass.side.sign() * moved;
                let own =
                    own.times(pass.welded_fraction() * pass.force_factor * job.factors.of_seam(pass.seam));
                let before: f64 = all.iter().map(|added| added[slot].near_n_mm).sum();
                let near_n_mm = own.near_n_mm * job.factors.arm;
                let taken = if before * near_n_mm < 0.0 { near_n_mm.abs().min(before.abs()) } else { 0.0 };
                let more = (job.takes_back(pass, span.middle_mm()) - 1.0) * taken.copysign(near_n_mm);
                all[*index][slot] = Pull { near_n_mm: near_n_mm + more, ..own };
            }
        }
    }
    all
}

/// What bends the parts joined before each order, at x, back from how the heat left in them has them when a flange joins.
fn cools(job: &Job, span: &Span, x_mm: f64, outcome: &StripOutcome) -> Vec<Pull> {
    let e_mpa = job.member.steel.e_mpa;
    let of = |(order, turn): (usize, &StageOutcome)| {
        let [edge, across, up] = turn.joined_warm;
        let parts = job.orders[order.saturating_sub(1)].joined;
        let Section { area_mm2, centroid_mm, i_z_mm4, i_y_mm4 } =
            properties(&span.plates, span.depth_mm(x_mm), span.slope, parts);
        let force_n = e_mpa * area_mm2 * (edge + up * centroid_mm);
        Pull {
            force_n,
            up_n_mm: force_n * centroid_mm + e_mpa * i_z_mm4 * up,
            near_n_mm: e_mpa * i_y_mm4 * across,
        }
    };
    outcome.turns.iter().enumerate().map(of).collect()
}

/// How far a station lies from the line between its neighbours, relative to the largest force and the largest sideways
/// moment there.
fn off_line(a: &Node, middle: &Node, b: &Node, depth_mm: f64) -> f64 {
    let pulls = |node: &Node| -> Vec<Pull> { node.added.iter().flatten().copied().collect() };
    let (a, m, b) = (pulls(a), pulls(middle), pulls(b));
    let most = |f: fn(&Pull) -> f64| m.iter().map(|p| f(p).abs()).fold(f64::MIN_POSITIVE, f64::max);
    let (force, near) = (most(|p| p.force_n), most(|p| p.near_n_mm));
    let miss = |k: usize| {
        let off = m[k].less(a[k].plus(b[k]).times(0.5));
        let along = (off.force_n / force).abs().max((off.up_n_mm / (force * depth_mm / 2.0)).abs());
        along.max((off.near_n_mm / near).abs())
    };
    (0..m.len()).map(miss).fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::WorstMelt;

    #[test]
    fn the_plate_that_is_nearly_through_counts_not_the_deeper_pool() {
        let at = |x_mm, share, thickness_mm| WorstMelt { x_mm, share, thickness_mm };
        let (thin, thick) = (at(1e3, 3.8 / 4.0, 4.0), at(2e3, 4.5 / 12.0, 12.0));
        assert_eq!([thin.or(thick), thick.or(thin)], [thin; 2]);
    }
}
