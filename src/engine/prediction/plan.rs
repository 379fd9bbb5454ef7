//! What each stretch of member receives, order by order: everything about the passes that does not change inside
//! a span is worked out once here. Jobs of one layout are planned side by side.

use super::Job;
use super::alike::{Alike, covers};
use super::plates::{cut_mpa, edges_at};
use crate::member::{Parts, Seam, Span};
use crate::numerics::{Number, refill};
use crate::shrinkage::fillets::{Bead, Fillets, Timeline, after_s};
use crate::shrinkage::second_side::{seam_index, share_warm, side_index};
use crate::shrinkage::source::Legs;
use crate::shrinkage::{lateral_arm, prior_stress, tendon};
use crate::welding::{FlangeFit, Pass, Wait};

/// Time in which the heat of one seam stops stretching and bending the section beneath the other, s: a flange in air
/// cools in minutes. Choice, from own strip calculations of seams 1 s to an hour apart.
const EVEN_AFTER_S: f64 = 600.0;

/// The passes of one order at one seam, in one span: near and far.
#[derive(Debug, Clone)]
pub(crate) struct Pair<N = f64> {
    /// Seam.
    pub(crate) seam: Seam,
    /// Index of near and far pass in the job.
    pub(crate) pass: [Option<usize>; 2],
    /// What they bring, all but the section they meet.
    pub(crate) fillets: Fillets<N>,
    /// Net heat of the passes, J/mm of seam.
    pub(crate) heat_j_per_mm: N,
    /// Flange section, mm².
    pub(crate) flange_mm2: N,
    /// Part of the heat, and so of the force, in the flange.
    pub(crate) flange_share: N,
    /// Factor on what they take back of the sideways moment of a side laid before.
    pub(crate) takes_back: N,
    /// What hot cutting of the flange's edges left where the fillets are laid, MPa, − presses.
    pub(crate) cut_mpa: N,
}

impl<N: Number> Pair<N> {
    /// Stress in web edge and flange weighted by their parts of the force, MPa, with what the cutting of the flange left.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn mean_stress(&self, [web, flange]: [N; 2]) -> N {
        (-self.flange_share + 1.0) * web + self.flange_share * (flange + self.cut_mpa)
    }
}

/// One order in one span.
#[derive(Debug, Clone)]
pub(crate) struct StageHere<N = f64> {
    /// Parts joined.
    pub(crate) parts: Parts,
    /// A flange newly joined here follows an earlier sweep.
    pub(crate) follows: bool,
    /// All heat laid at once, J/mm.
    pub(crate) heat_j_per_mm: N,
    /// The same with what is still warm of the orders before, J/mm.
    pub(crate) warm_j_per_mm: N,
    /// Hottest preheat among its passes, K.
    pub(crate) preheat_k: N,
    /// Where in the plan stands what has come of earlier orders.
    come_at: usize,
    /// Where in the plan stand the passes at outer and inner seam; the same in all spans along which the plates of a joint go on.
    pairs_at: [Option<usize>; 2],
}

/// The whole plan of one job, or of several of one layout side by side.
#[derive(Debug, Default)]
pub(super) struct WalkPlan<N = f64> {
    /// Smooth stretches of the member.
    pub spans: Vec<Span<N>>,
    /// `orders` turns per span, span after span.
    turns: Vec<StageHere<N>>,
    pairs: Vec<Pair<N>>,
    orders: usize,
    /// For each order whether it joins a flange while anything is warm.
    joins_warm: Vec<bool>,
    /// For each turn, seam and earlier order: part of the stress left by that order that has come when this one is laid.
    come: Vec<N>,
    /// Shop clock of each order, s.
    pub(crate) clock_s: Vec<N>,
    /// Length, mm.
    pub length_mm: N,
    /// Young's modulus, MPa.
    pub e_mpa: N,
    /// Yield strength, MPa.
    pub yield_mpa: N,
    /// Force that hot cutting has spent in each web edge, N, span by span.
    pub(crate) spent_n: Vec<N>,
}

/// The beads of one order and one seam in one span, before they meet.
#[derive(Clone, Copy, PartialEq)]
struct Group<N> {
    pass: [Option<usize>; 2],
    bead: [Option<Bead<N>>; 2],
}

impl<N: Number> Group<N> {
    #[cfg_attr(wide, inline(always))]
    fn beads(&self) -> impl Iterator<Item = &Bead<N>> {
        self.bead.iter().flatten()
    }

