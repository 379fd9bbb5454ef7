//! What each stretch of member receives, order by order: everything about the passes that does not change inside
//! a span is worked out once here.

use super::Job;
use crate::member::{Parts, Seam, Span, spans};
use crate::shrinkage::joint::{COLD_S, Meeting, Timeline, cooling_time_s, seam_index, side_index};
use crate::shrinkage::{lateral, tendon};
use crate::welding::{FlangeFit, Pass, Wait};

/// The passes of one order at one seam, in one span: near and far.
#[derive(Debug, Clone, Copy)]
pub struct Pair {
    /// Seam.
    pub seam: Seam,
    /// Index of near and far pass in the job.
    pub pass: [Option<usize>; 2],
    /// Lone force before the factors that vary along x, N.
    pub held_n: [f64; 2],
    /// Lateral arm, mm, without sign.
    pub arm_mm: [f64; 2],
    /// Weld metal, mm².
    pub deposit_mm2: f64,
    /// t* of the junction, s.
    cooling_s: f64,
    /// How they stand in time to what the junction holds.
    pub meeting: Meeting,
    /// Flange section, mm².
    pub flange_mm2: f64,
    /// Part of the heat, and so of the force, in the flange.
    pub flange_share: f64,
    /// Heat of the stronger pass, J/mm: both at once at one junction are counted by their meeting.
    pub heat_j_per_mm: f64,
    /// Force lost to a free section, over its stretch, mm³/J.
    pub free_loss_mm3_per_j: f64,
}

impl Pair {
    /// Stress in web edge and flange weighted by their parts of the force, MPa.
    pub fn mean_stress(&self, [web, flange]: [f64; 2]) -> f64 {
        (1.0 - self.flange_share) * web + self.flange_share * flange
    }
}

/// One order in one span.
#[derive(Debug, Clone, Copy)]
pub struct Turn {
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
    turns: Vec<Turn>,
    orders: usize,
    /// Shop clock of each order, s.
    pub clock_s: Vec<f64>,
}

impl Plan {
    /// The turns of one span, in order.
    pub fn turns(&self, span: usize) -> &[Turn] {
        &self.turns[span * self.orders..(span + 1) * self.orders]
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
                if i > 0 {
                    now += match order.wait {
                        Wait::Cold => COLD_S,
                        Wait::Seconds(s) => s,
                    };
                }
                now
            })
            .collect();
        let mut turns = Vec::with_capacity(spans.len() * job.orders.len());
        for span in &spans {
            let mut timelines = [Timeline::default(); 2];
            for (order, at_s) in job.orders.iter().zip(&clock_s) {
                let mut turn = Turn {
                    parts: order.joined,
                    follows: order.fit == FlangeFit::Follows,
                    heat_j_per_mm: 0.0,
                    preheat_k: 0.0,
                    pairs: [None, None],
                };
                let covers = |p: &Pass| p.order == order.number && covers(p, span.middle_mm());
                for (index, pass) in job.passes.iter().enumerate().filter(|(_, p)| covers(p)) {
                    turn.take(index, pass, span, job);
                }
                for (pair, timeline) in turn.pairs.iter_mut().zip(&mut timelines) {
                    let Some(pair) = pair else { continue };
                    pair.meeting = timeline.meet(pair.pass.map(|p| p.is_some()), *at_s, pair.cooling_s);
                }
                turns.push(turn);
            }
        }
        Self { spans, turns, orders: job.orders.len(), clock_s }
    }
}

/// Whether a pass runs over x (mm).
pub fn covers(pass: &Pass, x_mm: f64) -> bool {
    (pass.from_mm..=pass.to_mm).contains(&x_mm)
}

impl Turn {
    fn take(&mut self, index: usize, pass: &Pass, span: &Span, job: &Job) {
        let (width, flange) = span.plates.flange_mm(pass.seam);
        let (web, steel) = (span.plates.web_mm, &job.member.steel);
        let pair = self.pairs[seam_index(pass.seam)].get_or_insert(Pair {
            seam: pass.seam,
            pass: [None, None],
            held_n: [0.0; 2],
            arm_mm: [0.0; 2],
            deposit_mm2: 0.0,
            cooling_s: f64::MIN_POSITIVE,
            meeting: Meeting::default(),
            flange_mm2: width * flange,
            flange_share: tendon::flange_share(flange, web),
            heat_j_per_mm: 0.0,
            free_loss_mm3_per_j: 0.0,
        });
        let side = side_index(pass.side);
        pair.pass[side] = Some(index);
        pair.held_n[side] = tendon::held_force_n(pass.heat_j_per_mm, flange, web, steel.yield_mpa)
            * pass.welded_fraction
            * pass.force_factor
            * job.factors.force;
        pair.arm_mm[side] = job.factors.arm * lateral::arm_mm(web, pass.leg_mm);
        pair.deposit_mm2 += pass.deposit_mm2 * pass.welded_fraction;
        let cooling = cooling_time_s(pass.heat_j_per_mm, flange, web, steel.yield_mpa, steel.e_mpa);
        pair.cooling_s = pair.cooling_s.max(cooling);
        let heat = pass.heat_j_per_mm * pass.welded_fraction;
        if heat > pair.heat_j_per_mm {
            let q = tendon::heat_parameter(pass.heat_j_per_mm, flange, web);
            (pair.heat_j_per_mm, pair.free_loss_mm3_per_j) = (heat, tendon::free_loss(q, steel.yield_mpa));
        }
        self.heat_j_per_mm += heat;
        self.preheat_k = self.preheat_k.max(pass.preheat_k);
    }
}
