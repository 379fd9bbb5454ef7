//! What several passes at one web–flange junction do together.
//!
//! The plastic zones of two fillets on either side of a web overlap, so the second adds only part of its own
//! force. How much depends on how warm the first still is:
//!
//! * k(lag) = total/first = k_cold + (k_once − k_cold)/(1 + lag), lag = time between them / t*;
//! * t* = 0.8·y₂²/a, with y₂ = 0.4839·αQ/(ρc·Σt·ε_y) the reach of the plastic zone and a = λ/ρc.
//!
//! Unequal passes: total = larger + (k − 1)·smaller. A repeat pass on the *same* side, laid cold, adds nothing
//! unless it is the larger (k_cold = 1): the largest-pass rule.

use crate::member::Seam;
use crate::welding::Side;

/// Total over first for the second side laid cold. Own strip calculations of 127 free members have 1.34 ± 0.10
/// (`studies/referee/3-second-side.toml` derives one anew); recalled handbook factors run from 1.15 to 1.45. Choice within both.
pub const SECOND_SIDE_COLD: f64 = 1.30;
/// Total over first for both at once: 2.00 ± 0.21 in the same members, 1.97 in a separate bar calculation. Choice within both.
pub const SECOND_SIDE_AT_ONCE: f64 = 1.95;
/// Total over first for a repeat pass on the same side, cold: the largest pass governs (tendon-force tests of
/// the 1970s, memory; own fibre calculation 0.99).
pub const REPEAT_COLD: f64 = 1.0;

/// Thermal expansion, /K, volumetric heat, J/mm³K, and conductivity, W/mmK, of the closed forms.
const ALPHA: f64 = 12e-6;
const RHO_C: f64 = 4.5e-3;
const LAMBDA: f64 = 0.040;

/// Time t* in which a first fillet's zone cools enough for a second to add little, s.
///
/// 1158 J/mm on a 12 mm flange and 8 mm web of S355: y₂ = 27 mm, t* = 66 s.
pub fn cooling_time_s(heat_j_per_mm: f64, flange_mm: f64, web_mm: f64, yield_mpa: f64, e_mpa: f64) -> f64 {
    let legs = 2.0 * flange_mm + web_mm;
    let reach = 0.483_94 * ALPHA * heat_j_per_mm / (RHO_C * legs * yield_mpa / e_mpa);
    0.8 * reach * reach / (LAMBDA / RHO_C)
}

/// Total over first for the second side after a lag (time/t*).
pub fn second_side(lag: f64) -> f64 {
    SECOND_SIDE_COLD + (SECOND_SIDE_AT_ONCE - SECOND_SIDE_COLD) / (1.0 + lag)
}

/// Total over first for a repeat pass on the same side after a lag (time/t*).
pub fn repeat(lag: f64) -> f64 {
    REPEAT_COLD + (SECOND_SIDE_AT_ONCE - REPEAT_COLD) / (1.0 + lag)
}

/// Force of two overlapping passes with factor k, N.
#[inline]
pub fn overlap_n(a: f64, b: f64, k: f64) -> f64 {
    let (larger, smaller) = if a > b { (a, b) } else { (b, a) };
    larger + (k - 1.0) * smaller
}

/// Yield strength of weld metal, MPa: minimum of the 70 ksi wire–flux classes of AWS A5.17 (memory).
pub const WELD_YIELD_MPA: f64 = 400.0;

/// Most that a junction can pull, N.
///
/// All that the strongest heat, with what is still warm of the heat before it, can bring to yield, F/ln 2 (its zone at
/// yield right across: Leggatt's full-yield zone, an upper bound), plus the weld metal at its own yield; and never
/// more than the flange and half the web at yield. On a bar overlaid with forty beads only such a cap came near the
/// measured bow: the plain sum was five times too large.
pub fn yield_cap_n(strongest_n: f64, deposit_mm2: f64, available_mm2: f64, yield_mpa: f64) -> f64 {
    (std::f64::consts::LOG2_E * strongest_n + WELD_YIELD_MPA * deposit_mm2).min(yield_mpa * available_mm2)
}

/// A wait long enough to be cold, s: so long that nothing of the first pass's warmth is left, yet finite, so that
/// several such waits still add up.
pub const COLD_S: f64 = 1e9;

