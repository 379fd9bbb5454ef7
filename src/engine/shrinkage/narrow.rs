//! A flange narrower than the plastic zone of its weld pulls harder: heat that reaches an edge turns back.
//!
//! F = F₁·(1 + m), m = s·min(B·exp(−½·(ln(p/p₀)/w)²)·exp(−t_e/t_f), 1.07)·exp(−c·ε/ε_y) up to p₀; beyond it F stays what it is at p₀, the flange at
//! yield, until F₁ alone is more.
//!
//! * p = y₂/(b/2): reach of the plastic zone by thin-plate theory over half the width.
//! * A half-width warmed evenly by more than ε_y/α yields all of it: 0.5 αE/ρc at most, where a wide plate gives 0.335. A star of
//!   plates with constant properties and insulated edges (own calculation, images at both edges) has F/F₁ = 1 up to p = 0.5, 1.2–1.6
//!   at p = 0.8–1, its height at p = 1–1.7, and then falls as 1/p: the whole flange at yield pulls no harder.
//! * t_e = (b/2)²/2a is the time heat needs to the edge, t_f = ρc·t/2h the time in which the faces lose it (h = 35 W/m²K, convection and
//!   radiation of a plate at about 300 °C; 64 s for each mm of plate): a wide thin flange is cold before its edges know.
//! * ε = α/ρc·Σ Q_j·(1/A + e·e_j/I), the stretch of the section while hot: a small section follows, and less of the flange is upset.
//!
//! s is the flange's part of the heat: the web has no edge near. B, p₀, w and c are fitted to 1390 seams of random
//! members by the strip model ([`tendon`](super::tendon)).

use super::second_side::{LAMBDA, RHO_C};
use super::tendon::ALPHA;
use crate::numerics::Number;
use crate::sources::{Constant, Trust, record};

/// B: what it would pull more at p₀ if nothing held it back.
const MORE: f64 = 4.35;
/// Most that its part of the heat pulls more: three quarters of it, 0.80, of a usual flange, where the star of plates has 0.68 with constant
/// properties; seams of random members are nearest with this.
pub(crate) const MOST: f64 = 1.07;
/// Reach over half the width p₀ at which all of it yields.
const AT_REACH: f64 = 1.83;
/// How slowly it comes, over ln p.
pub(crate) const WIDTH: f64 = 0.333;
/// Loss c per strain of the section over yield strain.
const STRETCH_LOSS: f64 = 0.84;
/// Heat that a face loses, W/mm²K: convection and radiation of a plate at about 300 °C.
const FACE_W_PER_MM2_K: f64 = 35e-6;
/// More than nothing.
const NOTHING: f64 = 1e-5;

/// Time in which both faces of a plate (mm) take its heat, s.
///
/// ```
/// use weldbow_engine::shrinkage::narrow::faces_s;
/// assert!((faces_s(8.0) - 514.0).abs() < 1.0);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn faces_s<N: Number>(plate_mm: N) -> N {
    plate_mm * (RHO_C / (2.0 * FACE_W_PER_MM2_K))
}

/// How much longer a flange keeps heat that turns back at its edges, by p²: with the lag of the second side, fitted with the rest.
const KEPT: f64 = 4.0;

/// Times as long as a wide flange one of that width (mm) keeps a heat of that reach (mm): 1 + 4·p².
///
/// ```
/// use weldbow_engine::shrinkage::narrow::kept_longer;
/// // p = 50/100
/// assert!((kept_longer(200.0, 50.0) - 2.0).abs() < 1e-12);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn kept_longer<N: Number>(width_mm: N, reach_mm: N) -> N {
    let p = reach_mm * 2.0 / width_mm;
    p * p * KEPT + 1.0
}

/// What a seam on a narrow flange pulls more.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Narrow<N = f64> {
    /// Of a section that does not stretch, relative.
    more: N,
    /// Loss by what stretches it, mm³/J.
    loss_mm3_per_j: N,
}

/// Part of a heat of that reach (mm) that suffices for all of a flange (width, mm) to yield, 1 at most.
///
/// ```
/// use weldbow_engine::shrinkage::narrow::suffices;
/// // 1.83·50/183
/// assert!((suffices(100.0, 183.0) - 0.5).abs() < 1e-12 && suffices(300.0, 30.0) == 1.0);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn suffices<N: Number>(width_mm: N, reach_mm: N) -> N {
    (width_mm * (0.5 * AT_REACH) / reach_mm).min(N::all(1.0))
}

