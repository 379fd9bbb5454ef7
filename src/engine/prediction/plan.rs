//! What each stretch of member receives, order by order: everything about the passes that does not change inside
//! a span is worked out once here.

use super::Job;
use super::plates::{cut_mpa, edges_at};
use crate::member::{Parts, Seam, Span, spans};
use crate::shrinkage::fillets::{Bead, Fillets, Timeline, after_s};
use crate::shrinkage::second_side::{seam_index, share_warm, side_index};
use crate::shrinkage::source::Legs;
use crate::shrinkage::{lateral_arm, tendon};
use crate::welding::{FlangeFit, Pass};

/// Time in which the heat of one seam stops stretching and bending the section beneath the other, s: a flange in air
/// cools in minutes. Choice, from own strip calculations of seams 1 s to an hour apart.
const EVEN_AFTER_S: f64 = 600.0;

/// The passes of one order at one seam, in one span: near and far.
#[derive(Debug, Clone, Copy)]
pub struct Pair {
    /// Seam.
    pub seam: Seam,
    /// Index of near and far pass in the job.
    pub pass: [Option<usize>; 2],
    /// What they bring, all but the section they meet.
    pub fillets: Fillets,
    /// Flange section, mm².
    pub flange_mm2: f64,
    /// Part of the heat, and so of the force, in the flange.
    pub flange_share: f64,
    /// What hot cutting of the flange's edges left where the fillets are laid, MPa, − presses.
    pub cut_mpa: f64,
}

impl Pair {
    /// Stress in web edge and flange weighted by their parts of the force, MPa, with what the cutting of the flange left.
    pub fn mean_stress(&self, [web, flange]: [f64; 2]) -> f64 {
        (1.0 - self.flange_share) * web + self.flange_share * (flange + self.cut_mpa)
    }
}

/// One order in one span.
#[derive(Debug, Clone, Copy)]
pub struct StageHere {
    /// Parts joined.
    pub parts: Parts,
    /// A flange newly joined here follows an earlier sweep.
    pub follows: bool,
    /// All heat laid at once, J/mm.
    pub heat_j_per_mm: f64,
    /// Hottest preheat among its passes, K.
    pub preheat_k: f64,
    /// Outer and inner seam.
    pub pairs: [Option<Pair>; 2],
}

/// The whole plan.
#[derive(Debug)]
pub struct Plan {
    /// Smooth stretches of the member.
    pub spans: Vec<Span>,
    /// `orders` turns per span, span after span.
    turns: Vec<StageHere>,
    orders: usize,
    /// For each turn, seam and earlier order: part of the stress left by that order that has come when this one is laid.
    come: Vec<f64>,
    /// Shop clock of each order, s.
    pub clock_s: Vec<f64>,
}

/// The beads of one order and one seam in one span, before they meet.
#[derive(Clone, Copy, Default)]
struct Group {
    pass: [Option<usize>; 2],
    bead: [Option<Bead>; 2],
}

impl Group {
    fn beads(&self) -> impl Iterator<Item = &Bead> {
        self.bead.iter().flatten()
    }

    /// Heat that stretches the section, J/mm.
    fn stretching(&self) -> f64 {
        self.beads().map(|b| b.heat_j_per_mm * b.welded_fraction).sum()
    }
}

impl Plan {
    /// The turns of one span, in order.
    pub fn turns(&self, span: usize) -> &[StageHere] {
        &self.turns[span * self.orders..(span + 1) * self.orders]
    }

    /// For a turn of a span and a seam: part of the stress left by each earlier order that has come by then.
    pub fn come(&self, span: usize, turn: usize, seam: usize) -> &[f64] {
        let row = ((span * self.orders + turn) * 2 + seam) * self.orders;
        &self.come[row..row + turn]
    }

    /// Sorts a job into spans and turns.
    pub fn of(job: &Job) -> Self {
        let spans = spans(&job.member, job.passes.iter().flat_map(|p| [p.from_mm, p.to_mm]));
        let mut now = 0.0;
        let clock_s: Vec<f64> = job
            .orders
            .iter()
            .enumerate()
            .map(|(i, order)| {
                now = if i > 0 { after_s(now, order.wait) } else { now };
                now
            })
            .collect();
        let orders = job.orders.len();
        let mut plan = Self {
            turns: Vec::with_capacity(spans.len() * orders),
            come: vec![0.0; spans.len() * orders * 2 * orders],
            spans: vec![],
            orders,
            clock_s,
        };
        let mut groups = Vec::with_capacity(orders);
        for (index, span) in spans.iter().enumerate() {
            groups.clear();
            groups.extend(job.orders.iter().map(|order| gather(job, order.number, span)));
            plan.meet(job, index, span, &groups);
        }
        Self { spans, ..plan }
    }