    /// Heat that stretches the section, J/mm.
    #[cfg_attr(wide, inline(always))]
    fn stretching(&self) -> N {
        N::sum(self.beads().map(|b| b.heat_j_per_mm * b.welded_fraction))
    }
}

impl WalkPlan {
    /// Sorts a job into spans and turns.
    pub(super) fn of(job: &Job) -> Self {
        let alone = Alike::of(job);
        Self::side_by_side(&[&alone])
    }
}

impl<N: Number> WalkPlan<N> {
    /// The turns of one span, in order.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn turns(&self, span: usize) -> &[StageHere<N>] {
        &self.turns[span * self.orders..(span + 1) * self.orders]
    }

    /// The passes of a turn at the seam of that number.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn pair(&self, turn: &StageHere<N>, seam: usize) -> Option<&Pair<N>> {
        turn.pairs_at[seam].map(|at| &self.pairs[at])
    }

    /// Whether an order joins a flange while anything is warm.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn joins_warm(&self, order: usize) -> bool {
        self.joins_warm[order]
    }

    /// The first pass of a turn, if it lays any there.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn first_pass(&self, turn: &StageHere<N>) -> Option<usize> {
        let here = self.pair(turn, 0).or_else(|| self.pair(turn, 1))?;
        here.pass[0].or(here.pass[1])
    }

    /// For a turn and a seam: part of the stress left by each earlier order that has come by then.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn come(&self, turn: &StageHere<N>, seam: usize) -> &[N] {
        &self.come[turn.come_at + seam * self.orders..]
    }

    /// Sorts jobs of one layout into spans and turns, as many as `N` holds.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn side_by_side(all: &[&Alike<'_>]) -> Self {
        let job = all[0].job;
        let stretches = all[0].ends_mm.len() - 1;
        let (mut spans, mut each) = (Vec::<Span<N>>::with_capacity(stretches), Vec::with_capacity(N::COUNT));
        for i in 0..stretches {
            each.clear();
            for alike in all.iter().take(N::COUNT) {
                each.push(Span::between(&alike.job.member, alike.ends_mm[i], alike.ends_mm[i + 1]));
            }
            spans.push(Span::of(|k| &each[k]));
        }
        let orders = job.orders.len();
        let mut clock_s: Vec<N> = Vec::with_capacity(orders);
        for i in 0..orders {
            let before = if i > 0 { clock_s[i - 1] } else { N::default() };
            let after = |k: usize| after_s(before.nth(k), all[k].job.orders[i].wait);
            clock_s.push(if i > 0 { N::of(after) } else { before });
        }
        let mut plan = Self {
            turns: Vec::with_capacity(spans.len() * orders),
            pairs: Vec::with_capacity(job.passes.len()),
            come: vec![N::default(); spans.len() * orders * 2 * orders],
            spans: vec![],
            orders,
            joins_warm: joins_warm(all),
            clock_s,
            length_mm: N::of(|k| all[k].job.member.length_mm),
            e_mpa: N::of(|k| all[k].job.member.steel.e_mpa),
            yield_mpa: N::of(|k| all[k].job.member.steel.yield_mpa),
            spent_n: Vec::with_capacity(spans.len()),
        };
        for span in &spans {
            plan.spent_n.push(N::of(|k| spent_n(all[k].job, span.plates.web_mm.nth(k))));
        }
        let (mut groups, mut before) = (Vec::with_capacity(orders), Vec::with_capacity(orders));
        for (index, span) in spans.iter().enumerate() {
            std::mem::swap(&mut groups, &mut before);
            groups.clear();
            // a loop is compiled for wide registers where it stands, a closure handed on is not
            for order in &job.orders {
                groups.push(gather(all, order.number, span, plan.yield_mpa));
            }
            // where the plates of a joint go on, nothing changes that is planned of it
            let stays = |seam: Seam, last: &Span<N>| {
                let plates = (span.plates.web_mm, span.plates.flange_mm(seam));
                plates == (last.plates.web_mm, last.plates.flange_mm(seam))
                    && cut_all(all, seam, span) == cut_all(all, seam, last)
            };
            let mut kept = [false; 2];
            if index > 0 && groups == before {
                let last = &spans[index - 1];
                kept = [stays(Seam::Outer, last), stays(Seam::Inner, last)];
            }
            plan.meet(all, index, span, &groups, kept);
            plan.note_what_has_come(index);
        }
        Self { spans, ..plan }
    }

    /// Puts that of one case, without what its passes bring, into `out`, which may hold another one.
    pub(super) fn put_nth(&self, index: usize, out: &mut WalkPlan) {
        let of = |all: &[N], out: &mut Vec<f64>| refill(out, all.iter().map(|value| value.nth(index)));
        let turn = |turn: &StageHere<N>| StageHere {
            parts: turn.parts,
            follows: turn.follows,
            heat_j_per_mm: turn.heat_j_per_mm.nth(index),
            warm_j_per_mm: turn.warm_j_per_mm.nth(index),
            preheat_k: turn.preheat_k.nth(index),
            come_at: turn.come_at,
            pairs_at: [None, None],
        };
        refill(&mut out.spans, self.spans.iter().map(|span| span.nth(index)));
        refill(&mut out.turns, self.turns.iter().map(turn));
        out.pairs.clear();
        out.come.clear();
        of(&self.clock_s, &mut out.clock_s);
        of(&self.spent_n, &mut out.spent_n);
        out.orders = self.orders;
        out.joins_warm.clone_from(&self.joins_warm);
        (out.length_mm, out.e_mpa) = (self.length_mm.nth(index), self.e_mpa.nth(index));
        out.yield_mpa = self.yield_mpa.nth(index);
    }

    /// Lets the groups of a span meet in the order of the job; a joint that is `kept` is that of the span before.
    #[cfg_attr(wide, inline(always))]
    fn meet(
        &mut self,
        all: &[&Alike<'_>],
        index: usize,
        span: &Span<N>,
        groups: &[[Group<N>; 2]],
        kept: [bool; 2],
    ) {
        let mut timelines = [Timeline::default(); 2];
        for (k, (order, group)) in all[0].job.orders.iter().zip(groups).enumerate() {
            let mut pairs_at = [None, None];
            for (seam, own) in Seam::BOTH.into_iter().zip(group) {
                if own.beads().next().is_none() {
                    continue;
                }
                let (slot, (width_mm, flange_mm)) = (seam_index(seam), span.plates.flange_mm(seam));
                if kept[slot] {
                    pairs_at[slot] = self.turns(index - 1)[k].pairs_at[slot];
                    continue;
                }
                let web_mm = span.plates.web_mm;
                let legs = Legs { width_mm, flange_mm, web_mm, yield_mpa: self.yield_mpa, e_mpa: self.e_mpa };
                let clock = &self.clock_s;
                let beside = |at_s: [N; 2], warm_s: N| -> N {
                    let others = groups.iter().zip(clock).map(|(g, then)| (g[1 - slot].stretching(), *then));
                    N::sum(others.map(|(heat, then): (N, N)| {
                        let [a, b] = at_s.map(|at| seen_at(then - at, warm_s));
                        heat.above(N::default(), heat * a.max(b), N::default())
                    }))
                };
                let fillets = timelines[slot].meet(&legs, &own.bead, clock[k], beside);
                pairs_at[slot] = Some(self.pairs.len());
                self.pairs.push(Pair {
                    seam,
                    pass: own.pass,
                    fillets,
                    heat_j_per_mm: own.stretching(),
                    flange_mm2: width_mm * flange_mm,
                    flange_share: tendon::flange_share(flange_mm, web_mm),
                    takes_back: takes_back(all, own.pass, span.middle_mm()),
                    cut_mpa: cut_all(all, seam, span),
                });
            }
            let mut preheat_k = N::default();
            for pass in group.iter().flat_map(|g| g.pass).flatten() {
                preheat_k = preheat_k.max(N::of(|k| all[k].job.passes[pass].preheat_k));
            }
            let heat_j_per_mm = group[0].stretching() + group[1].stretching();
            let mut warm_j_per_mm = heat_j_per_mm;
            for (before, then) in self.turns[index * self.orders..].iter().zip(&self.clock_s) {
                let lag = (self.clock_s[k] - *then) / EVEN_AFTER_S;
                warm_j_per_mm += before.heat_j_per_mm * share_warm(lag);
            }
            self.turns.push(StageHere {
                parts: order.joined,
                follows: order.fit == FlangeFit::Follows,
                heat_j_per_mm,
                warm_j_per_mm,
                preheat_k,
                come_at: (index * self.orders + k) * 2 * self.orders,
                pairs_at,
            });
        }
    }

    /// What an order leaves at the other seam comes as it cools: while both are hot they act as one.
    #[cfg_attr(wide, inline(always))]
    fn note_what_has_come(&mut self, span: usize) {
        for turn in 1..self.orders {
            for seam in [0, 1] {
                let row = self.turns(span)[turn].come_at + seam * self.orders;
                for earlier in 0..turn {
                    let pair = self.pair(&self.turns(span)[earlier], 1 - seam);
                    let warm_s = pair.map_or(N::all(f64::MIN_POSITIVE), |p| p.fillets.warm_s);
                    let lag = (self.clock_s[turn] - self.clock_s[earlier]) / warm_s;
                    self.come[row + earlier] = -share_warm(lag) + 1.0;
                }
            }
        }
    }
}

