//! Cup, tilt and toe offsets of a flange from the fillets on its two sides.
//!
//! A fillet on one side folds the flange at its own strip (its half rises by φ = 2κ) and turns the whole flange about
//! the joint. With slopes ψ of the halves: cup = (ψ_near + ψ_far)/2, tilt = (ψ_near − ψ_far)/2.
//!
//! * one side: cup [`cup_rad`](super::cup::cup_rad), tilt [`free_tilt_rad`] by the part the [`Hold`] leaves;
//! * both, one after the other: cups add up (in three dimensions 2.0–2.2 times one); the second turns the flange back on a web that the
//!   first fillet has made thicker by half its leg, on average: +6.8 and −7.3 mrad are left of a free joint (three
//!   dimensions: +7.7 and −11.2 at 600 and 1000 J/mm on 10 mm);
//! * both at once: the cup of what folds the flange [`beside`](FoldingHeat::beside) each other (16.6, 22.6, 18.8 mrad; three dimensions 17.1, 21.3, 22.1), and
//!   as much tilt one way as the other. On a flange too thick to shrink through, that is more than both in turn: 2.2 times one fillet's cup with
//!   400 J/mm on 10 mm and 2.1 with 1000 on 16, where a section held until the weld is solid has 3.0 and 2.4 (`tests/laws/referee.rs`) and an arc in slices 2.2. Where both plates are
//!   hot through it is less than that of one, as a travelling arc in slices has it (`reference-cases/moving_slices.md`): no weld to plan.
//!
//! Between the last two, by lag: the first side must cool before the second folds on its own. A side without heat or
//! without weld does nothing, on its own or as a second one.

use super::cup::{FoldingHeat, cup_and_lost_rad, sigma_rad};
use super::hold::{GAP_PART, Hold};
use super::tilt::{TILT_OWN, TILT_SHARED, free_tilt_rad};
use crate::numerics::Number;
use crate::shrinkage::transverse::flange_narrowing_mm;
use crate::sources::{Constant, Trust, record};

/// What each joint has of its own where both sides come at once and cancel: what six measured joints of one shop differ by (12 %).
const TILT_OWN_AT_ONCE: f64 = 0.12;
/// Relative standard deviation of a one-sided tilt: what joints share and what each has of its own, together.
pub const TILT_SIGMA: f64 = 0.50;
/// Lag, in units of t* of the longitudinal rule, at which a joint is half-way from "at once" to "in turn".
/// Fitted to two delays of a section calculation (15 s and 60 s after the first arc).
const LAG: f64 = 0.07;

/// Part of what one pass of both heats narrows beyond both in turn that both sides at once do: left free, three joints in three dimensions have 0.8
/// and 24 by slices 0.25 (`reference-cases/moving_arc.csv`, `moving_range.csv`). Choice between them.
const NARROWING_AT_ONCE: f64 = 0.5;

/// One fillet as the flange sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fillet<N = f64> {
    /// Net heat Q, J/mm.
    pub heat_j_per_mm: N,
    /// Heat parameter, J/mm³.
    pub q_j_per_mm3: N,
    /// Leg, mm.
    pub leg_mm: N,
    /// Welded fraction.
    pub welded_fraction: N,
    /// Part of its fold that the toe shows: 1 for a continuous bead, of stitches [`folded_part`](super::stitched::folded_part).
    pub folded: N,
}

/// The web under the joint and what holds it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WebFoot<N = f64> {
    /// Thickness of the web, mm.
    pub thickness_mm: N,
    /// Root gap left by fit-up, mm.
    pub gap_mm: N,
    /// How the joint is held.
    pub hold: Hold,
}

/// The joint at one station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JointFillets<N = f64> {
    /// Strongest fillet on the near side.
    pub near: Option<Fillet<N>>,
    /// Strongest fillet on the far side.
    pub far: Option<Fillet<N>>,
    /// Whether the near side was laid first (of no matter when one side is missing or both came at once).
    pub near_first: bool,
    /// Time between the sides over t*; infinite when cold.
    pub lag: N,
}

