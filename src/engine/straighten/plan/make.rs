//! Planning one piece.

use super::after::add_camber;
use super::{
    Block, Blocked, BlockingLimit, Chosen, Decision, FamilyStanding, Plan, Task, Way, Work, bow, flange,
};
use crate::member::Seam;
use crate::straighten::cautions::{CautionFacts, cautions};
use crate::straighten::decide::{Action, Family, Limits, MeasuredValue, reaction_mm, refusals};
use crate::tolerance::Quantity;

/// What to do with a piece: accept, measure again, ask, or straighten, how, in which order, at what cost; or what stands
/// in the way. An impossible plan is a result, not an error.
pub fn make(task: &Task<'_>) -> Plan {
    planned(task, true)
}

/// The same plan for counting: same ways, steps, minutes and blocks as [`make`], at less than half its time, but pushes carry
/// no range where the web stands the most that a push can need. Not to be worked from.
pub fn count(task: &Task<'_>) -> Plan {
    planned(task, false)
}

fn planned(task: &Task<'_>, ranges: bool) -> Plan {
    let refused = refusals(&task.situation, task.thickest_mm());
    let (cold, heat) = (refused.iter().any(|r| r.cold), refused.iter().any(|r| r.heat));
    let mut plan = Plan {
        decisions: decisions(task),
        refusals: refused,
        placeholder_rates: task.shop.rates.placeholders,
        ..Plan::default()
    };
    let wanted =
        |q: Quantity| plan.decisions.iter().any(|d| d.quantity == q && d.action == Action::Straighten);
    let (toe, sweep, camber) =
        (wanted(Quantity::FlangeToe), wanted(Quantity::Sweep), wanted(Quantity::Camber));
    let mut cambers = task.shape.camber_mm.clone();
    if toe {
        for seam in Seam::BOTH {
            let mut found = flange::ways(task, seam, cold, heat);
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
            plan.add(task, Quantity::FlangeToe, Some(seam), found);
        }
        add_camber(&task.shape.x_mm, &plan.chosen, &mut cambers);
    }
    let ways = |wanted: bool, quantity, offset_mm: &[f64]| {
        wanted.then(|| bow::ways(task, quantity, offset_mm, [cold, heat], ranges))
    };
    let (sweeps, cambers) = rayon::join(
        || ways(sweep, Quantity::Sweep, &task.shape.sweep_mm),
        || ways(camber, Quantity::Camber, &cambers),
    );
    for (quantity, found) in [(Quantity::Sweep, sweeps), (Quantity::Camber, cambers)] {
        if let Some(found) = found {
            plan.add(task, quantity, None, found);
        }
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
    let mut facts = CautionFacts { situation: task.situation, ..CautionFacts::NOTHING };
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