/// For each order whether in any of these jobs it joins a flange without waiting until all is cold.
fn joins_warm(all: &[&Alike<'_>]) -> Vec<bool> {
    let orders = &all[0].job.orders;
    let joins = |order: usize| order > 0 && orders[order].joined != orders[order - 1].joined;
    let waits = |order: usize| all.iter().any(|a| matches!(a.job.orders[order].wait, Wait::Seconds(_)));
    (0..orders.len()).map(|order| joins(order) && waits(order)).collect()
}

/// Factor on what passes that an order lays at one place of a seam take back of the side before: a second side comes alone.
fn takes_back<N: Number>(all: &[&Alike<'_>], pass: [Option<usize>; 2], x_mm: N) -> N {
    let alone = pass[0].xor(pass[1]);
    alone.map_or(N::all(1.0), |pass| N::of(|k| all[k].job.takes_back(&all[k].job.passes[pass], x_mm.nth(k))))
}

/// Part of the heat at one seam that stretches the section while another is hot: that of `later_s` before or after it.
#[cfg_attr(wide, inline(always))]
fn seen_at<N: Number>(later_s: N, warm_s: N) -> N {
    share_warm(later_s.above(N::default(), later_s / warm_s, -later_s / EVEN_AFTER_S))
}

/// What hot cutting left in the flange at a seam, MPa.
#[cfg_attr(wide, inline(always))]
fn cut_all<N: Number>(all: &[&Alike<'_>], seam: Seam, span: &Span<N>) -> N {
    let pieces = |alike: &Alike<'_>| alike.job.member.flange(seam).iter().any(|p| p.comes.edges.are_hot());
    if !all.iter().any(|alike| pieces(alike)) {
        return N::default();
    }
    let (middle_mm, (width_mm, flange_mm)) = (span.middle_mm(), span.plates.flange_mm(seam));
    N::of(|k| {
        let edges = edges_at(&all[k].job.member, seam, middle_mm.nth(k));
        cut_mpa(edges, (width_mm.nth(k), flange_mm.nth(k)))
    })
}

/// The beads of one order in one span, at the outer and the inner seam.
#[cfg_attr(wide, inline(always))]
fn gather<N: Number>(all: &[&Alike<'_>], order: u32, span: &Span<N>, yield_mpa: N) -> [Group<N>; 2] {
    let mut groups = [Group { pass: [None; 2], bead: [None; 2] }; 2];
    let here = |p: &Pass| p.order == order && covers(p, span.middle_mm().nth(0));
    for (index, pass) in all[0].job.passes.iter().enumerate().filter(|(_, p)| here(p)) {
        let of = |value: fn(&Pass) -> f64| N::of(|k| value(&all[k].job.passes[index]));
        let heat_j_per_mm = of(|p| p.heat_j_per_mm);
        let arm_mm = lateral_arm::arm_mm(span.plates.web_mm, of(|p| p.leg_mm), heat_j_per_mm, yield_mpa);
        let (group, side) = (&mut groups[seam_index(pass.seam)], side_index(pass.side));
        group.pass[side] = Some(index);
        group.bead[side] = Some(Bead {
            side: pass.side,
            heat_j_per_mm,
            welded_fraction: of(|p| p.welded_fraction()),
            deposit_mm2: of(|p| p.deposit_mm2),
            arm_mm: arm_mm * N::of(|k| all[k].job.factors.arm),
            times: of(|p| p.force_factor) * N::of(|k| all[k].job.factors.of_seam(pass.seam)),
        });
    }
    groups
}

/// Force that hot cutting has spent in each web edge, N.
pub(crate) fn spent_n(job: &Job, web_mm: f64) -> f64 {
    if job.thermally_cut_web { prior_stress::cut_edge_force_n(web_mm) } else { 0.0 }
}