/// Angles of a flange with one standard deviation each.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Angles<N = f64> {
    /// Mean rise of the halves, rad.
    pub cup_rad: N,
    /// Part of the cup that the fold of the near side makes, less that of the far side, rad.
    pub unequal_rad: N,
    /// Half the difference, + when the near half is higher, rad: what the near fillet turns less what the far one turns back.
    pub tilt_rad: N,
    /// What the near and the far fillet turn, each toward itself, rad.
    pub turns_rad: [N; 2],
    /// Part in which what one side differs from the other counts: 1 for a side that cools alone, less where both cancel at once.
    pub own_part: N,
    /// Standard deviation of the cup, rad.
    pub cup_sigma_rad: N,
    /// Standard deviation of the tilt, rad.
    pub tilt_sigma_rad: N,
}

impl<N: Number> Angles<N> {
    /// Cup and tilt multiplied, each with its deviation; `sides` are factors of their own on what near and far fillet turn.
    ///
    /// ```
    /// use weldbow_engine::angular::both_sides::Angles;
    /// let cold = Angles { turns_rad: [0.020, 0.018], own_part: 1.0, tilt_rad: 0.002, ..Angles::default() };
    /// assert!((cold.times(1.0, 0.5, [1.2, 1.0]).tilt_rad - 0.003).abs() < 1e-12);
    /// ```
    #[must_use]
    #[cfg_attr(wide, inline(always))]
    pub fn times(self, cup: N, tilt: N, sides: [N; 2]) -> Self {
        let mut turns_rad = self.turns_rad;
        for (turn, side) in turns_rad.iter_mut().zip(sides) {
            *turn = tilt * *turn * side.to_the(self.own_part);
        }
        Self {
            cup_rad: cup * self.cup_rad,
            unequal_rad: cup * self.unequal_rad,
            tilt_rad: turns_rad[0] - turns_rad[1],
            turns_rad,
            own_part: self.own_part,
            cup_sigma_rad: cup * self.cup_sigma_rad,
            tilt_sigma_rad: tilt * self.tilt_sigma_rad,
        }
    }

    /// Deviation that what the sides do on their own leaves of the tilt, rad: nothing where one side is welded, whose own doubt
    /// cannot be told from that of all.
    pub(crate) fn sides_sigma_rad(&self) -> N {
        let [near, far] = self.turns_rad;
        let both = self.own_part * TILT_OWN * near.beside(far);
        (near * far).above(N::default(), both, N::default())
    }
}

impl<N: Number> Fillet<N> {
    /// What it folds a flange by.
    #[cfg_attr(wide, inline(always))]
    fn folding(&self, foot: &WebFoot<N>) -> FoldingHeat<N> {
        FoldingHeat::of(self.q_j_per_mm3, foot.thickness_mm, self.leg_mm)
    }

    /// What it turns a flange by, alone, as far as the toe shows it, rad.
    #[cfg_attr(wide, inline(always))]
    fn tilt_rad(&self, foot: &WebFoot<N>) -> N {
        self.folded * tilt_one_side_rad(self.heat_j_per_mm, self.leg_mm, foot)
    }
}

impl<N: Number> JointFillets<N> {
    /// First and second fillet, and the sign of the first's side.
    #[cfg_attr(wide, inline(always))]
    const fn in_order(&self) -> (Option<Fillet<N>>, Option<Fillet<N>>, f64) {
        match (self.near, self.far) {
            (Some(_), None) => (self.near, None, 1.0),
            (None, far) => (far, None, -1.0),
            _ if self.near_first => (self.near, self.far, 1.0),
            _ => (self.far, self.near, -1.0),
        }
    }

    /// How far the sides are on their own: 0 at once, 1 cold.
    #[cfg_attr(wide, inline(always))]
    fn apart(&self) -> N {
        self.lag.above(N::all(f64::MAX), N::all(1.0), self.lag / (self.lag + LAG))
    }
}

