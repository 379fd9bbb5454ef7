//! What several passes at one web–flange junction do together.
//!
//! The plastic zones of two fillets on either side of a web overlap, so the second adds only part of its own
//! force. How much depends on how warm the first still is:
//!
//! * k(u) = total/larger = k_cold + (k_once − k_cold)/(1 + (u/1.53)^1.5), u = lag·(½ + (S/(0.25·f_y/355))²), lag = time between them / t_w;
//! * 1/t_w = 1/(t*·(1 + 4p²)) + 1/t_f with the time t_f in which the faces of the flange lose their heat, and p the reach over half the width of
//!   a flange ([`narrow`](super::narrow)): heat that turns back at its edges stays;
//! * S = Q·(1/A + e²/I), what the heat stretches the section by at this joint: a section that gives way has done with a first side sooner. In
//!   joints solved from first principles (12 mm flange, 8 mm web, 1.0 kJ/mm) half of what both do together is gone after 38 s where the
//!   joint is free and after 130 s where it is held lengthwise;
//! * t* = 0.8·y₂²/a, with y₂ = 0.4839·αQ/(ρc·Σt·ε_y) the reach of the plastic zone and a = λ/ρc;
//! * at once both act as one pass of their heats together: k_once = 1 + (F(Q₁ + Q₂) − F₁)/F₂ by the formula of a lone pass,
//!   its step from thick to thin and its loss in a free section included ([`fillets`](super::fillets));
//! * k_cold falls from 2 to 1 as the plastic zone grows beside the web.
//!
//! Unequal passes: total = larger + (k − 1)·smaller. A repeat pass on the *same* side, laid cold, adds nothing
//! unless it is the larger (k_cold = 1): the largest-pass rule.

use super::tendon::{ALPHA, FITTED_YIELD_MPA};
use crate::member::Seam;
use crate::numerics::Number;
use crate::sources::{Constant, Trust, record};
use crate::welding::Side;

/// Where the zones of two cold sides overlap: k_cold = 1 + 1/(1 + 0.863·p^¾), p the reach y₂ of the plastic zone over the
/// web thickness. Zones small beside the web stay apart (k = 2), zones far larger are one and the same (k = 1). Fitted with
/// the lone force to own strip calculations (flanges 6–32 mm, webs 4–12 mm, 235–460 MPa;
/// `studies/referee/3-second-side.toml` derives one anew); recalled handbook factors run from 1.15 to 1.45.
const COLD_OVERLAP: f64 = 0.863;
/// Lag at which half of what two heats do together is left, t_w: fitted with the lone force to 360 seams of random members welded from
/// both sides, 60 % of them 20–200 s apart (rms 6 %).
const HALF_WARM_LAG: f64 = 1.53;
/// Part of a lag that counts where nothing stretches: with it most is turned round at 2 t_w, as in a held joint solved from first principles
/// (`studies/referee/9-second-side-held.toml`); free members alone, fitted, have 0.5 to 0.8.
const STIFF: f64 = 0.5;
/// Stretch Q·(1/A + e²/I) from whose square all of it counts once more, J/mm³ at 355 MPa.
const STRETCH_J_PER_MM3: f64 = 0.25;
/// Total over first for a cold second side of a weld of no known plates: handbook factors for two fillets on a web.
const SECOND_SIDE_COLD: f64 = 1.30;
/// Total over first for a repeat pass on the same side, cold: the largest pass governs (tendon-force tests of
/// the 1970s, memory; own fibre calculation 0.99).
pub const REPEAT_COLD: f64 = 1.0;

/// Volumetric heat of the closed forms, J/mm³K (a mean of hot steel, memory).
pub(super) const RHO_C: f64 = 4.5e-3;
/// Conductivity of the closed forms, W/mmK (a mean of hot steel, memory).
pub(super) const LAMBDA: f64 = 0.040;

