//! The beads of one order at one joint, and how they stand in time to what the joint holds already: all that does not
//! change along a stretch of member, worked out once.

use super::lateral_arm;
use super::second_side::{Deposit, REPEAT_COLD, second_side_cold, share_warm, side_index};
use super::source::{Legs, Source};
use crate::welding::{Side, Wait};

/// A wait long enough to be cold, s: so long that nothing of the first pass's warmth is left, yet finite, so that
/// several such waits still add up.
pub const COLD_S: f64 = 1e9;
/// Part still warm below which two passes have nothing to do with each other.
const NOTHING_WARM: f64 = 1e-6;

/// Shop clock after a wait, s.
///
/// ```
/// use weldbow_engine::{shrinkage::fillets::after_s, welding::Wait};
/// assert!((after_s(60.0, Wait::Seconds(30.0)) - 90.0).abs() < 1e-12);
/// ```
pub const fn after_s(now_s: f64, wait: Wait) -> f64 {
    now_s
        + match wait {
            Wait::Cold => COLD_S,
            Wait::Seconds(s) => s,
        }
}

/// A bead as its joint sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bead {
    /// Side of the web.
    pub side: Side,
    /// Net heat, J/mm of bead.
    pub heat_j_per_mm: f64,
    /// Welded part of the length.
    pub welded_fraction: f64,
    /// Weld metal, mm², of the bead itself.
    pub deposit_mm2: f64,
    /// How far from the web plane it pulls, mm, without sign.
    pub arm_mm: f64,
    /// Multiplier on its force beside the welded part.
    pub times: f64,
}

/// Two heats at one joint.
#[derive(Debug, Clone, Copy)]
struct Overlap {
    /// Each alone, and both as one.
    alone: [Source; 2],
    as_one: Source,
    cold: f64,
    warm: f64,
}

impl Overlap {
    /// Total over larger, of equal ones: k = cold + (once − cold)·warm, where both at once pull like one pass of their
    /// heats together.
    #[inline]
    fn factor(&self, give_per_mm2: [f64; 2]) -> f64 {
        let [a, b] = self.alone.map(|source| source.lone_n(give_per_mm2));
        let (larger, smaller) = if a > b { (a, b) } else { (b, a) };
        let once = 1.0 + ((self.as_one.lone_n(give_per_mm2) - larger) / smaller).max(0.0);
        self.cold + (once - self.cold) * self.warm
    }
}

/// What one side of a joint holds.
#[derive(Debug, Clone, Copy)]
struct Past {
    at_s: f64,
    /// Heat that would do alone what all passes of this side did, J/mm, and the part of it that stretches the section.
    heat_j_per_mm: f64,
    stretching_j_per_mm: f64,
}

impl Past {
    fn joined(self, new: Self, warm: f64) -> Self {
        let of = |a: f64, b: f64| a.max(b) + warm * a.min(b);
        Self {
            at_s: new.at_s,
            heat_j_per_mm: of(self.heat_j_per_mm, new.heat_j_per_mm),
            stretching_j_per_mm: of(self.stretching_j_per_mm, new.stretching_j_per_mm),
        }
    }
}

/// When each side of a joint was last welded, and with how much heat.
#[derive(Debug, Clone, Copy, Default)]
pub struct Timeline {
    sides: [Option<Past>; 2],
}

/// The beads of one order at one joint.
#[derive(Debug, Clone, Copy)]
pub struct Fillets {
    alone: [Source; 2],
    times: [f64; 2],
    arm_mm: [f64; 2],
    repeat: [Option<Overlap>; 2],
    between: Option<Overlap>,
    cold: f64,
    left: f64,
    warm: f64,
    second: usize,
    deposit_mm2: f64,
    /// Time t_w of their strongest heat, s.
    pub warm_s: f64,
}