/// Tilt of a joint welded on one side only, rad, toward that side: what the hold leaves of the free tilt, and what an open gap adds
/// until the faces meet, gap/t_w.
///
/// ```
/// use weldbow_engine::angular::{both_sides::{WebFoot, tilt_one_side_rad}, hold::Hold};
/// let foot = WebFoot { thickness_mm: 6.0, gap_mm: 0.03, hold: Hold::LINE };
/// assert!((tilt_one_side_rad(1000.0, 6.0, &foot) - 0.6 * 0.0312).abs() < 5e-5);
/// let gaping = WebFoot { hold: Hold::NOTHING, ..foot };
/// assert!((tilt_one_side_rad(1000.0, 6.0, &gaping) - 0.0312 - 0.005).abs() < 5e-5);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn tilt_one_side_rad<N: Number>(heat_j_per_mm: N, leg_mm: N, foot: &WebFoot<N>) -> N {
    let held = free_tilt_rad(heat_j_per_mm, foot.thickness_mm, leg_mm) * foot.hold.tilt_part();
    let open = if foot.hold.gap_can_close() { foot.gap_mm / foot.thickness_mm } else { N::default() };
    held + open.min(held * GAP_PART)
}

/// Cup and tilt of a flange on its web.
#[cfg_attr(wide, inline(always))]
pub fn angles<N: Number>(joint: &JointFillets<N>, foot: &WebFoot<N>) -> Angles<N> {
    let (Some(first), second, sign) = joint.in_order() else { return Angles::default() };
    let (first_heat, first_tilt) = (first.folding(foot), first.tilt_rad(foot));
    let first_alone = cup_and_lost_rad(first_heat);
    let (first_cup, first_lost) = (first.folded * first_alone[0], first.folded * first_alone[1]);
    let Some(second) = second else {
        return Angles {
            cup_rad: first_cup,
            unequal_rad: first_cup * sign,
            tilt_rad: first_tilt * sign,
            turns_rad: by_side(sign, first_tilt, N::default()),
            own_part: N::all(1.0),
            cup_sigma_rad: sigma_rad(first.q_j_per_mm3, first_cup, first_lost),
            tilt_sigma_rad: first_tilt * TILT_SIGMA,
        };
    };
    let apart = joint.apart();
    let together = -apart + 1.0;
    let second_heat = second.folding(foot);
    let second_alone = cup_and_lost_rad(second_heat);
    let (second_cup, second_lost) = (second.folded * second_alone[0], second.folded * second_alone[1]);
    let both = together * first.folded.min(second.folded);
    let beside = cup_and_lost_rad(first_heat.beside(second_heat));
    let cup_more = both * (beside[0] - (first_alone[0] + second_alone[0]));
    let lost_more = both * (beside[1] - (first_alone[1] + second_alone[1]));
    let in_turn = first_cup + second_cup;
    let (cup_rad, lost_rad) = (in_turn + cup_more, first_lost + second_lost + lost_more);
    let backed = foot.thickness_mm + apart * 0.5 * first.welded_fraction * first.leg_mm;
    let second_tilt = second.tilt_rad(&WebFoot { thickness_mm: backed, ..*foot });
    let left = first_tilt - second_tilt;
    let own = apart * (TILT_OWN - TILT_OWN_AT_ONCE) + TILT_OWN_AT_ONCE;
    let any = in_turn.max(N::all(f64::MIN_POSITIVE));
    let mean_q = (first_cup * first.q_j_per_mm3 + second_cup * second.q_j_per_mm3) / any;
    let q = mean_q + both * first.q_j_per_mm3.min(second.q_j_per_mm3);
    let own = own_sigma(own, first_tilt, second_tilt);
    Angles {
        cup_rad,
        unequal_rad: cup_rad * sign * (first_cup - second_cup) / any,
        tilt_rad: left * sign,
        turns_rad: by_side(sign, first_tilt, second_tilt),
        own_part: own / TILT_OWN,
        cup_sigma_rad: sigma_rad(q, cup_rad, lost_rad),
        tilt_sigma_rad: (own * first_tilt.beside(second_tilt)).beside(left * TILT_SHARED),
    }
}

