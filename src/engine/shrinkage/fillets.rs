//! The beads of one order at one joint, and how they stand in time to what the joint holds already: all that does not
//! change along a stretch of member, worked out once.

use super::lateral_arm;
use super::second_side::{LaidPasses, REPEAT_COLD, felt_lag, second_side_cold, share_warm, side_index};
use super::source::{Legs, PlateHeat};
use crate::numerics::Number;
use crate::welding::{Side, Wait};

/// A wait long enough to be cold, s: so long that nothing of the first pass's warmth is left, yet finite, so that
/// several such waits still add up.
pub(crate) const COLD_S: f64 = 1e9;
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
pub(crate) struct Bead<N = f64> {
    /// Side of the web.
    pub(crate) side: Side,
    /// Net heat, J/mm of bead.
    pub(crate) heat_j_per_mm: N,
    /// Welded part of the length.
    pub(crate) welded_fraction: N,
    /// Weld metal, mm², of the bead itself.
    pub(crate) deposit_mm2: N,
    /// How far from the web plane it pulls, mm, without sign.
    pub(crate) arm_mm: N,
    /// Multiplier on its force beside the welded part.
    pub(crate) times: N,
}

/// Two heats at one joint.
#[derive(Debug, Clone, Copy)]
struct Overlap<N> {
    /// Each alone, and both as one.
    alone: [PlateHeat<N>; 2],
    as_one: PlateHeat<N>,
    cold: N,
    apart: Apart<N>,
}

/// How far apart in time two heats at one joint are.
#[derive(Debug, Clone, Copy)]
struct Apart<N> {
    /// Time between them over t_w.
    lag: N,
    /// The larger heat that stretches the section, J/mm.
    stretching_j_per_mm: N,
}

impl<N: Number> Apart<N> {
    #[cfg_attr(wide, inline(always))]
    fn of([a, b]: [Past<N>; 2], lag: N) -> Self {
        Self { lag, stretching_j_per_mm: a.stretching_j_per_mm.max(b.stretching_j_per_mm) }
    }

    /// The lag as a section of that give feels it.
    #[cfg_attr(wide, inline(always))]
    fn felt(&self, give_per_mm2: [N; 2], yield_mpa: N) -> N {
        let stretch = (self.stretching_j_per_mm * give_per_mm2[0]).max(N::default());
        felt_lag(self.lag, stretch, yield_mpa)
    }
}

impl<N: Number> Overlap<N> {
    /// Total over larger, of equal ones: k = cold + (once − cold)·warm, where both at once pull like one pass of their
    /// heats together. Few joints need it: kept apart, so that the usual way stays short.
    #[inline(never)]
    fn factor(&self, give_per_mm2: [N; 2], yield_mpa: N) -> N {
        let [a, b] = self.alone.map(|source| source.lone_n(give_per_mm2));
        let more = (self.as_one.lone_n(give_per_mm2) - a.max(b)) / a.min(b);
        let once = more.max(N::default()) + 1.0;
        let warm = share_warm(self.apart.felt(give_per_mm2, yield_mpa));
        self.cold + (once - self.cold) * warm.above(N::all(NOTHING_WARM), warm, N::default())
    }
}

/// What one side of a joint holds.
#[derive(Debug, Clone, Copy)]
struct Past<N> {
    at_s: N,
    /// Heat that would do alone what all passes of this side did, J/mm, and the part of it that stretches the section.
    heat_j_per_mm: N,
    stretching_j_per_mm: N,
}

impl<N: Number> Past<N> {
    #[cfg_attr(wide, inline(always))]
    fn joined(self, new: Self, warm: N) -> Self {
        let of = |a: N, b: N| a.max(b) + warm * a.min(b);
        Self {
            at_s: new.at_s,
            heat_j_per_mm: of(self.heat_j_per_mm, new.heat_j_per_mm),
            stretching_j_per_mm: of(self.stretching_j_per_mm, new.stretching_j_per_mm),
        }
    }
}

/// When each side of a joint was last welded, and with how much heat.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Timeline<N = f64> {
    sides: [Option<Past<N>>; 2],
}

/// The beads of one order at one joint.
#[derive(Debug, Clone)]
pub(crate) struct Fillets<N = f64> {
    alone: [Option<PlateHeat<N>>; 2],
    times: [N; 2],
    arm_mm: [N; 2],
    // few joints have any, and they are large
    repeat: [Option<Box<Overlap<N>>>; 2],
    between: Option<Box<Overlap<N>>>,
    cold: N,
    /// Both sides, where both are laid.
    apart: Option<Apart<N>>,
    warm: N,
    second: usize,
    deposit_mm2: N,
    /// Time t_w of their strongest heat, s.
    pub(crate) warm_s: N,
}