/// Time t* in which a first fillet's zone cools enough for a second to add little, s.
///
/// 1158 J/mm on a 12 mm flange and 8 mm web of S355: y₂ = 27 mm, t* = 66 s.
///
/// ```
/// use weldbow_engine::shrinkage::second_side::cooling_time_s;
/// // 0.8·27.1²/8.889
/// assert!((cooling_time_s(1158.0, 12.0, 8.0, 355.0, 206e3) - 66.1).abs() < 0.1);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn cooling_time_s<N: Number>(heat_j_per_mm: N, flange_mm: N, web_mm: N, yield_mpa: N, e_mpa: N) -> N {
    let reach = reach_mm(heat_j_per_mm, flange_mm, web_mm, yield_mpa, e_mpa);
    reach * reach * (0.8 * RHO_C / LAMBDA)
}

/// Reach y₂ of the plastic zone by thin-plate theory, mm: 0.4839·αQ/(ρc·Σt·ε_y).
///
/// ```
/// use weldbow_engine::shrinkage::second_side::reach_mm;
/// // 0.4839·12e-6·1158/(4.5e-3·32·1.7233e-3)
/// assert!((reach_mm(1158.0, 12.0, 8.0, 355.0, 206e3) - 27.1).abs() < 0.01);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn reach_mm<N: Number>(heat_j_per_mm: N, flange_mm: N, web_mm: N, yield_mpa: N, e_mpa: N) -> N {
    let legs = flange_mm * 2.0 + web_mm;
    heat_j_per_mm * (0.483_94 * ALPHA / RHO_C) * e_mpa / (legs * yield_mpa)
}

/// Total over larger for an equal second side laid cold, by the reach of the plastic zone over the web thickness.
///
/// 27 mm beside an 8 mm web: 1 + 1/(1 + 0.863·3.375^¾) = 1.318.
/// ```
/// use weldbow_engine::shrinkage::second_side::second_side_cold;
/// assert!((second_side_cold(27.0 / 8.0) - 1.318).abs() < 1e-3);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn second_side_cold<N: Number>(reach_over_web: N) -> N {
    let root = reach_over_web.sqrt();
    (root * root.sqrt() * COLD_OVERLAP + 1.0).inverse() + 1.0
}

/// Part in which two heats act as one, by the time between them over t_w, or at one joint as its section feels it ([`felt_lag`]): 1 at
/// once, 0 cold.
///
/// ```
/// use weldbow_engine::shrinkage::second_side::share_warm;
/// assert!((share_warm(1.53) - 0.5).abs() < 1e-12 && share_warm(0.0) == 1.0);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn share_warm<N: Number>(lag: N) -> N {
    let over = lag / HALF_WARM_LAG;
    (over * over.sqrt() + 1.0).inverse()
}

/// The lag (time between two heats at one joint over t_w) as a section feels it that its heat, at this joint, stretches by
/// `stretch`, J/mm³: u = lag·(½ + (S/(0.25·f_y/355))²).
///
/// ```
/// use weldbow_engine::shrinkage::second_side::felt_lag;
/// // held; stretched by 0.25 J/mm³; half as much in steel half as strong does the same
/// assert!((felt_lag(2.0, 0.0, 355.0) - 1.0).abs() < 1e-12);
/// assert!((felt_lag(2.0, 0.25, 355.0) - 3.0).abs() < 1e-12 && (felt_lag(2.0, 0.125, 177.5) - 3.0).abs() < 1e-12);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn felt_lag<N: Number>(lag: N, stretch_j_per_mm3: N, yield_mpa: N) -> N {
    let over = stretch_j_per_mm3 / (yield_mpa * (STRETCH_J_PER_MM3 / FITTED_YIELD_MPA));
    lag * (over * over + STIFF)
}

/// Total over first for a second side of a weld of no known plates where forces are taken in proportion to heat, so that
/// both at once pull twice as hard.
///
/// ```
/// use weldbow_engine::shrinkage::second_side::second_side_of_proportional;
/// // 1.30 + 0.70·0.5
/// assert!((second_side_of_proportional(1.53) - 1.65).abs() < 1e-12);
/// ```
pub fn second_side_of_proportional(lag: f64) -> f64 {
    SECOND_SIDE_COLD + (2.0 - SECOND_SIDE_COLD) * share_warm(lag)
}

/// Force of two overlapping passes with factor k, N.
///
/// ```
/// use weldbow_engine::shrinkage::second_side::overlap_n;
/// // 100 + 0.3·60 kN, whichever was first
/// assert!((overlap_n(60e3, 100e3, 1.3) - 118e3).abs() < 1e-6);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn overlap_n<N: Number>(a: N, b: N, k: N) -> N {
    a.max(b) + (k - 1.0) * a.min(b)
}