/// When each side of a junction was last welded.
#[derive(Debug, Clone, Copy, Default)]
pub struct Timeline {
    laid_at_s: [Option<f64>; 2],
}

/// How the passes of one order stand in time to what their junction holds already. The same all along a stretch of
/// member, so it is worked out once for the stretch.
#[derive(Debug, Clone, Copy, Default)]
pub struct Meeting {
    /// Part of the strongest earlier heat that is still warm.
    warm: f64,
    /// k of near and far side against an earlier pass on the same side.
    repeat: [f64; 2],
    /// Side laid last: the far one of two laid at once.
    second: usize,
    /// k between the sides.
    between: f64,
    /// Part of the first side's moment that is left.
    left: f64,
}

impl Timeline {
    /// Welds near and far side (as `laid` says) at `at_s` on the shop clock, with t* `cooling_s`.
    pub fn meet(&mut self, laid: [bool; 2], at_s: f64, cooling_s: f64) -> Meeting {
        let lag_since = |then: Option<f64>| then.map_or(f64::INFINITY, |t| (at_s - t) / cooling_s);
        let lags = self.laid_at_s.map(lag_since);
        let second = usize::from(laid[1]);
        let between = if laid == [true; 2] { 0.0 } else { lags[1 - second] };
        for (laid_at_s, _) in self.laid_at_s.iter_mut().zip(laid).filter(|(_, now)| *now) {
            *laid_at_s = Some(at_s);
        }
        Meeting {
            warm: 1.0 / (1.0 + lags[0].min(lags[1])),
            repeat: lags.map(repeat),
            second,
            between: second_side(between),
            left: super::lateral::left_after_second(between),
        }
    }
}

/// What one side of a junction holds.
#[derive(Debug, Clone, Copy, Default)]
struct Flank {
    force_n: f64,
    arm_mm: f64,
}

/// The junction of web and one flange at one station, as passes are laid.
#[derive(Debug, Clone, Copy, Default)]
pub struct Joint {
    flanks: [Flank; 2],
    total_n: f64,
    moment_n_mm: f64,
    strongest_n: f64,
    deposit_mm2: f64,
    capped: bool,
}

/// The passes of one order at one junction, at one station.
#[derive(Debug, Clone, Copy)]
pub struct Laid<'a> {
    /// Lone force of near and far pass, N (0 where there is none).
    pub lone_n: [f64; 2],
    /// Lateral arm of near and far pass, mm, without sign.
    pub arm_mm: [f64; 2],
    /// Weld metal of both, mm².
    pub deposit_mm2: f64,
    /// How they stand to what is there.
    pub meeting: &'a Meeting,
    /// Flange and half the web, mm².
    pub available_mm2: f64,
    /// Yield strength, MPa.
    pub yield_mpa: f64,
}

/// What an order adds at a junction.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Added {
    /// Force, N.
    pub force_n: f64,
    /// Sideways moment about the web plane, N·mm, + near.
    pub moment_n_mm: f64,
}

impl Joint {
    /// A junction whose web edge was cut hot and has spent that force already (N); 0 for a sheared edge.
    pub fn with_spent_force(force_n: f64) -> Self {
        Self { total_n: force_n, ..Self::default() }
    }

    /// Whether yield held a force down here.
    pub const fn capped(&self) -> bool {
        self.capped
    }

    /// Lays the passes of one order and returns what they add.
    #[inline]
    pub fn lay(&mut self, laid: &Laid<'_>) -> Added {
        let Meeting { warm, repeat, second, between, left } = *laid.meeting;
        for (side, flank) in self.flanks.iter_mut().enumerate() {
            if laid.lone_n[side] > 0.0 {
                // the larger pass governs where the side pulls, as it governs how hard
                if laid.lone_n[side] > flank.force_n {
                    flank.arm_mm = laid.arm_mm[side];
                }
                flank.force_n = overlap_n(flank.force_n, laid.lone_n[side], repeat[side]);
            }
        }
        self.strongest_n = self.strongest_n.max(laid.lone_n[0] + laid.lone_n[1] + warm * self.strongest_n);
        self.deposit_mm2 += laid.deposit_mm2;
        let free = overlap_n(self.flanks[0].force_n, self.flanks[1].force_n, between);
        let cap = yield_cap_n(self.strongest_n, self.deposit_mm2, laid.available_mm2, laid.yield_mpa);
        self.capped |= free > cap;
        let total = free.min(cap).max(self.total_n);
        let pull = [Side::Near.sign(), Side::Far.sign()];
        let pull = |side: usize| pull[side] * self.flanks[side].force_n * self.flanks[side].arm_mm;
        let moment = super::lateral::combined_moment(pull(1 - second), pull(second), left);
        let added = Added { force_n: total - self.total_n, moment_n_mm: moment - self.moment_n_mm };
        self.total_n = total;
        self.moment_n_mm = moment;
        added
    }
}

