//! A push against what its bearings and plates stand.

use super::local::{Bearing, PHI_BEARING, PHI_CRIPPLING, PHI_SHEAR, PHI_YIELDING, UNSTIFFENED_MM};
use super::shear_centre::shares;
use super::{PressLayout, PushFrom, Stiffener};
use crate::member::{Member, Seam};
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
        let bearing = bearing(member, at_mm, pressed(layout.from, place), pad_mm, pads.leg_mm);
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

/// Seam whose flange is pressed there; None where both flange edges are.
fn pressed(from: PushFrom, place: &str) -> Option<Seam> {
    match (from, place == "ram") {
        (PushFrom::Outer, true) | (PushFrom::Inner, false) => Some(Seam::Outer),
        (PushFrom::Inner, true) | (PushFrom::Outer, false) => Some(Seam::Inner),
        _ => None,
    }
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

/// Plates between the supports that are not compact (AISC 360-22 Table B4.1b: flanges 0.38 and 1.0, webs 3.76 and 5.70
/// times √(E/F_y); memory), the worst of each kind.
pub(crate) fn not_compact(member: &Member, layout: &PressLayout) -> Vec<Slender> {
    let root = (member.steel.e_mpa / member.steel.yield_mpa).sqrt();
    let mut out = Vec::new();
    let mut add = |plate, ratio: f64, compact: f64, slender: f64| {
        if ratio > compact * root {
            out.push(Slender { plate, ratio, compact: compact * root, slender: slender * root });
        }
    };
    let [a, b] = layout.supports_mm;
    let mut worst = [0.0_f64; 3];
    for x in [a, b].into_iter().chain(layout.rams.places_mm()) {
        let p = member.plates_at(x);
        let found = [
            0.5 * p.outer_mm.0 / p.outer_mm.1,
            0.5 * p.inner_mm.0 / p.inner_mm.1,
            member.depth.depth_mm(x) / p.web_mm,
        ];
        for (w, f) in worst.iter_mut().zip(found) {
            *w = w.max(f);
        }
    }
    add("outer flange", worst[0], 0.38, 1.0);
    add("inner flange", worst[1], 0.38, 1.0);
    if layout.from.strong() {
        add("web", worst[2], 3.76, 5.70);
    }
    out
}
