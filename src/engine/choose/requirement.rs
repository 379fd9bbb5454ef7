//! What each stretch of a seam needs, by strength and by minimum, before anything is searched.

use super::constraints::{Constraints, Sides};
use crate::member::{Seam, Span, spans};
use crate::prediction::{Carries, Job};
use crate::strength::{
    Flow, LEG_OVER_PLATE, Minimum, Needed, SAME_LEG_MM, Strengths, flow_at, needed_leg, one_sided_blocks,
};
use crate::units::{Message, Part};
use crate::welding::Side;
use serde::Serialize;

/// Places looked at inside each smooth span: the flow is smooth there, and is largest at an end or near the middle.
const PLACES: usize = 16;

/// What makes a leg as large as it must be.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Governs {
    /// Strength, by that clause.
    Strength(&'static str),
    /// A minimum, by that clause.
    Minimum(String),
    /// The user's own bound.
    OwnBound,
    /// The procedure: it lays no smaller leg in this trip inside its ranges and those of the line.
    Process,
    /// Nothing but the tolerances and what is made small.
    Search,
}

/// A leg that is needed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Requirement {
    /// Rounded up to the shop's steps, mm.
    pub leg_mm: f64,
    /// By strength alone, mm.
    pub strength_mm: f64,
    /// By the minimum rules alone, mm.
    pub minimum_mm: f64,
    /// The larger of the two, or the user.
    pub governs: Governs,
}

/// A stretch of one seam over which plates do not change.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Stretch {
    /// Seam.
    pub seam: Seam,
    /// Start, mm.
    pub from_mm: f64,
    /// End, mm.
    pub to_mm: f64,
    /// Web thickness, mm.
    pub web_mm: f64,
    /// Flange thickness, mm.
    pub flange_mm: f64,
    /// Largest shear flow, and where.
    pub flow: Flow,
    /// Where that is, mm.
    pub flow_at_mm: f64,
    /// Whether both sides must be welded here, and why.
    pub both_sides: Option<Message>,
    /// Leg if one side is welded; `None` where it may not be.
    pub one: Option<Requirement>,
    /// Leg of each side if both are.
    pub two: Requirement,
    /// Largest leg the plates take in one pass, rounded down to the steps, mm.
    pub largest_mm: f64,
    /// Web shear over what the plate carries.
    pub plate_use: f64,
}

impl Stretch {
    /// What its leg has to hold: with one side where that may be welded, with both elsewhere.
    pub fn need(&self) -> &Requirement {
        self.one.as_ref().unwrap_or(&self.two)
    }
}

/// All that is needed, and what no weld can mend.
#[derive(Debug, Clone, PartialEq)]
pub struct Requirements {
    /// Stretches, outer seam first, along x.
    pub stretches: Vec<Stretch>,
    /// The same before those of the same plates were joined: each ends where a pass of the job does, too.
    pub(crate) pieces: Vec<Stretch>,
    /// Strengths by the code.
    pub(crate) strengths: Strengths,
    /// What no leg, side or procedure can mend.
    pub blocks: Vec<Message>,
}

/// Works the needs out.
pub fn needs(job: &Job, carries: &Carries, wishes: &Constraints) -> Requirements {
    let strengths = Strengths::of(carries.code, &carries.electrode, &job.member.steel);
    let mut blocks = Vec::new();
    let ends = carries.both_sides_mm.iter().flat_map(|s| [s.0, s.1]);
    let kept = job.passes.iter().flat_map(|p| [p.from_mm, p.to_mm]);
    let spans = spans(&job.member, ends.chain(carries.demand.breaks_mm()).chain(kept));
    let (mut stretches, mut pieces) = (Vec::<Stretch>::new(), Vec::new());
    for seam in Seam::BOTH {
        for span in &spans {
            let here = stretch(job, carries, wishes, &strengths, span, seam, &mut blocks);
            pieces.push(here.clone());
            match stretches.last_mut() {
                Some(before) if same(before, &here) => join(before, here),
                _ => stretches.push(here),
            }
        }
    }
    Requirements { stretches, pieces, strengths, blocks }
}

fn same(a: &Stretch, b: &Stretch) -> bool {
    let bits = |s: &Stretch| [s.web_mm, s.flange_mm].map(f64::to_bits);
    a.seam == b.seam && bits(a) == bits(b) && a.both_sides == b.both_sides
}

/// Two spans with the same plates are one stretch; the greater need counts.
fn join(a: &mut Stretch, b: Stretch) {
    let greater = |a: &Requirement, b: &Requirement| {
        if b.leg_mm > a.leg_mm || b.strength_mm > a.strength_mm { b.clone() } else { a.clone() }
    };
    a.to_mm = b.to_mm;
    a.two = greater(&a.two, &b.two);
    a.one = match (&a.one, &b.one) {
        (Some(one), Some(other)) => Some(greater(one, other)),
        _ => None,
    };
    if b.flow.n_per_mm > a.flow.n_per_mm {
        a.flow = b.flow;
        a.flow_at_mm = b.flow_at_mm;
    }
    a.plate_use = a.plate_use.max(b.plate_use);
}