/// Near and far value of a first and a second side, the first near if `sign` is positive.
#[cfg_attr(wide, inline(always))]
const fn by_side<N: Number>(sign: f64, first: N, second: N) -> [N; 2] {
    if sign > 0.0 { [first, second] } else { [second, first] }
}

/// Relative deviation of each side's own tilt: that of one side alone where the other does nothing, smaller where both cancel at
/// once.
#[cfg_attr(wide, inline(always))]
fn own_sigma<N: Number>(own: N, first_rad: N, second_rad: N) -> N {
    let alone = (first_rad - second_rad).abs() / (first_rad + second_rad).max(N::all(f64::MIN_POSITIVE));
    own + alone * (-own + TILT_OWN)
}

/// What both sides together narrow the flange t_f by beyond the sum of each alone, mm: at once they are half-way to one pass of both heats.
///
/// ```
/// use weldbow_engine::angular::both_sides::{Fillet, JointFillets, narrowing_together_mm};
/// let fillet = Fillet { heat_j_per_mm: 800.0, q_j_per_mm3: 4.4, leg_mm: 6.0, welded_fraction: 1.0, folded: 1.0 };
/// let joint = JointFillets { near: Some(fillet), far: Some(fillet), near_first: true, lag: 0.0 };
/// // half of 4.5e-5·(1600² − 2·800²)/(12²·6)
/// assert!((narrowing_together_mm(&joint, 12.0) - 0.0333).abs() < 1e-4);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn narrowing_together_mm<N: Number>(joint: &JointFillets<N>, flange_mm: N) -> N {
    let (Some(near), Some(far)) = (joint.near, joint.far) else { return N::default() };
    let heat = near.heat_j_per_mm + far.heat_j_per_mm;
    let leg = (near.heat_j_per_mm * near.leg_mm + far.heat_j_per_mm * far.leg_mm) / heat;
    let more = flange_narrowing_mm(heat, flange_mm, leg)
        - flange_narrowing_mm(near.heat_j_per_mm, flange_mm, near.leg_mm)
        - flange_narrowing_mm(far.heat_j_per_mm, flange_mm, far.leg_mm);
    (-joint.apart() + 1.0)
        * NARROWING_AT_ONCE
        * near.welded_fraction.min(far.welded_fraction)
        * more.max(N::default())
}

/// Offsets of the near and far flange edge from the square line, mm, + toward the web.
///
/// The fold hinges at the weld, x_f = t_w/2 + z/2 from the web plane, so its lever is b/2 − x_f; the rest of the
/// tilt turns the whole half width.
#[cfg_attr(wide, inline(always))]
pub(crate) fn toes_mm<N: Number>(
    angles: &Angles<N>,
    joint: &JointFillets<N>,
    width_mm: N,
    web_mm: N,
) -> (N, N) {
    let half = width_mm / 2.0;
    let mut levers = [half; 2];
    for (lever, fillet) in levers.iter_mut().zip([&joint.near, &joint.far]) {
        if let Some(fillet) = fillet {
            *lever = half - (web_mm / 2.0 + fillet.leg_mm / 2.0);
        }
        *lever = lever.max(N::default());
    }
    let (near_fold, far_fold) = (angles.cup_rad + angles.unequal_rad, angles.cup_rad - angles.unequal_rad);
    let turn = angles.tilt_rad - angles.unequal_rad;
    (near_fold * levers[0] + turn * half, far_fold * levers[1] - turn * half)
}

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    record!(TILT_OWN_AT_ONCE, "", "deviation of each side's own tilt, two sides at once")
        .known(Trust::Choice, "reference-cases/measured_fillet.toml: six joints differ by 12 %"),
    record!(NARROWING_AT_ONCE, "", "part of the narrowing of one pass of both heats that both at once add")
        .known(Trust::Choice, "0.8 by three joints in three dimensions, 0.25 by 24 by slices"),
    record!(LAG, "t*", "lag at which a joint is half-way from at once to in turn")
        .known(Trust::OwnCalculation, "own section calculation, second arc 15 and 60 s after the first"),
];

#[cfg(test)]
#[path = "both_sides_tests.rs"]
mod tests;
