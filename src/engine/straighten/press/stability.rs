//! Whether the side guides of a press keep a member straight while it is pushed about its strong axis, and where they stand.
//!
//! A member pressed beyond yield must not go sideways even once its plastic moment is reached. Four limits, the worst counts:
//! slenderness λ̄ = √(M/M_cr) ≤ 0.4, the plateau up to which EN 1993-1-1 6.3.2.2(4) and 6.3.2.3 leave lateral-torsional buckling
//! out (memory), M_cr by [`Sideways`]; spacing of guides beside a yielding place as AISC 360-22 App. 1.3.2c asks for plastic
//! hinges (memory); web sidesway buckling under a ram that nothing holds sideways, AISC 360-22 J10.4 (read); and the force
//! that a guide must hold, 2 % of the flange force, AISC 360-22 App. 6.3 (memory).

use super::sideways::{Height, Sideways, middles_mm};
use super::{PressLayout, PushFrom};
use crate::member::{Member, Parts, Seam, properties};
use serde::Serialize;

/// Side guides of a press: each keeps both flanges from moving sideways.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Guides {
    /// On each support.
    pub at_supports: bool,
    /// At each ram.
    pub at_rams: bool,
    /// Further ones that can be set anywhere between the supports.
    pub more: u32,
    /// Most force sideways that one of them holds, N; None if not known.
    pub most_n: Option<f64>,
}

impl Guides {
    /// None at all: what friction holds is not counted.
    pub const NONE: Self = Self { at_supports: false, at_rams: false, more: 0, most_n: None };
}

/// How a push stands against going sideways.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Stability {
    /// Places where both flanges must be held sideways, mm from the start end; none if pushed about the weak axis.
    pub restraints_mm: Vec<f64>,
    /// Largest distance between two of them, mm.
    pub spacing_mm: f64,
    /// Used part of the limit that comes first; above 1 the push is not allowed.
    pub ratio: f64,
    /// That limit.
    pub clause: &'static str,
    /// Force sideways that each guide must hold, N; of a push, under the force never to be passed.
    pub guide_n: f64,
    /// Force of each ram up to which all of this holds, N; None if no force sets an end to it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub most_n: Option<f64>,
}

impl Stability {
    /// A push about the weak axis: a member bent that way does not buckle sideways (AISC 360-22 F6 knows no such limit; memory).
    const WEAK_AXIS: Self = Self {
        restraints_mm: Vec::new(),
        spacing_mm: 0.0,
        ratio: 0.0,
        clause: "AISC 360-22 F6: bent about the weak axis it does not buckle sideways, memory",
        guide_n: 0.0,
        most_n: None,
    };

    /// The same guides under that force in each ram (N), where `found_n` was looked at: what each holds goes with it.
    #[must_use]
    pub(crate) fn under(self, force_n: f64, found_n: f64) -> Self {
        Self { guide_n: self.guide_n * force_n / found_n, ..self }
    }
}

/// Why a member may not be pushed about its strong axis.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Unstable {
    /// Nothing holds it upright at the supports.
    NoSupportGuides,
    /// It goes sideways with every guide the press has.
    Sideways {
        /// What the guides leave.
        found: Stability,
        /// Between these two places, mm.
        between_mm: [f64; 2],
        /// Spacing there that would do, mm (about).
        wanted_mm: f64,
    },
    /// A guide holds too little.
    Guide {
        /// Force sideways, N.
        needed_n: f64,
        /// What it holds, N.
        holds_n: f64,
    },
}

