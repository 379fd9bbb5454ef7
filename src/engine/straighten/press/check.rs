//! A push against what its bearings and plates stand.

use super::local::{Bearing, PHI_BEARING, PHI_CRIPPLING, PHI_SHEAR, PHI_YIELDING, UNSTIFFENED_MM};
use super::shear_centre::shares;
use super::{PressLayout, Stiffener};
use crate::member::{Member, Parts, Seam, properties};
use serde::Serialize;

/// A force against a resistance.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ForceCheck {
    /// What may give.
    pub what: &'static str,
    /// Clause it follows.
    pub clause: &'static str,
    /// "ram" or "support".
    pub place: &'static str,
    /// Where, mm from the start end.
    pub at_mm: f64,
    /// Force there, N.
    pub force_n: f64,
    /// Design resistance, N.
    pub resistance_n: f64,
    /// Force over resistance; above 1 the push is not allowed.
    pub ratio: f64,
}

/// The pads of a press and the weld they stand on.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Pads {
    /// Length along the member under each ram, mm.
    pub ram_mm: f64,
    /// Length along the member on each support, mm.
    pub support_mm: f64,
    /// Leg of the web-to-flange welds, mm; 0 if not known.
    pub leg_mm: f64,
}

/// What a push bears on, and by what it is judged.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bears<'a> {
    /// Pads of the press or jack.
    pub pads: Pads,
    /// Judge the web by the patch load of EN 1993-1-5 as well.
    pub patch: bool,
    /// Stiffeners; a pad that stands on one of them bears on it, not on the bare web.
    pub stiffeners: &'a [Stiffener],
}

/// Every check of a push with that force (N) in each ram.
pub fn checks(member: &Member, layout: &PressLayout, on: &Bears<'_>, force_n: f64) -> Vec<ForceCheck> {
    let pads = on.pads;
    let rams = layout.rams.places_mm().map(|at| (at, force_n, "ram", pads.ram_mm));
    let reactions = layout.supports_mm.into_iter().zip(layout.reactions());
    let supports = reactions.map(|(at, share)| (at, share * force_n, "support", pads.support_mm));
    let mut out = Vec::with_capacity(12);
    for (at_mm, force_n, place, pad_mm) in rams.chain(supports) {
        let mut add = |what, clause, force_n: f64, resistance_n: f64| {
            let ratio = force_n / resistance_n;
            out.push(ForceCheck { what, clause, place, at_mm, force_n, resistance_n, ratio });
        };
        if !layout.from.strong() {
            // at the height of the shear centre the pad presses each flange by its stiffness
            for (seam, share) in Seam::BOTH.into_iter().zip(shares(member, at_mm)) {
                let bearing = bearing(member, at_mm, Some(seam), pad_mm, pads.leg_mm);
                let stands = PHI_BEARING * bearing.edge_bearing_n();
                add("bearing on a flange edge", "AISC 360-22 J7, memory", share * force_n, stands);
            }
            continue;
        }
        let [ram_on, support_on] = layout.from.faces();
        let face = if place == "ram" { ram_on } else { support_on };
        let bearing = bearing(member, at_mm, face, pad_mm, pads.leg_mm);
        if place == "support" {
            add("shear in the web", "AISC 360-22 G2.1, memory", force_n, PHI_SHEAR * bearing.shear_n());
        }
        let under = |s: &&Stiffener| (s.x_mm - at_mm).abs() <= 0.25 * pad_mm;
        if let Some(stiffener) = on.stiffeners.iter().find(under) {
            add("stiffeners", "AISC 360-22 J10.8, memory", force_n, stiffener.stands_n(member));
            continue;
        }
        add("web yielding", "AISC 360-22 J10.2, memory", force_n, PHI_YIELDING * bearing.web_yielding_n());
        let crippling = PHI_CRIPPLING * bearing.web_crippling_n();
        add("web crippling", "AISC 360-22 J10.3, memory", force_n, crippling);
        if on.patch {
            add("patch load on the web", "EN 1993-1-5 6, memory", force_n, bearing.patch_n(UNSTIFFENED_MM));
        }
    }
    out
}

/// The bearing at x on the flange of a seam; with None on the thinner flange.
pub(super) fn bearing(member: &Member, x_mm: f64, on: Option<Seam>, pad_mm: f64, leg_mm: f64) -> Bearing {
    let plates = member.plates_at(x_mm);
    let thinner = if plates.outer_mm.1 < plates.inner_mm.1 { Seam::Outer } else { Seam::Inner };
    let (width, thickness) = plates.flange_mm(on.unwrap_or(thinner));
    Bearing {
        web_mm: plates.web_mm,
        depth_mm: member.depth.depth_mm(x_mm),
        flange_width_mm: width,
        flange_mm: thickness,
        leg_mm,
        pad_mm,
        to_end_mm: x_mm.min(member.length_mm - x_mm),
        yield_mpa: member.steel.yield_mpa,
        e_mpa: member.steel.e_mpa,
    }
}

/// How slender a plate is for bending beyond yield.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Slender {
    /// "outer flange", "inner flange" or "web".
    pub plate: &'static str,
    /// b/2t or h/t.
    pub ratio: f64,
    /// Up to here it can yield without buckling.
    pub compact: f64,
    /// Beyond here it buckles before it yields.
    pub slender: f64,
}