fn stretch(
    job: &Job,
    carries: &Carries,
    wishes: &Constraints,
    strengths: &Strengths,
    span: &Span,
    seam: Seam,
    blocks: &mut Vec<Message>,
) -> Stretch {
    let (web_mm, flange_mm) = (span.plates.web_mm, span.plates.flange_mm(seam).1);
    let places = (0..=PLACES).map(|n| span.from_mm + n as f64 / PLACES as f64 * span.length_mm());
    let flows: Vec<(f64, Flow)> = places.map(|x| (x, flow_at(&carries.demand, span, seam, x))).collect();
    let (flow_at_mm, flow) = flows
        .iter()
        .copied()
        .max_by(|a, b| a.1.n_per_mm.total_cmp(&b.1.n_per_mm).then(b.0.total_cmp(&a.0)))
        .unwrap_or_default();
    let plate_use = flows
        .iter()
        .map(|(_, f)| f.n_per_mm.max(f.web_n_per_mm) / (strengths.plate_mpa * web_mm))
        .fold(0.0, f64::max);
    if plate_use > 1.0 {
        let block = Message::of(
            "the web of {} carries {} of its shear strength ({}): no weld mends that, a thicker web does",
            [
                Part::Plate(web_mm),
                format!("{:.0} %", 100.0 * plate_use).into(),
                carries.code.base_clause().into(),
            ],
        );
        push_new(blocks, block);
    }
    let needed = carries.both_sides_mm.iter().any(|s| s.0 < span.middle_mm() && s.1 > span.middle_mm());
    let forbidden = one_sided_blocks(web_mm, carries.service);
    let kept = partly_far(job, span, seam);
    let both_sides = match (needed || kept, forbidden, wishes.sides) {
        (true, ..) if !needed => Some("the job welds both sides here".into()),
        (true, ..) => Some("the job asks for it".into()),
        (_, Some((rule, why)), _) => Some(why.then(Message::of(
            " ({}: our guide, a choice where that code is not asked for)",
            [rule.origin.words().into()],
        ))),
        (.., Sides::Both) => Some("wished".into()),
        _ => None,
    };
    let largest = (LEG_OVER_PLATE * web_mm.min(flange_mm) + SAME_LEG_MM / 2.0)
        .min(wishes.largest_leg_mm.unwrap_or(f64::INFINITY));
    let mut need = |lines: f64| {
        let one_sided = lines < 1.5;
        let minimum = needed_leg(&carries.minimums, (web_mm, flange_mm), one_sided, job.units);
        if let Err(rule) = minimum
            && !one_sided
        {
            push_new(blocks, no_rule(rule, web_mm, flange_mm));
        }
        let found = minimum.unwrap_or(None);
        let no_entry = one_sided && minimum.is_err();
        (need_of(strengths.leg_mm(flow.n_per_mm, lines), found, carries, wishes), no_entry)
    };
    let ((one, one_has_no_rule), (two, _)) = (need(1.0), need(2.0));
    Stretch {
        seam,
        from_mm: span.from_mm,
        to_mm: span.to_mm,
        web_mm,
        flange_mm,
        flow,
        flow_at_mm,
        one: (both_sides.is_none() && !one_has_no_rule).then_some(one),
        both_sides,
        two,
        largest_mm: wishes.step_down(largest),
        plate_use,
    }
}

/// Whether the job welds the far side here but not all along: somebody wants both sides there, and they stay.
fn partly_far(job: &Job, span: &Span, seam: Seam) -> bool {
    let far = || job.passes.iter().filter(move |p| p.seam == seam && p.side == Side::Far);
    let here = far().any(|p| p.from_mm < span.middle_mm() && p.to_mm > span.middle_mm());
    let welded: f64 = far().map(|p| p.to_mm - p.from_mm).sum();
    here && welded < job.member.length_mm - 1.0
}

/// A block is said once, wherever along the member it comes again.
fn push_new(blocks: &mut Vec<Message>, block: Message) {
    if !blocks.contains(&block) {
        blocks.push(block);
    }
}

fn no_rule(rule: &Minimum, web_mm: f64, flange_mm: f64) -> Message {
    Message::of(
        "{} has no entry for a web of {} and a flange of {}: name another rule in `demand.minimums`",
        [rule.origin.words().into(), Part::Plate(web_mm), Part::Plate(flange_mm)],
    )
}

fn need_of(
    strength_mm: f64,
    minimum: Option<Needed>,
    carries: &Carries,
    wishes: &Constraints,
) -> Requirement {
    let minimum_mm = minimum.map_or(0.0, |m| m.leg_mm);
    let wished = wishes.least_leg_mm.unwrap_or(0.0);
    let governs = if wished > strength_mm && wished > minimum_mm {
        Governs::OwnBound
    } else if strength_mm > minimum_mm {
        Governs::Strength(carries.code.clause())
    } else {
        Governs::Minimum(minimum.map_or_else(String::new, |m| m.rule.origin.marked()))
    };
    let leg_mm = wishes.step_up(strength_mm.max(minimum_mm).max(wished));
    Requirement { leg_mm, strength_mm, minimum_mm, governs }
}
