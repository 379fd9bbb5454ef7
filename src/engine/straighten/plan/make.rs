//! Planning one piece.

use super::after::asks_after_lines;
use super::{
    Block, Blocked, BlockingLimit, Chosen, Decision, FamilyStanding, Plan, Task, Way, Work, bow, flange,
};
use crate::member::Seam;
use crate::straighten::cautions::{CautionFacts, cautions};
use crate::straighten::decide::{Action, Family, Limits, MeasuredValue, Situation, reaction_mm, refusals};
use crate::straighten::shape::OutOfStraight;
use crate::tolerance::Quantity;
use crate::units::{Message, Part};

/// What to do with a piece: accept, measure again, ask, or straighten, how, in which order, at what cost; or what stands
/// in the way. An impossible plan is a result, not an error.
pub fn make(task: &Task<'_>) -> Plan {
    planned(task, decisions(task), true, None)
}

/// The same plan for counting: same ways, steps, minutes and blocks as [`make`], at less than half its time, but pushes carry
/// no range where the web stands the most that a push can need. Not to be worked from.
pub fn count(task: &Task<'_>) -> Plan {
    planned(task, decisions(task), false, None)
}

/// The same of one quantity alone, which is straightened whatever measuring leaves open. Camber that lines of heat bring is not planned
/// for: it goes with the camber of the piece.
pub(crate) fn count_of(task: &Task<'_>, quantity: Quantity) -> Plan {
    let of = decisions(task).into_iter().filter(|d| d.quantity == quantity);
    planned(task, of.map(|d| Decision { action: Action::Straighten, ..d }).collect(), false, None)
}

/// `no_lines`: why no lines of heat are drawn on a flange, if they are not to be.
fn planned(task: &Task<'_>, decisions: Vec<Decision>, ranges: bool, no_lines: Option<&Message>) -> Plan {
    let refused = refusals(&task.situation, task.thickest_mm(), task.member.steel.yield_mpa);
    let forbidden = [refused.iter().any(|r| r.cold), refused.iter().any(|r| r.heat)];
    let mut plan = Plan {
        decisions,
        refusals: refused,
        placeholder_rates: task.shop.rates.placeholders,
        ..Plan::default()
    };
    if plan.asks(Quantity::FlangeToe) {
        plan.add_flanges(task, forbidden, no_lines);
    }
    plan.add_bows(task, forbidden, ranges);
    if let (None, Some(why)) = (no_lines, plan.not_taken_back()) {
        return planned(task, plan.decisions, ranges, Some(&why));
    }
    let mut number = 0;
    for step in plan.chosen.iter_mut().flat_map(|c| &mut c.way.steps) {
        number += 1;
        step.number = number;
    }
    plan.minutes = plan.chosen.iter().map(|c| c.way.price.minutes).sum();
    plan.cost = plan.chosen.iter().map(|c| c.way.price.cost).sum();
    plan.process = process(task, &plan);
    plan.cautions = cautions(&facts(task, &plan));
    plan
}

impl Plan {
    /// Whether a quantity is to be straightened: as it is, or camber as lines of heat on a flange leave it.
    pub fn asks(&self, quantity: Quantity) -> bool {
        match self.camber_then.filter(|_| quantity == Quantity::Camber) {
            Some(then) => asks_after_lines(then.action),
            None => self.decision(quantity).is_some_and(|d| d.action == Action::Straighten),
        }
    }

    /// What to do with a quantity as it is; None if nothing limits it.
    pub fn decision(&self, quantity: Quantity) -> Option<&Decision> {
        self.decisions.iter().find(|d| d.quantity == quantity)
    }

    fn add_flanges(&mut self, task: &Task<'_>, [cold, heat]: [bool; 2], no_lines: Option<&Message>) {
        for seam in Seam::BOTH {
            let mut found = flange::ways(task, seam, cold, heat, no_lines);
            let tilted = tilted(task, seam);
            if found.is_empty() && !tilted {
                continue;
            }
            if tilted {
                let what = "the flange is tilted as a whole, or the member is twisted";
                let help =
                    "correct the seams or the order of welding; twist is never pressed at a single point";
                found.push(Err(Block::new("one-sided tilt", BlockingLimit::NoMethod, what, help)));
            }
            self.add(task, Quantity::FlangeToe, Some(seam), found);
        }
        if self.lined() && self.decision(Quantity::Camber).is_some() {
            let camber_mm = self.before_mm(task.shape, Quantity::Camber);
            let shape = OutOfStraight { camber_mm, ..task.shape.clone() };
            let then = decisions(&Task { shape: &shape, ..*task });
            self.camber_then = then.into_iter().find(|d| d.quantity == Quantity::Camber);
        }
    }

    fn add_bows(&mut self, task: &Task<'_>, refused: [bool; 2], ranges: bool) {
        let ways = |quantity| {
            let offset_mm = self.before_mm(task.shape, quantity);
            self.asks(quantity).then(|| bow::ways(task, quantity, &offset_mm, refused, ranges))
        };
        let (sweeps, cambers) = rayon::join(|| ways(Quantity::Sweep), || ways(Quantity::Camber));
        for (quantity, found) in [(Quantity::Sweep, sweeps), (Quantity::Camber, cambers)] {
            if let Some(found) = found {
                self.add(task, quantity, None, found);
            }
        }
    }

    /// Why lines of heat on a flange are not to be drawn: no way takes back the camber that they leave. None if there is one, or no need.
    fn not_taken_back(&self) -> Option<Message> {
        let (now, then) = (self.decision(Quantity::Camber)?, self.camber_then?);
        let blocked = self.blocked.iter().find(|b| b.quantity == Quantity::Camber)?;
        not_taken_back([now.value_mm, then.value_mm], &blocked.blocks)
    }