/// Yield strength of weld metal, MPa: minimum of the 70 ksi wire–flux classes of AWS A5.17 (memory).
const WELD_YIELD_MPA: f64 = 400.0;

/// Most that a junction can pull, N.
///
/// All that the strongest heat, with what is still warm of the heat before it, can bring to yield, F/ln 2 (its zone at
/// yield right across: Leggatt's full-yield zone, an upper bound), plus the weld metal at its own yield; and never
/// more than the flange and half the web at yield. On a bar overlaid with forty beads only such a cap came near the
/// measured bow: the plain sum was five times too large.
///
/// ```
/// use weldbow_engine::shrinkage::second_side::yield_cap_n;
/// // 100 kN/ln 2 + 400·18 = 151.5 kN; 500 mm² at 235 MPa carry less
/// assert!((yield_cap_n(100e3, 18.0, 3000.0, 355.0) - 151_470.0).abs() < 1.0);
/// assert!((yield_cap_n(100e3, 18.0, 500.0, 235.0) - 117_500.0).abs() < 1e-6);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn yield_cap_n<N: Number>(strongest_n: N, deposit_mm2: N, available_mm2: N, yield_mpa: N) -> N {
    (strongest_n * std::f64::consts::LOG2_E + deposit_mm2 * WELD_YIELD_MPA).min(yield_mpa * available_mm2)
}

/// What one side of a junction holds.
#[derive(Debug, Clone, Copy, Default)]
struct Flank<N> {
    force_n: N,
    arm_mm: N,
}

impl<N: Number> Flank<N> {
    /// The same with what is laid on that side, if anything.
    #[cfg_attr(wide, inline(always))]
    fn with(self, laid: &LaidPasses<N>, side: usize) -> Self {
        let lone = laid.lone_n[side];
        let both = overlap_n(self.force_n, lone, laid.repeat[side]);
        Self {
            force_n: lone.above(N::default(), both, self.force_n),
            // the larger pass governs where the side pulls, as it governs how hard
            arm_mm: lone.above(self.force_n, laid.arm_mm[side], self.arm_mm),
        }
    }
}

/// The junction of web and one flange at one station, as passes are laid.
#[derive(Debug, Clone, Copy, Default)]
pub struct Junction<N = f64> {
    flanks: [Flank<N>; 2],
    total_n: N,
    moment_n_mm: N,
    strongest_n: N,
    deposit_mm2: N,
    capped: N,
}

/// The passes of one order at one junction, at one station.
#[derive(Debug, Clone, Copy)]
pub struct LaidPasses<N = f64> {
    /// Lone force of near and far pass, N (0 where there is none).
    pub lone_n: [N; 2],
    /// Lateral arm of near and far pass, mm, without sign.
    pub arm_mm: [N; 2],
    /// Weld metal of both, mm².
    pub deposit_mm2: N,
    /// Part of the strongest earlier heat that is still warm.
    pub warm: N,
    /// Total over larger of near and far pass with an earlier one on the same side.
    pub repeat: [N; 2],
    /// Side laid last: the far one of two laid at once.
    pub second: usize,
    /// Total over larger of both sides.
    pub between: N,
    /// Part of the first side's moment that is left.
    pub left: N,
    /// Flange and half the web, mm².
    pub available_mm2: N,
    /// Yield strength, MPa.
    pub yield_mpa: N,
}

/// What an order adds at a junction.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Added<N = f64> {
    /// Force, N.
    pub force_n: N,
    /// Sideways moment about the web plane, N·mm, + near.
    pub moment_n_mm: N,
    /// Part of that moment that takes back what was there before, N·mm, + near.
    pub taken_n_mm: N,
}

