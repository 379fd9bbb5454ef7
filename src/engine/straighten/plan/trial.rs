//! The printed rule tried on a piece that is not the one planned for: an operator follows it with gauges that are off.
//!
//! The piece is the model's own (plain bending), of another yield strength, with or without stress in its seams. Nothing here is measured;
//! it says what the rule can do if plain bending holds.

use super::log::{Next, PushReading, READ_MM, next};
use super::rule::GIVE_KNOWN;
use super::{FORCE_READ, MOST_TRIES, Push};
use crate::member::Member;
use crate::numerics::halved;
use crate::scatter::{Distribution, SamplingMethod, SamplingPlan, Spread};
use crate::straighten::press::{PressError, PressSpan, Rams, WeldStress};

/// True yield over the given one: plate tests up to a third above its minimum (common practice, no source; AISC R_y 1.1 to 1.3,
/// memory), and a piece may have been given a little too high a value (choice).
pub const TRUE_YIELD: (f64, f64) = (0.90, 1.35);

/// What the piece and the press really are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reality {
    /// Yield strength over the one planned with.
    pub yield_factor: f64,
    /// Stress in its seams.
    pub weld: Option<WeldStress>,
    /// Give of frame and packing, mm per N in each ram.
    pub give_mm_per_n: f64,
    /// Force as read over the force.
    pub(crate) gauge: f64,
}

/// How far each reading of a push is off, mm: the travel as stopped at, and the set.
pub(crate) type Slip = [f64; 2];

/// How one operator ended who followed the rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Trial {
    /// What his piece and press really were.
    pub real: Reality,
    /// What he read after each push.
    pub readings: Vec<PushReading>,
    /// What really stayed in all after each push, over the wanted set.
    pub made: Vec<f64>,
}

impl Trial {
    /// What stayed in the end over the wanted set; 0 if nothing was pushed.
    pub fn ended(&self) -> f64 {
        self.made.last().copied().unwrap_or(0.0)
    }
}

/// Half width of the band about 1 in which a trial has hit: where the rule says stop, and two deviations of the dial it is read with.
pub fn hits_within(push: &Push) -> f64 {
    (push.enough_mm() + 2.0 * READ_MM) / push.wanted_mm()
}

/// Trials of a push: so many steels evenly over [`TRUE_YIELD`], each with its seams stressed and not, each for so many operators whose
/// gauges, frame and readings are off by chance. The same seed gives the same operators.
///
/// # Errors
/// [`PressError`] if the member cannot be set up.
pub fn trials(
    push: &Push,
    member: &Member,
    weld: WeldStress,
    (steels, each): (u32, u32),
    seed: u64,
) -> Result<Vec<Trial>, PressError> {
    const DRAWN: usize = 2 + 2 * MOST_TRIES;
    let bell = Spread::uncut(Distribution::Normal { mean: 0.0, sd: 1.0 });
    let count = 2 * steels * each;
    // a layout without order can be drawn for any number of cases above none
    let plan = SamplingPlan::new(SamplingMethod::Random, count.max(1) as usize, seed, DRAWN).ok();
    let one = |n: u32| {
        let mut drawn = [0.5; DRAWN];
        if let Some(plan) = plan {
            plan.point(n as usize, &mut drawn);
        }
        let [give, gauge, slips @ ..]: [f64; DRAWN] = drawn.map(|u| bell.quantile(u));
        let part = f64::from(n / (2 * each)) / f64::from(steels.max(2) - 1);
        let real = Reality {
            yield_factor: TRUE_YIELD.0 + part * (TRUE_YIELD.1 - TRUE_YIELD.0),
            weld: (n % 2 == 1).then_some(weld),
            give_mm_per_n: push.give_mm_per_n * (1.0 + GIVE_KNOWN * give).max(0.0),
            gauge: 1.0 + FORCE_READ * gauge,
        };
        let slips: [Slip; MOST_TRIES] =
            std::array::from_fn(|i| [READ_MM * slips[2 * i], READ_MM * slips[2 * i + 1]]);
        let (readings, sets) = follow(push, member, &real, &slips)?;
        Ok(Trial { real, readings, made: sets.iter().map(|s| s / push.wanted_mm()).collect() })
    };
    (0..count).map(one).collect()
}

/// A piece on the press.
struct Piece {
    span: PressSpan,
    /// Travel that goes back when a newton is let off, mm/N.
    spring_mm_per_n: f64,
}

impl Piece {
    /// A piece in a press whose frame gives so much, mm per N; a dial midway between two rams does not see it.
    fn new(span: PressSpan, give_mm_per_n: f64) -> Self {
        let spring_mm_per_n = match span.layout().rams {
            Rams::One(_) => span.dial_mm_per_n() + give_mm_per_n,
            Rams::Two(..) => span.dial_mm_per_n(),
        };
        Self { span, spring_mm_per_n }
    }

    /// Travel and set at the gauge under a force, mm.
    fn at(&self, force: f64) -> Option<(f64, f64)> {
        let bent = self.span.under(force)?;
        Some((bent.set_mm + self.spring_mm_per_n * force, bent.set_mm))
    }

    /// Force, travel and set at which travel less `line` times the force is `offset`; beyond the hinge the travel grows alone. The line
    /// begins at a force of `least`: below it work stops at the travel with which it begins.
    fn meets(&self, line: f64, offset: f64, least: f64) -> (f64, f64, f64) {
        let hinge = self.span.hinge_n() * (1.0 - 1e-8);
        let off =
            |f: f64| self.at(f).map_or(f64::INFINITY, |(travel, _)| travel - line * f.max(least) - offset);
        let short = -off(hinge);
        if short > 0.0 {
            let set = self.at(hinge).map_or(0.0, |(_, set)| set);
            return (hinge, line * hinge.max(least) + offset, set + short);
        }
        let [low, _] = halved([0.0, hinge], 40, |_, _| true, |force| off(force) < 0.0);
        let (travel, set) = self.at(low).unwrap_or_default();
        (low, travel, set)
    }
}

/// Readings of the pushes of an operator who follows the rule, and the sets that were really made, mm.
///
/// # Errors
/// [`PressError`] if the member cannot be set up.
pub(crate) fn follow(
    push: &Push,
    member: &Member,
    real: &Reality,
    slips: &[Slip; MOST_TRIES],
) -> Result<(Vec<PushReading>, Vec<f64>), PressError> {
    let mut own = member.clone();
    own.steel.yield_mpa *= real.yield_factor;
    let piece = Piece::new(PressSpan::new(&own, push.layout, real.weld)?, real.give_mm_per_n);
    let (mut readings, mut sets): (Vec<PushReading>, Vec<f64>) = (Vec::new(), Vec::new());
    for [travel_slip, set_slip] in slips {
        let Next::Again(again) = next(push, &readings) else { break };
        let before = sets.last().copied().unwrap_or(0.0);
        let rest = push.travel_mm(before, 0.0);
        // along the stop line: travel is the set aimed at and the springback of the force as read
        let line = again.elastic_mm_per_n * real.gauge;
        let first = again.stops.first().filter(|_| readings.is_empty());
        let least = first.map_or(0.0, |stop| stop.force_n / real.gauge);
        let (force, all, set) = piece.meets(line, rest + again.aim_mm + travel_slip, least);
        let set = set.max(before);
        readings.push(PushReading {
            travel_mm: all - rest - travel_slip,
            force_n: Some(real.gauge * force),
            set_mm: set + set_slip,
        });
        sets.push(set);
    }
    Ok((readings, sets))
}