/// λ̄² up to which lateral-torsional buckling is left out: 0.4² (EN 1993-1-1 6.3.2.2(4) with 6.3.2.3; memory).
const PLATEAU: f64 = 0.16;
const SLENDER: &str = "EN 1993-1-1 6.3.2.2(4), slenderness at most 0.4, memory; critical moment computed";
const PLASTIC: &str = "AISC 360-22 App. 1.3.2c, unbraced length beside a yielding place, memory";
const WEB: &str = "AISC 360-22 J10.4, web sidesway buckling";
/// Bracing force over the flange force M/h (AISC 360-22 App. 6.3, point bracing; memory).
const GUIDE_SHARE: f64 = 0.02;
/// L_pd = (0.12 − 0.076·M₁/M₂)·(E/F_y)·r_y, M₁ the smaller end moment of a stretch bent one way, and M₁ = M₂ where the moment
/// inside is larger than at its ends (AISC 360-22 App. 1.3.2c; memory).
const PLASTIC_LENGTH: [f64; 2] = [0.12, 0.076];
/// J10.4: C_r once the moment reaches yield, MPa; resistance factor; (h/t_w)/(L_b/b_f) up to which it holds, flange free to
/// turn (read).
const SIDESWAY: (f64, f64, f64) = (3.3e6, 0.85, 1.7);

struct Case<'a> {
    member: &'a Member,
    layout: &'a PressLayout,
    force_n: f64,
}

/// Where guides stand so that a push about the strong axis with at most that force (N) in each ram keeps the member straight:
/// as few of the further ones as that needs.
///
/// # Errors
/// [`Unstable`] if all of them are not enough.
pub(crate) fn held_straight(
    member: &Member,
    layout: &PressLayout,
    guides: &Guides,
    force_n: f64,
) -> Result<Stability, Unstable> {
    if !layout.from.strong() {
        return Ok(Stability::WEAK_AXIS);
    }
    if !guides.at_supports {
        return Err(Unstable::NoSupportGuides);
    }
    let case = Case { member, layout, force_n };
    let mut fixed = layout.supports_mm.to_vec();
    if guides.at_rams {
        fixed.extend(layout.rams.places_mm());
    }
    fixed.sort_by(f64::total_cmp);
    let mut parts = vec![1_u32; fixed.len() - 1];
    loop {
        let held = divided(&fixed, &parts);
        let last = parts.iter().map(|p| p - 1).sum::<u32>() >= guides.more;
        if last || case.may_do(&held) {
            let found = case.stability(&held);
            if found.ratio <= 1.0 {
                return match guides.most_n {
                    Some(holds_n) if found.guide_n > holds_n => {
                        Err(Unstable::Guide { needed_n: found.guide_n, holds_n })
                    }
                    Some(holds_n) => {
                        let by_guide = force_n * holds_n / found.guide_n;
                        Ok(Stability {
                            most_n: Some(found.most_n.map_or(by_guide, |n| n.min(by_guide))),
                            ..found
                        })
                    }
                    None => Ok(found),
                };
            }
            if last {
                return Err(case.unstable(&held, found));
            }
        }
        let worst = (0..parts.len()).max_by(|i, j| {
            let need = |k: usize| case.need(fixed[k], fixed[k + 1]) / f64::from(parts[k]);
            need(*i).total_cmp(&need(*j))
        });
        match worst {
            Some(k) => parts[k] += 1,
            None => return Err(Unstable::NoSupportGuides),
        }
    }
}

/// Places of guides: each stretch in equal parts.
fn divided(fixed: &[f64], parts: &[u32]) -> Vec<f64> {
    let mut out = Vec::with_capacity(fixed.len() + 8);
    for (ends, n) in fixed.windows(2).zip(parts) {
        out.extend((0..*n).map(|i| ends[0] + f64::from(i) / f64::from(*n) * (ends[1] - ends[0])));
    }
    out.extend(fixed.last());
    out
}