    fn add(
        &mut self,
        task: &Task<'_>,
        quantity: Quantity,
        flange: Option<Seam>,
        found: Vec<Result<Way, Block>>,
    ) {
        let (mut ways, mut blocked) = (Vec::new(), Vec::new());
        for one in found {
            match one {
                Ok(way) => ways.push(way),
                Err(block) => blocked.push(block),
            }
        }
        ways.sort_by(|a, b| a.price.expected.total_cmp(&b.price.expected));
        let mut ways = ways.into_iter();
        match ways.next() {
            Some(way) => {
                let rework_is_cheaper = way.price.expected > task.shop.rates.rework;
                self.chosen.push(Chosen {
                    quantity,
                    flange,
                    way,
                    next_best: ways.next(),
                    blocked,
                    rework_is_cheaper,
                });
            }
            None => self.blocked.push(Blocked { quantity, flange, blocks: blocked }),
        }
    }
}

/// Why lines of heat that bring the camber from one size to another (mm) are not to be drawn, if every way to take it back is blocked.
pub(crate) fn not_taken_back(camber_mm: [f64; 2], blocks: &[Block]) -> Option<Message> {
    let block = blocks.iter().find(|b| b.limit != BlockingLimit::NoTool).or(blocks.first())?;
    let sizes = camber_mm.map(Part::Offset);
    let found =
        Message::of("they would bring the camber from {} to {}, which no way here takes back: ", sizes);
    Some(found.and(block.method).and(": ").then(block.found.clone()))
}

/// What to do with each quantity of a piece, in order of work: flange toe, sweep, camber.
pub(crate) fn decisions(task: &Task<'_>) -> Vec<Decision> {
    let goals = &task.goals;
    let mut out = Vec::with_capacity(3);
    let toes = task.shape.toes.iter().flat_map(|t| goals.of_toes(t));
    out.extend(decide(task, Quantity::FlangeToe, toes.map(|(value, limits)| (value, value, limits))));
    let x = &task.shape.x_mm;
    let (from, to) = (x.first().copied().unwrap_or(0.0), x.last().copied().unwrap_or(1.0));
    for (quantity, offsets, limits) in [
        (Quantity::Sweep, &task.shape.sweep_mm, goals.sweep),
        (Quantity::Camber, &task.shape.camber_mm, goals.camber),
    ] {
        let along = x.iter().zip(offsets).map(|(x, o)| {
            // judged where unequal limits lie about a straight line
            let aside = limits.middle(0.5) - limits.middle((x - from) / (to - from));
            (*o, o + aside, limits)
        });
        out.extend(decide(task, quantity, along));
    }
    out
}

/// The decision on the worst of several values: as it is, as it is judged, and its limits. None if nothing limits it.
fn decide(
    task: &Task<'_>,
    quantity: Quantity,
    values: impl Iterator<Item = (f64, f64, Limits)>,
) -> Option<Decision> {
    let over = |(_, v, l): &(f64, f64, Limits)| (v - l.highest).max(l.lowest - v);
    let limited = values.filter(|(.., l)| l.is_some());
    let (value_mm, judged, limits) = limited.max_by(|a, b| over(a).total_cmp(&over(b)))?;
    let action = MeasuredValue { value: judged, measurements: task.measurements }.action(&limits);
    Some(Decision { quantity, value_mm, limits, action, reaction_mm: reaction_mm(&limits) })
}

/// Whether tilt alone brings a toe out of its limit somewhere.
fn tilted(task: &Task<'_>, seam: Seam) -> bool {
    task.shape.toes.iter().filter(|t| t.seam == seam).any(|t| {
        let half = 0.5 * (t.near_mm - t.far_mm);
        half.abs() > task.goals.toe.highest.min(task.goals.tilt.highest)
    })
}

fn process(task: &Task<'_>, plan: &Plan) -> Vec<FamilyStanding> {
    let one = |quantity, family: Option<Family>, limits: &Limits| {
        // a record that says nothing gives no advice
        let capability = family?.against(limits).ok()?;
        let cost = plan.chosen.iter().find(|c| c.quantity == quantity).map(|c| c.way.price.expected);
        let saved_a_piece = cost.map(|c| c * (capability.acted_on - capability.acted_on_centred));
        Some(FamilyStanding { quantity, capability, saved_a_piece })
    };
    [
        one(Quantity::Sweep, task.records.sweep, &task.goals.sweep),
        one(Quantity::Camber, task.records.camber, &task.goals.camber),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// What the cautions of a plan depend on.
pub(crate) fn facts(task: &Task<'_>, plan: &Plan) -> CautionFacts {
    let delivery = task.situation.delivery.planned(task.member.steel.yield_mpa);
    let situation = Situation { delivery, ..task.situation };
    let mut facts = CautionFacts { situation, ..CautionFacts::NOTHING };
    for step in plan.chosen.iter().flat_map(|c| &c.way.steps) {
        match &step.work {
            Work::Push(push) => {
                facts.pressed = true;
                if push.stored_j > facts.stored_j {
                    (facts.stored_j, facts.force_n) = (push.stored_j, push.most_force_n);
                }
                facts.strain = facts.strain.max(push.bent.nominal.strain);
                facts.mu = facts.mu.max(push.bent.nominal.mu);
                facts.not_compact |= !push.not_compact.is_empty();
                facts.strong |= push.layout.from.strong();
            }
            Work::Heats(_) | Work::Lines { .. } => facts.heated = true,
            Work::Fold { fold, .. } => {
                facts.pressed = true;
                facts.strain = facts.strain.max(fold.strain);
            }
        }
    }
    facts.web_mm = task.member.web.iter().map(|piece| piece.thickness_mm).fold(f64::INFINITY, f64::min);
    facts
}