    /// Lets the groups of a span meet in the order of the job.
    fn meet(&mut self, job: &Job, index: usize, span: &Span, groups: &[[Group; 2]]) {
        let steel = &job.member.steel;
        let mut timelines = [Timeline::default(); 2];
        for (k, (order, group)) in job.orders.iter().zip(groups).enumerate() {
            let mut pairs = [None, None];
            for (seam, own) in Seam::BOTH.into_iter().zip(group) {
                if own.beads().next().is_none() {
                    continue;
                }
                let (slot, (width, flange_mm)) = (seam_index(seam), span.plates.flange_mm(seam));
                let web_mm = span.plates.web_mm;
                let (yield_mpa, e_mpa) = (steel.yield_mpa, steel.e_mpa);
                let legs = Legs { width_mm: width, flange_mm, web_mm, yield_mpa, e_mpa };
                let clock = &self.clock_s;
                let beside = |at_s: [f64; 2], warm_s: f64| -> f64 {
                    let others = groups.iter().zip(clock).map(|(g, then)| (g[1 - slot].stretching(), *then));
                    let seen = |(heat, then): (f64, f64)| {
                        let [a, b] = at_s.map(|at| seen_at(then - at, warm_s));
                        if heat > 0.0 { heat * a.max(b) } else { 0.0 }
                    };
                    others.map(seen).sum()
                };
                let fillets = timelines[slot].meet(&legs, &own.bead, clock[k], beside);
                pairs[slot] = Some(Pair {
                    seam,
                    pass: own.pass,
                    fillets,
                    flange_mm2: width * flange_mm,
                    flange_share: tendon::flange_share(flange_mm, web_mm),
                    cut_mpa: cut_mpa(edges_at(&job.member, seam, span.middle_mm()), (width, flange_mm)),
                });
            }
            let preheats = group.iter().flat_map(|g| g.pass).flatten().map(|p| job.passes[p].preheat_k);
            self.turns.push(StageHere {
                parts: order.joined,
                follows: order.fit == FlangeFit::Follows,
                heat_j_per_mm: group.iter().map(Group::stretching).sum(),
                preheat_k: preheats.fold(0.0, f64::max),
                pairs,
            });
        }
        self.note_what_has_come(index);
    }

    /// What an order leaves at the other seam comes as it cools: while both are hot they act as one.
    fn note_what_has_come(&mut self, span: usize) {
        for turn in 1..self.orders {
            for seam in [0, 1] {
                let row = ((span * self.orders + turn) * 2 + seam) * self.orders;
                for earlier in 0..turn {
                    let pair = &self.turns[span * self.orders + earlier].pairs[1 - seam];
                    let warm_s = pair.as_ref().map_or(f64::MIN_POSITIVE, |p| p.fillets.warm_s);
                    let lag = (self.clock_s[turn] - self.clock_s[earlier]) / warm_s;
                    self.come[row + earlier] = 1.0 - share_warm(lag);
                }
            }
        }
    }
}

/// Part of the heat at one seam that stretches the section while another is hot: that of `later_s` before or after it.
fn seen_at(later_s: f64, warm_s: f64) -> f64 {
    share_warm(if later_s > 0.0 { later_s / warm_s } else { -later_s / EVEN_AFTER_S })
}

/// The beads of one order in one span, at the outer and the inner seam.
fn gather(job: &Job, order: u32, span: &Span) -> [Group; 2] {
    let mut groups = [Group::default(); 2];
    let here = |p: &Pass| p.order == order && covers(p, span.middle_mm());
    for (index, pass) in job.passes.iter().enumerate().filter(|(_, p)| here(p)) {
        let (group, side) = (&mut groups[seam_index(pass.seam)], side_index(pass.side));
        group.pass[side] = Some(index);
        group.bead[side] = Some(Bead {
            side: pass.side,
            heat_j_per_mm: pass.heat_j_per_mm,
            welded_fraction: pass.welded_fraction,
            deposit_mm2: pass.deposit_mm2,
            arm_mm: job.factors.arm * lateral_arm::arm_mm(span.plates.web_mm, pass.leg_mm),
            times: pass.force_factor * job.factors.of_seam(pass.seam),
        });
    }
    groups
}

/// Whether a pass runs over x (mm).
pub fn covers(pass: &Pass, x_mm: f64) -> bool {
    (pass.from_mm..=pass.to_mm).contains(&x_mm)
}