impl<N: Number> Junction<N> {
    /// Begins anew as a junction whose web edge was cut hot and has spent that force already (N); 0 for a sheared edge.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn begin(&mut self, spent_n: N) {
        let nothing = Flank { force_n: N::default(), arm_mm: N::default() };
        self.flanks = [nothing, nothing];
        (self.total_n, self.moment_n_mm, self.strongest_n) = (spent_n, N::default(), N::default());
        (self.deposit_mm2, self.capped) = (N::default(), N::default());
    }

    /// 1 where yield held a force down, else 0.
    #[cfg_attr(wide, inline(always))]
    pub(crate) const fn capped(&self) -> N {
        self.capped
    }

    /// Lays the passes of one order and returns what they add.
    #[cfg_attr(wide, inline(always))]
    pub fn lay(&mut self, laid: &LaidPasses<N>) -> Added<N> {
        let LaidPasses { warm, between, left, .. } = *laid;
        let [near, far] = self.flanks;
        let (near, far) = (near.with(laid, 0), far.with(laid, 1));
        self.flanks = [near, far];
        self.strongest_n = self.strongest_n.max(laid.lone_n[0] + laid.lone_n[1] + warm * self.strongest_n);
        self.deposit_mm2 += laid.deposit_mm2;
        let free = overlap_n(near.force_n, far.force_n, between);
        let cap = yield_cap_n(self.strongest_n, self.deposit_mm2, laid.available_mm2, laid.yield_mpa);
        self.capped = self.capped.max(free.above(cap, N::all(1.0), N::default()));
        let total = free.min(cap).max(self.total_n);
        let near = near.force_n * near.arm_mm * Side::Near.sign();
        let far = far.force_n * far.arm_mm * Side::Far.sign();
        let (first, second) = if laid.second == side_index(Side::Far) { (near, far) } else { (far, near) };
        let moment = super::lateral_arm::combined_moment(first, second, left);
        let (before, more) = (self.moment_n_mm, moment - self.moment_n_mm);
        // what turns the moment round is no longer of the side before
        let both = before.abs().min(more.abs()).signed_as(more);
        let taken_n_mm = N::default().above(before * more, both, N::default());
        let added = Added { force_n: total - self.total_n, moment_n_mm: more, taken_n_mm };
        self.total_n = total;
        self.moment_n_mm = moment;
        added
    }
}

/// Index of a side in the pairs of [`LaidPasses`].
pub(crate) const fn side_index(side: Side) -> usize {
    match side {
        Side::Near => 0,
        Side::Far => 1,
    }
}

/// Index of a seam in pairs, outer first.
pub(crate) const fn seam_index(seam: Seam) -> usize {
    match seam {
        Seam::Outer => 0,
        Seam::Inner => 1,
    }
}

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    record!(COLD_OVERLAP, "", "overlap of two cold zones, over (reach by web thickness)^¾").known(Trust::OwnCalculation, "reference-cases/seam_forces.py: strip model; studies/referee/3-second-side.toml; recalled handbook factors 1.15–1.45"),
    record!(HALF_WARM_LAG, "t_w", "lag at which half of what two heats do together is left").known(Trust::OwnCalculation, "reference-cases/seam_forces.py: strip model, 360 seams, 60 % of them 20–200 s apart, rms 6 %"),
    record!(STIFF, "", "part of a lag that counts where nothing stretches").known(Trust::OwnCalculation, "a held joint, studies/referee/9-second-side-held.toml: most is turned round at 2 t_w; the same seams have 0.5 to 0.8"),
    record!(STRETCH_J_PER_MM3, "J/mm³", "stretch of a section from whose square all of it counts once more").known(Trust::OwnCalculation, "the same seams"),
    record!(SECOND_SIDE_COLD, "", "second side laid cold of a weld of no known plates, total over first").known(Trust::MemoryCheck, "recalled handbook factors for two fillets on a web, 1.15–1.45"),
    record!(REPEAT_COLD, "", "repeat pass on the same side, total over first").known(Trust::MemoryCheck, "tendon-force tests of the 1970s, authors not recorded; own fibre calculation 0.99"),
    record!(RHO_C, "J/mm³K", "volumetric heat of the closed forms").known(Trust::MemoryCheck, "Okerblom, The calculations of deformations of welded metal structures, 1958"),
    record!(LAMBDA, "W/mmK", "conductivity of the closed forms").known(Trust::MemoryCheck, "Okerblom, as above"),
    record!(WELD_YIELD_MPA, "MPa", "yield strength of weld metal").known(Trust::MemoryCheck, "AWS A5.17, 70 ksi wire–flux classes, minimum"),
];

#[cfg(test)]
#[path = "second_side_tests.rs"]
mod tests;