/// Flanges and webs that yield without buckling up to these times √(E/F_y); webs, and flanges bent about the weak axis, buckle first
/// beyond those (AISC 360-22 Table B4.1b cases 10, 11, 13 and 15; memory).
const FLANGE: (f64, f64) = (0.38, 1.0);
const WEB: (f64, f64) = (3.76, 5.70);
/// Flanges of a built-up I about its strong axis buckle first beyond that times √(k_c·E/F_L) (case 11; memory).
const BUILT_UP: f64 = 0.95;
/// Least and largest k_c = 4/√(h/t_w) (Table B4.1b note; memory).
const K_C: (f64, f64) = (0.35, 0.76);
/// F_L over F_y of a slender web and from S_xt/S_xc = 0.7 on, and its least below (Table B4.1b note; memory).
const F_L: (f64, f64) = (0.7, 0.5);

/// Plates under rams and over supports that are not compact, the worst of each kind. About the strong axis either flange is judged as
/// the compressed one.
pub(crate) fn not_compact(member: &Member, layout: &PressLayout) -> Vec<Slender> {
    let strong = layout.from.strong();
    let [a, b] = layout.supports_mm;
    let places = [a, b].into_iter().chain(layout.rams.places_mm());
    let all: Vec<[Slender; 3]> = places.map(|x| plates_at(member, x, strong)).collect();
    let worst = |i: usize| {
        let of = all.iter().map(|plates| plates[i]);
        // beyond which a plate buckles first differs from place to place
        let nearest = of.clone().max_by(|p, q| (p.ratio / p.slender).total_cmp(&(q.ratio / q.slender)));
        nearest.filter(|s| s.ratio > s.slender).or_else(|| of.max_by(|p, q| p.ratio.total_cmp(&q.ratio)))
    };
    (0..if strong { 3 } else { 2 }).filter_map(worst).filter(|s| s.ratio > s.compact).collect()
}

/// Outer flange, inner flange and web at x (mm).
fn plates_at(member: &Member, x_mm: f64, strong: bool) -> [Slender; 3] {
    let (e, fy) = (member.steel.e_mpa, member.steel.yield_mpa);
    let root = (e / fy).sqrt();
    let (p, depth) = (member.plates_at(x_mm), member.depth.depth_mm(x_mm));
    let web = Slender { plate: "web", ratio: depth / p.web_mm, compact: WEB.0 * root, slender: WEB.1 * root };
    let k_c = (4.0 / web.ratio.sqrt()).clamp(K_C.0, K_C.1);
    let s = properties(&p, depth, member.depth.slope(x_mm), Parts::ALL);
    let outer_edge = s.centroid_mm + p.outer_mm.1;
    let inner_edge = depth + p.inner_mm.1 - s.centroid_mm;
    let flange = |plate, (width, thickness): (f64, f64), compressed: f64, stretched: f64| {
        // S_xt/S_xc: both moduli are I over the distance of their edge
        let moduli = compressed / stretched;
        let share = if web.ratio > web.slender || moduli >= F_L.0 { F_L.0 } else { moduli.max(F_L.1) };
        let slender = if strong { BUILT_UP * (k_c / share).sqrt() } else { FLANGE.1 };
        Slender { plate, ratio: 0.5 * width / thickness, compact: FLANGE.0 * root, slender: slender * root }
    };
    [
        flange("outer flange", p.outer_mm, outer_edge, inner_edge),
        flange("inner flange", p.inner_mm, inner_edge, outer_edge),
        web,
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::member::{Delivered, FlangePiece, Profile, WebPiece};
    use crate::steel::Steel;
    use crate::straighten::press::PushFrom;

    fn beam(outer_mm: f64, inner_mm: f64) -> Member {
        let (from_mm, to_mm, splice, comes) = (0.0, 12e3, None, Delivered::STRAIGHT);
        let flange =
            |thickness_mm| vec![FlangePiece { from_mm, to_mm, width_mm: 200.0, thickness_mm, splice, comes }];
        Member {
            length_mm: 12e3,
            depth: Profile::level(12e3, 600.0),
            web: vec![WebPiece { from_mm, to_mm, thickness_mm: 6.0, splice, comes }],
            outer_flange: flange(outer_mm),
            inner_flange: flange(inner_mm),
            steel: Steel { name: "own".into(), yield_mpa: 345.0, tensile_mpa: 450.0, e_mpa: 200e3 },
        }
    }

    fn found(member: &Member, from: PushFrom, plate: &str) -> Slender {
        let layout = PressLayout::centred(6e3, 6e3, from);
        *not_compact(member, &layout).iter().find(|s| s.plate == plate).unwrap()
    }

    #[test]
    fn a_built_up_flange_buckles_sooner_than_a_rolled_one() {
        // h/t_w = 100: k_c = 0.4, F_L = 0.7·345, 0.95·√(0.4·200000/241.5) = 17.29; a rolled one 24.08
        let even = found(&beam(5.0, 5.0), PushFrom::Outer, "outer flange");
        assert!((even.slender - 17.29).abs() < 0.01, "{even:?}");
        assert!((even.ratio - 20.0).abs() < 1e-9 && (even.compact - 9.15).abs() < 0.01, "{even:?}");
        // about the weak axis a flange buckles as any other: 24.08
        let weak = found(&beam(5.0, 5.0), PushFrom::Near, "outer flange");
        assert!((weak.slender - 24.08).abs() < 0.01, "{weak:?}");
    }

    #[test]
    fn a_flange_far_from_a_heavy_one_counts_what_its_edge_takes() {
        // centroid 409.0 mm from the outer edge of the web: S_xt/S_xc = 211.0/414.0 = 0.51 with the inner flange compressed,
        // F_L = 175.8 MPa, 0.95·√(0.4·200000/175.8) = 20.26
        let plates = plates_at(&beam(5.0, 20.0), 6e3, true);
        assert!((plates[1].slender - 20.26).abs() < 0.01, "{plates:?}");
        assert!((plates[0].slender - 17.29).abs() < 0.01, "{plates:?}");
    }
}