impl<N: Number> Narrow<N> {
    /// Of a flange of that width and thickness (mm) that takes that part of the heat, for a plastic zone of that reach (mm) in steel of that
    /// yield strain.
    ///
    /// 120 × 12 mm with three quarters of the heat, reach 65 mm: p = 1.083, t_e = 202 s, t_f = 771 s, 0.75·4.35·0.290·0.769.
    /// ```
    /// use weldbow_engine::shrinkage::narrow::Narrow;
    /// let narrow = Narrow::of((120.0, 12.0), 0.75, 65.0, 355.0 / 206e3);
    /// assert!((narrow.factor(0.0) - 1.727).abs() < 0.001);
    /// assert!((Narrow::of((400.0, 12.0), 0.75, 65.0, 355.0 / 206e3).factor(0.0) - 1.0).abs() < 1e-3);
    /// ```
    #[cfg_attr(wide, inline(always))]
    pub fn of((width_mm, flange_mm): (N, N), share: N, reach_mm: N, yield_strain: N) -> Self {
        let half_mm = width_mm * 0.5;
        let short = (reach_mm / half_mm / AT_REACH).min(N::all(1.0)).ln() / WIDTH;
        let edge_s = half_mm * half_mm * (RHO_C / (2.0 * LAMBDA));
        let more =
            ((short * short * -0.5 - edge_s / faces_s(flange_mm)).exp() * MORE).min(N::all(MOST)) * share;
        let loss = yield_strain.inverse() * (STRETCH_LOSS * ALPHA / RHO_C);
        let or_nothing = |value: N| more.above(N::all(NOTHING), value, N::default());
        Self { more: or_nothing(more), loss_mm3_per_j: or_nothing(loss) }
    }

    /// Whether it pulls any more.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn acts(&self) -> bool {
        self.more.any(|more| more > 0.0)
    }

    /// `yes` where it does, else `no`.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn acts_here(&self, yes: N, no: N) -> N {
        self.more.above(N::default(), yes, no)
    }

    /// Force over that of a wide flange, for what the welds' heat, as far as it suffices, stretches the section, J/mm³ (see
    /// [`tendon`](super::tendon)).
    #[cfg_attr(wide, inline(always))]
    pub fn factor(&self, stretch_j_per_mm3: N) -> N {
        self.more * (-self.loss_mm3_per_j * stretch_j_per_mm3.max(N::default())).exp() + 1.0
    }
}

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    record!(MORE, "", "what a flange that just yields right across would pull more if nothing held it back")
        .known(
            Trust::OwnCalculation,
            "reference-cases/seam_forces.py: strip model, 1390 seams of 695 random members",
        )
        .within("flanges 100–400 × 6–32 mm, webs 4–12 mm, 0.5–1.8 kJ/mm"),
    record!(MOST, "", "most that its part of the heat pulls more").known(
        Trust::OwnCalculation,
        "the same; its star of plates with constant properties has 0.68 over three quarters",
    ),
    record!(AT_REACH, "", "reach of the plastic zone over half the width at which all of it yields")
        .known(Trust::OwnCalculation, "the same; its star of plates with constant properties has 1–1.7"),
    record!(WIDTH, "", "how slowly it comes over ln p").known(Trust::OwnCalculation, "the same members"),
    record!(STRETCH_LOSS, "", "loss per strain of the section over yield strain")
        .known(Trust::OwnCalculation, "the same members"),
    record!(KEPT, "", "how much longer a flange keeps heat that turns back at its edges, by p²")
        .known(Trust::OwnCalculation, "the same members, those welded from both sides 20–200 s apart"),
    record!(FACE_W_PER_MM2_K, "W/mm²K", "heat that a face loses").known(
        Trust::Derived,
        "EN 1993-1-2:2005 and EN 1991-1-2: 25 W/m²K by convection, emissivity 0.7; about 35 in all at 300 °C",
    ),
];

#[cfg(test)]
mod tests {
    use super::*;

    const STRAIN: f64 = 355.0 / 206e3;

    #[test]
    fn a_wide_flange_does_not_know_its_edges_and_a_thin_one_is_cold_before_it_does() {
        assert!((Narrow::of((200.0, 12.0), 0.75, 40.0, STRAIN).factor(0.0) - 1.0).abs() < 1e-2);
        let [thick, thin] =
            [20.0, 4.0].map(|t| Narrow::of((300.0, t), 0.75, 200.0, STRAIN).factor(0.0) - 1.0);
        assert!(thin < 0.1 * thick, "{thin} and {thick}");
    }

    #[test]
    fn a_section_that_follows_upsets_less_of_its_flange() {
        let narrow = Narrow::of((100.0, 10.0), 0.75, 60.0, STRAIN);
        assert!(narrow.factor(0.5) < narrow.factor(0.1) && narrow.factor(50.0) < 1.0 + 1e-6);
    }
}