/// Index of a side in the pairs of [`Laid`].
pub const fn side_index(side: Side) -> usize {
    match side {
        Side::Near => 0,
        Side::Far => 1,
    }
}

/// Index of a seam in pairs, outer first.
pub const fn seam_index(seam: Seam) -> usize {
    match seam {
        Seam::Outer => 0,
        Seam::Inner => 1,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Bench(Joint, Timeline);

    impl Bench {
        fn new() -> Self {
            Self(Joint::default(), Timeline::default())
        }

        fn lay_on(&mut self, near: f64, far: f64, at_s: f64, available_mm2: f64) -> Added {
            self.0.lay(&Laid {
                lone_n: [near, far],
                // a smaller leg pulls nearer to the web
                arm_mm: [near, far].map(|n| if n < 90e3 { 2.5 } else { 3.0 }),
                deposit_mm2: 20.0,
                meeting: &self.1.meet([near > 0.0, far > 0.0], at_s, 60.0),
                available_mm2,
                yield_mpa: 355.0,
            })
        }

        fn lay(&mut self, near: f64, far: f64, at_s: f64) -> Added {
            self.lay_on(near, far, at_s, 4000.0)
        }
    }

    #[test]
    fn second_side_adds_thirty_percent_cold_and_nearly_its_own_force_at_once() {
        let total = |second_at: f64| {
            let mut joint = Bench::new();
            joint.lay(100e3, 0.0, 0.0).force_n + joint.lay(0.0, 100e3, second_at).force_n
        };
        assert!((total(COLD_S) - 130e3).abs() < 1.0, "{}", total(COLD_S));
        assert!((total(60.0) - 162.5e3).abs() < 1.0, "one t* later: {}", total(60.0));
        let at_once = Bench::new().lay(100e3, 100e3, 0.0);
        assert!((at_once.force_n - 195e3).abs() < 1.0 && at_once.moment_n_mm.abs() < 1e-6, "{at_once:?}");
    }

    #[test]
    fn a_cold_repeat_on_the_same_side_counts_only_when_it_is_larger() {
        let mut joint = Bench::new();
        joint.lay(100e3, 0.0, 0.0);
        let smaller = joint.lay(80e3, 0.0, COLD_S);
        assert!(smaller.force_n < 1.0 && smaller.moment_n_mm.abs() < 1.0, "{smaller:?}");
        let larger = joint.lay(150e3, 0.0, 2.0 * COLD_S);
        assert!((larger.force_n - 50e3).abs() < 1.0, "{larger:?}");
    }

    #[test]
    fn a_hot_cut_edge_has_spent_part_of_the_force() {
        let mut joint = Bench(Joint::with_spent_force(cut(6.0)), Timeline::default());
        let added = joint.lay(100e3, 0.0, 0.0).force_n;
        assert!((added - (100e3 - cut(6.0))).abs() < 1e-6);
    }

    fn cut(t: f64) -> f64 {
        super::super::prior::cut_edge_force_n(t)
    }

    #[test]
    fn many_warm_passes_are_held_down_by_yield() {
        let mut joint = Bench::new();
        let sum: f64 = (0..12).map(|i| joint.lay_on(100e3, 0.0, f64::from(i), 1500.0).force_n).sum();
        assert!(joint.0.capped(), "twelve passes one second apart");
        assert!((sum - 355.0 * 1500.0).abs() < 1.0, "{sum:.0} N");
    }
}