impl<N: Number> Timeline<N> {
    /// Welds beads at `at_s` on the shop clock. `beside` tells the heat at the other seam, J/mm, that still or already
    /// stretches the section at either of two times on that clock, given t_w.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn meet(
        &mut self,
        legs: &Legs<N>,
        beads: &[Option<Bead<N>>; 2],
        at_s: N,
        beside: impl Fn([N; 2], N) -> N,
    ) -> Fillets<N> {
        let never = N::all(f64::INFINITY);
        let heats = || beads.iter().flatten().map(|b| b.heat_j_per_mm);
        // the longest of both times is that of the strongest heat
        let strongest = heats().fold(N::all(f64::MIN_POSITIVE), N::max);
        let warm_s = legs.warm_time_s(strongest);
        let since = |past: Option<Past<N>>| past.map_or(never, |p| at_s - p.at_s);
        let before = self.sides;
        let sinces = before.map(since);
        let lags = sinces.map(|s| s / warm_s);
        let other_now = beside([at_s; 2], warm_s);
        let second = usize::from(beads[1].is_some());
        let at_once = beads.iter().all(Option::is_some);
        let between_s = if at_once { N::default() } else { sinces[1 - second] };
        let mut alone = [None; 2];
        let mut repeat = [None, None];
        for (side, bead) in beads.iter().enumerate() {
            let Some(bead) = bead else { continue };
            let new = Past {
                at_s,
                heat_j_per_mm: bead.heat_j_per_mm,
                stretching_j_per_mm: bead.heat_j_per_mm * bead.welded_fraction,
            };
            alone[side] = Some(legs.source(new.heat_j_per_mm, [new.stretching_j_per_mm, other_now]));
            self.sides[side] = Some(match before[side] {
                Some(old) => {
                    repeat[side] =
                        overlap(legs, [old, new], N::all(REPEAT_COLD), lags[side], warm_s, &beside);
                    old.joined(new, share_warm(lags[side]))
                }
                None => new,
            });
        }
        let (cold, apart, between) = match self.sides {
            [Some(near), Some(far)] => {
                let strongest = near.heat_j_per_mm.max(far.heat_j_per_mm);
                let cold = second_side_cold(legs.reach_mm(strongest) / legs.web_mm);
                let lag = between_s / warm_s;
                let between = overlap(legs, [near, far], cold, lag, warm_s, &beside);
                (cold, Some(Apart::of([near, far], lag)), between)
            }
            // with one side there is nothing between
            _ => (N::all(1.0), None, None),
        };
        let of =
            |value: fn(&Bead<N>) -> N| [0, 1].map(|side| beads[side].as_ref().map_or(N::default(), value));
        let [near, far] = of(|b| b.deposit_mm2 * b.welded_fraction);
        Fillets {
            alone,
            times: of(|b| b.times * b.welded_fraction),
            arm_mm: of(|b| b.arm_mm),
            repeat,
            between,
            cold,
            apart,
            warm: share_warm(lags[0].min(lags[1])),
            second,
            deposit_mm2: near + far,
            warm_s,
        }
    }
}

/// Two heats in one joint, unless the first is cold.
#[inline(never)]
fn overlap<N: Number>(
    legs: &Legs<N>,
    pair: [Past<N>; 2],
    cold: N,
    lag: N,
    warm_s: N,
    beside: &impl Fn([N; 2], N) -> N,
) -> Option<Box<Overlap<N>>> {
    // no section feels it shorter than a stiff one
    if !share_warm(felt_lag(lag, N::default(), legs.yield_mpa)).any(|warm| warm > NOTHING_WARM) {
        return None;
    }
    let other = beside(pair.map(|p| p.at_s), warm_s);
    let [a, b] = pair;
    let source = |heat, stretching| legs.source(heat, [stretching, other]);
    Some(Box::new(Overlap {
        alone: pair.map(|p| source(p.heat_j_per_mm, p.stretching_j_per_mm)),
        as_one: source(a.heat_j_per_mm + b.heat_j_per_mm, a.stretching_j_per_mm + b.stretching_j_per_mm),
        cold,
        apart: Apart::of(pair, lag),
    }))
}

/// Total over larger of two heats, or `cold` where they have nothing to do with each other.
#[cfg_attr(wide, inline(always))]
fn overlapping<N: Number>(
    overlap: &Option<Box<Overlap<N>>>,
    cold: N,
    give_per_mm2: [N; 2],
    yield_mpa: N,
) -> N {
    match overlap {
        Some(overlap) => overlap.factor(give_per_mm2, yield_mpa),
        None => cold,
    }
}

impl<N: Number> Fillets<N> {
    /// What they bring where the section gives by `give_per_mm2` (see [`PlateHeat::lone_n`]) and their force is that times
    /// `factor`; `available_mm2` of flange and web yields at most.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn laid(
        &self,
        give_per_mm2: [N; 2],
        factor: N,
        available_mm2: N,
        yield_mpa: N,
    ) -> LaidPasses<N> {
        let repeat_cold = N::all(REPEAT_COLD);
        LaidPasses {
            lone_n: [self.alone_n(0, give_per_mm2, factor), self.alone_n(1, give_per_mm2, factor)],
            arm_mm: self.arm_mm,
            deposit_mm2: self.deposit_mm2,
            warm: self.warm,
            repeat: [
                overlapping(&self.repeat[0], repeat_cold, give_per_mm2, yield_mpa),
                overlapping(&self.repeat[1], repeat_cold, give_per_mm2, yield_mpa),
            ],
            second: self.second,
            between: overlapping(&self.between, self.cold, give_per_mm2, yield_mpa),
            left: self.apart.map_or(N::default(), |apart| {
                lateral_arm::left_after_second(apart.felt(give_per_mm2, yield_mpa))
            }),
            available_mm2,
            yield_mpa,
        }
    }

    /// How far from the web plane near and far bead pull, mm, without sign.
    #[cfg_attr(wide, inline(always))]
    pub(crate) const fn arm_mm(&self) -> [N; 2] {
        self.arm_mm
    }

    /// Force of near and far bead alone, N, as [`Self::laid`].
    pub(crate) fn lone_n(&self, side: Side, give_per_mm2: [N; 2], factor: N) -> N {
        self.alone_n(side_index(side), give_per_mm2, factor)
    }

    /// The same by the index of the side; none if nothing is laid there.
    #[cfg_attr(wide, inline(always))]
    fn alone_n(&self, side: usize, give_per_mm2: [N; 2], factor: N) -> N {
        match &self.alone[side] {
            Some(source) => self.times[side] * source.lone_n(give_per_mm2) * factor,
            None => N::default(),
        }
    }
}