impl Case<'_> {
    /// Largest moment in a stretch, N·mm, its place, and whether it is larger than at both ends.
    fn largest(&self, a: f64, b: f64) -> (f64, f64, bool) {
        let moment = |x: f64| self.force_n * self.layout.moment_of_rams(x);
        let ends = if moment(a) > moment(b) { (moment(a), a) } else { (moment(b), b) };
        let inside = self.layout.rams.places_mm().filter(|x| *x > a + 1.0 && *x < b - 1.0);
        let best = inside.map(|x| (moment(x), x)).fold(ends, |m, v| if v.0 > m.0 { v } else { m });
        (best.0, best.1, best.0 > ends.0 * (1.0 + 1e-9))
    }

    /// How much a stretch asks for guides: length over the spacing that its plastic moment allows, as a measure to share by.
    fn need(&self, a: f64, b: f64) -> f64 {
        let (moment, ..) = self.largest(a, b);
        (b - a) * moment.max(0.0).sqrt()
    }

    /// Length over that which AISC 360-22 App. 1.3.2c allows; 0 if nothing yields in the stretch.
    fn plastic_use(&self, a: f64, b: f64) -> f64 {
        let (m, layout) = (self.member, self.layout);
        let (moment, at, inside) = self.largest(a, b);
        let (plates, depth) = (m.plates_at(at), m.depth.depth_mm(at));
        let s = properties(&plates, depth, m.depth.slope(at), Parts::ALL);
        let furthest = (s.centroid_mm + plates.outer_mm.1).max(depth + plates.inner_mm.1 - s.centroid_mm);
        if moment < m.steel.yield_mpa * s.i_z_mm4 / furthest {
            return 0.0;
        }
        let ends = [a, b].map(|x| layout.moment_of_rams(x));
        let ratio = if inside { 1.0 } else { ends[0].min(ends[1]) / ends[0].max(ends[1]) };
        let seam = if layout.from == PushFrom::Outer { Seam::Outer } else { Seam::Inner };
        let radius = [a, at, b]
            .map(|x| {
                let p = m.plates_at(x);
                let (width, thickness) = p.flange_mm(seam);
                let area = width * thickness + 0.5 * p.web_mm * m.depth.depth_mm(x);
                (width.powi(3) * thickness / 12.0 / area).sqrt()
            })
            .into_iter()
            .fold(f64::INFINITY, f64::min);
        let allowed =
            (PLASTIC_LENGTH[0] - PLASTIC_LENGTH[1] * ratio) * m.steel.e_mpa / m.steel.yield_mpa * radius;
        (b - a) / allowed
    }

    /// Web sidesway buckling under the rams that nothing holds. L_b is the unbraced length at the load: from guide to guide astride the
    /// ram, not the distance to either (J10.4, memory).
    fn web_use(&self, held: &[f64]) -> f64 {
        let seam = if self.layout.from == PushFrom::Outer { Seam::Outer } else { Seam::Inner };
        let free = self.layout.rams.places_mm().filter(|r| !held.iter().any(|h| (h - r).abs() < 1e-6));
        free.map(|ram| {
            let below = held.iter().copied().filter(|h| *h < ram).fold(self.layout.supports_mm[0], f64::max);
            let above = held.iter().copied().filter(|h| *h > ram).fold(self.layout.supports_mm[1], f64::min);
            let plates = self.member.plates_at(ram);
            let ((width, thickness), depth) = (plates.flange_mm(seam), self.member.depth.depth_mm(ram));
            sidesway_n(depth, plates.web_mm, thickness, width, above - below)
                .map_or(0.0, |n| self.force_n / n)
        })
        .fold(0.0, f64::max)
    }

    /// What can be told without the critical load.
    fn may_do(&self, held: &[f64]) -> bool {
        held.windows(2).all(|w| self.plastic_use(w[0], w[1]) <= 1.0) && self.web_use(held) <= 1.0
    }

    fn stability(&self, held: &[f64]) -> Stability {
        let beam = Sideways::new(self.member, self.layout, held, Height::PushedFlange);
        let wanted = self.force_n / PLATEAU;
        let slender = beam.critical_n(held, wanted).map_or(0.0, |critical| wanted / critical);
        let plastic = held.windows(2).map(|w| self.plastic_use(w[0], w[1])).fold(0.0, f64::max);
        let web = self.web_use(held);
        let most = slender.max(web);
        let uses = [(slender, SLENDER), (plastic, PLASTIC), (web, WEB)];
        let (ratio, clause) = uses.into_iter().fold((0.0, SLENDER), |m, u| if u.0 > m.0 { u } else { m });
        let force = |x: f64| self.layout.moment_of_rams(x) * self.force_n / middles_mm(self.member, x);
        let flange_n = self.layout.rams.places_mm().map(force).fold(0.0, f64::max);
        Stability {
            restraints_mm: held.to_vec(),
            spacing_mm: held.windows(2).map(|w| w[1] - w[0]).fold(0.0, f64::max),
            ratio,
            clause,
            guide_n: GUIDE_SHARE * flange_n,
            most_n: (most > 0.0).then(|| self.force_n / most),
        }
    }

    fn unstable(&self, held: &[f64], found: Stability) -> Unstable {
        let worst = held.windows(2).max_by(|p, q| self.need(p[0], p[1]).total_cmp(&self.need(q[0], q[1])));
        let between_mm = worst.map_or(self.layout.supports_mm, |w| [w[0], w[1]]);
        // the critical moment goes about with one over the square of the spacing, the plastic limit with one over it
        let part = if found.clause == PLASTIC { found.ratio } else { found.ratio.sqrt() };
        let wanted_mm = (between_mm[1] - between_mm[0]) / part;
        Unstable::Sideways { found, between_mm, wanted_mm }
    }
}