impl Timeline {
    /// Welds beads at `at_s` on the shop clock. `beside` tells the heat at the other seam, J/mm, that still or already
    /// stretches the section at either of two times on that clock, given t_w.
    pub fn meet(
        &mut self,
        legs: &Legs,
        beads: &[Option<Bead>; 2],
        at_s: f64,
        beside: impl Fn([f64; 2], f64) -> f64,
    ) -> Fillets {
        let heats = || beads.iter().flatten().map(|b| b.heat_j_per_mm);
        let longest =
            |time: fn(&Legs, f64) -> f64| heats().map(|h| time(legs, h)).fold(f64::MIN_POSITIVE, f64::max);
        let (cooling_s, warm_s) = (longest(Legs::cooling_time_s), longest(Legs::warm_time_s));
        let since = |past: Option<Past>| past.map_or(f64::INFINITY, |p| at_s - p.at_s);
        let before = self.sides;
        let sinces = before.map(since);
        let lags = sinces.map(|s| s / warm_s);
        let other_now = beside([at_s; 2], warm_s);
        let second = usize::from(beads[1].is_some());
        let at_once = beads.iter().all(Option::is_some);
        let between_s = if at_once { 0.0 } else { sinces[1 - second] };
        let mut alone = [Source::default(); 2];
        let mut repeat = [None; 2];
        for (side, bead) in beads.iter().enumerate() {
            let Some(bead) = bead else { continue };
            let new = Past {
                at_s,
                heat_j_per_mm: bead.heat_j_per_mm,
                stretching_j_per_mm: bead.heat_j_per_mm * bead.welded_fraction,
            };
            alone[side] = legs.source(new.heat_j_per_mm, [new.stretching_j_per_mm, other_now]);
            let warm = share_warm(lags[side]);
            self.sides[side] = Some(match before[side] {
                Some(old) => {
                    repeat[side] = overlap(legs, [old, new], REPEAT_COLD, warm, warm_s, &beside);
                    old.joined(new, warm)
                }
                None => new,
            });
        }
        let (cold, between) = match self.sides {
            [Some(near), Some(far)] => {
                let strongest = near.heat_j_per_mm.max(far.heat_j_per_mm);
                let cold = second_side_cold(legs.reach_mm(strongest) / legs.web_mm);
                (cold, overlap(legs, [near, far], cold, share_warm(between_s / warm_s), warm_s, &beside))
            }
            // with one side there is nothing between
            _ => (1.0, None),
        };
        let of = |value: fn(&Bead) -> f64| [0, 1].map(|side| beads[side].as_ref().map_or(0.0, value));
        Fillets {
            alone,
            times: of(|b| b.times * b.welded_fraction),
            arm_mm: of(|b| b.arm_mm),
            repeat,
            between,
            cold,
            left: lateral_arm::left_after_second(between_s / cooling_s),
            warm: share_warm(lags[0].min(lags[1])),
            second,
            deposit_mm2: of(|b| b.deposit_mm2 * b.welded_fraction).iter().sum(),
            warm_s,
        }
    }
}

/// Two heats in one joint, unless the first is cold.
fn overlap(
    legs: &Legs,
    pair: [Past; 2],
    cold: f64,
    warm: f64,
    warm_s: f64,
    beside: &impl Fn([f64; 2], f64) -> f64,
) -> Option<Overlap> {
    if warm < NOTHING_WARM {
        return None;
    }
    let other = beside(pair.map(|p| p.at_s), warm_s);
    let [a, b] = pair;
    let source = |heat, stretching| legs.source(heat, [stretching, other]);
    Some(Overlap {
        alone: pair.map(|p| source(p.heat_j_per_mm, p.stretching_j_per_mm)),
        as_one: source(a.heat_j_per_mm + b.heat_j_per_mm, a.stretching_j_per_mm + b.stretching_j_per_mm),
        cold,
        warm,
    })
}

impl Fillets {
    /// What they bring where the section gives by `give_per_mm2` (see [`Source::lone_n`]) and their force is that times
    /// `factor`; `available_mm2` of flange and web yields at most.
    #[inline]
    pub fn laid(&self, give_per_mm2: [f64; 2], factor: f64, available_mm2: f64, yield_mpa: f64) -> Deposit {
        let lone = |side: usize| factor * self.times[side] * self.alone[side].lone_n(give_per_mm2);
        let of = |overlap: &Option<Overlap>, cold| overlap.as_ref().map_or(cold, |o| o.factor(give_per_mm2));
        Deposit {
            lone_n: [lone(0), lone(1)],
            arm_mm: self.arm_mm,
            deposit_mm2: self.deposit_mm2,
            warm: self.warm,
            repeat: [of(&self.repeat[0], REPEAT_COLD), of(&self.repeat[1], REPEAT_COLD)],
            second: self.second,
            between: of(&self.between, self.cold),
            left: self.left,
            available_mm2,
            yield_mpa,
        }
    }

    /// Force of near and far bead alone, N, as [`Self::laid`].
    #[inline]
    pub fn lone_n(&self, side: Side, give_per_mm2: [f64; 2], factor: f64) -> f64 {
        let side = side_index(side);
        factor * self.times[side] * self.alone[side].lone_n(give_per_mm2)
    }
}
