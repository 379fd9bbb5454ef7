//! Curves of a push to look at: moment over curvature, load over stroke, and what pads use of the web all along.

use super::check::bearing;
use super::local::{PHI_BEARING, PHI_CRIPPLING, PHI_YIELDING, UNSTIFFENED_MM};
use super::{Pads, PressSpan, PushFrom};
use crate::member::Member;
use serde::Serialize;

/// Points of a curve.
const POINTS: u32 = 48;

/// Curvature over that at first yield against moment over that at first yield, up to that curvature, in the section in which
/// a hinge would form.
pub fn moment_curvature(span: &PressSpan, to_mu: f64) -> Vec<(f64, f64)> {
    let Some(stack) = span.weakest() else { return Vec::new() };
    let at = |i: u32| {
        // crowded near first yield, where the curve bends
        let s = f64::from(i) / f64::from(POINTS);
        let mu = to_mu * s * s;
        (mu, stack.at_curvature(mu * stack.yield_curvature()).moment_n_mm / stack.first_yield_n_mm)
    };
    (0..=POINTS).map(at).collect()
}

/// Stroke (mm, by bending, at the gauge) against force of each ram (N): pushed, then let off.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Loop {
    /// While pushing.
    pub pushed: Vec<(f64, f64)>,
    /// What stays, mm.
    pub set_mm: f64,
}

/// The loop of a push to that force (N).
pub fn load_stroke(span: &PressSpan, force_n: f64) -> Loop {
    let (yields, top) = (span.first_yield_n(), force_n);
    let at = |f: f64| span.under(f).map(|b| (b.stroke_mm, f));
    let elastic = std::iter::once((0.0, 0.0)).chain(at(yields.min(top)));
    let beyond = (1..=POINTS).filter_map(|i| {
        let s = f64::from(i) / f64::from(POINTS);
        // the last of the load makes most of the set
        let part = 1.0 - (1.0 - s) * (1.0 - s);
        (top > yields).then(|| at(yields + part * (top - yields))).flatten()
    });
    let pushed: Vec<(f64, f64)> = elastic.chain(beyond).collect();
    let set_mm = span.under(force_n).map_or(0.0, |b| b.set_mm);
    Loop { pushed, set_mm }
}

/// A force over what the plates under a pad stand, at one place.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PadUse {
    /// Where, mm from the start end.
    pub x_mm: f64,
    /// Of web yielding (AISC 360-22 J10.2); of bearing on a flange edge (J7) if pushed sideways.
    pub yielding: f64,
    /// Of web crippling (AISC 360-22 J10.3); nothing sideways.
    pub crippling: f64,
    /// Of the patch load of EN 1993-1-5; nothing sideways.
    pub patch: f64,
}

/// What a pad of a ram with that force (N) uses, pushed from that side, at places (mm) along the member.
pub fn pad_use(member: &Member, from: PushFrom, pads: Pads, force_n: f64, x_mm: &[f64]) -> Vec<PadUse> {
    let [on, _] = from.faces();
    let one = |x: f64| {
        let b = bearing(member, x, on, pads.ram_mm, pads.leg_mm);
        if from.strong() {
            PadUse {
                x_mm: x,
                yielding: force_n / (PHI_YIELDING * b.web_yielding_n()),
                crippling: force_n / (PHI_CRIPPLING * b.web_crippling_n()),
                patch: force_n / b.patch_n(UNSTIFFENED_MM),
            }
        } else {
            let yielding = 0.5 * force_n / (PHI_BEARING * b.edge_bearing_n());
            PadUse { x_mm: x, yielding, crippling: 0.0, patch: 0.0 }
        }
    };
    x_mm.iter().map(|x| one(*x)).collect()
}