/// Design resistance of a web against sidesway buckling under one compressive force, N (AISC 360-22 J10.4, flange free to turn, moment
/// at yield): φ·C_r·t_w³·t_f/h²·0.4·((h/t_w)/(L_b/b_f))³; none if (h/t_w)/(L_b/b_f) is above 1.7.
///
/// 600 × 6 web, 200 × 10 flange, 12 m: 36.7 kN before φ = 0.85.
/// ```
/// let n = weldbow_engine::straighten::press::sidesway_n(600.0, 6.0, 10.0, 200.0, 12e3);
/// assert!((n.unwrap_or(0.0) / 0.85 - 36.7e3).abs() < 100.0);
/// assert!(weldbow_engine::straighten::press::sidesway_n(600.0, 6.0, 10.0, 200.0, 8e3).is_none());
/// ```
pub fn sidesway_n(
    depth_mm: f64,
    web_mm: f64,
    flange_mm: f64,
    flange_width_mm: f64,
    unbraced_mm: f64,
) -> Option<f64> {
    let (c_r, phi, most) = SIDESWAY;
    let slender = depth_mm / web_mm / (unbraced_mm / flange_width_mm);
    (slender <= most)
        .then(|| phi * c_r * web_mm.powi(3) * flange_mm / (depth_mm * depth_mm) * 0.4 * slender.powi(3))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::member::{Delivered, FlangePiece, Profile, WebPiece};
    use crate::steel::Steel;

    fn beam() -> Member {
        let (from_mm, to_mm, splice, comes) = (0.0, 12e3, None, Delivered::STRAIGHT);
        let flange = vec![FlangePiece { from_mm, to_mm, width_mm: 200.0, thickness_mm: 10.0, splice, comes }];
        Member {
            length_mm: 12e3,
            depth: Profile::level(12e3, 600.0),
            web: vec![WebPiece { from_mm, to_mm, thickness_mm: 6.0, splice, comes }],
            outer_flange: flange.clone(),
            inner_flange: flange,
            steel: Steel { name: "own".into(), yield_mpa: 345.0, tensile_mpa: 450.0, e_mpa: 200e3 },
        }
    }

    #[test]
    fn a_web_may_go_sideways_between_the_guides_astride_the_ram() {
        let (member, layout) = (beam(), PressLayout::centred(6e3, 12e3, PushFrom::Outer));
        let case = Case { member: &member, layout: &layout, force_n: 100e3 };
        // 12 m free: 100/(12000/200) = 1.67 and 0.85·36.7 kN; a guide 6 m off to either side is 12 m, not 6 m
        let used = case.web_use(&[0.0, 12e3]);
        assert!((used - 100.0 / (0.85 * 36.7)).abs() < 0.01, "{used}");
        // one guide nearer: 9 m free, 2.2 above 1.7; a guide at the ram: nothing to go sideways
        assert!(case.web_use(&[0.0, 9e3]) <= 0.0 && case.web_use(&[0.0, 6e3, 12e3]) <= 0.0);
    }
}
