//! Whether and how far the web ripples.

use super::Job;
use super::plan::Plan;
use super::result::{Ripple, RippleVerdict};
use super::uncertainty::SPAN;
use super::walk::{Walk, WebPart};
use crate::bow::Plane;
use crate::bow::web_ripple::{K_CLAMPED, K_HINGED, amplitude_mm, buckled, critical_mpa};
use crate::member::{Parts, properties};

/// The web, substep by substep; `force_bias` is that of the forces which press it.
pub fn ripple(job: &Job, plan: &Plan, march: &Walk, force_bias: f64) -> Vec<Ripple> {
    march.web.iter().map(|part| at(job, plan, part, force_bias)).collect()
}

fn at(job: &Job, plan: &Plan, part: &WebPart, force_bias: f64) -> Ripple {
    let (span, e_mpa) = (&plan.spans[part.span], job.member.steel.e_mpa);
    let web_mm = span.plates.web_mm;
    let compression_mpa = -e_mpa * part.flat.at(0.5 * part.depth_mm);
    let [low, high] = [K_HINGED, K_CLAMPED].map(|k| critical_mpa(k, web_mm, part.depth_mm, e_mpa));
    let verdict = match compression_mpa {
        c if c <= low => RippleVerdict::Flat,
        c if c <= high => RippleVerdict::Possible,
        _ => RippleVerdict::Likely,
    };
    let parts = plan.turns(part.span).last().map_or(Parts::ALL, |turn| turn.parts);
    let section = properties(&span.plates, part.depth_mm, span.slope, parts);
    // under so many times the force: working share, half-height with flanges that hinge and that clamp
    let under = |times: f64| {
        let plane =
            Plane { at_edge: times * part.flat.at_edge, in_plane: times * part.flat.in_plane, lateral: 0.0 };
        let buckled = buckled(&section, web_mm, part.depth_mm, &plane, e_mpa);
        buckled
            .map_or((1.0, [0.0; 2]), |b| (b.share, amplitude_mm(part.depth_mm, b.edge_mpa / e_mpa, b.share)))
    };
    let mean = |waves: [f64; 2]| 0.5 * (waves[0] + waves[1]);
    let (working, waves) = under(1.0);
    // a wave grows with the root of what is beyond the critical stress, so its span is looked up, not differentiated
    let [less, more] = [1.0 - SPAN * force_bias, 1.0 + SPAN * force_bias].map(|times| mean(under(times).1));
    let between_edges = waves[0] - waves[1];
    Ripple {
        x_mm: part.x_mm,
        compression_mpa,
        critical_low_mpa: low,
        critical_high_mpa: high,
        verdict,
        working,
        wave_mm: mean(waves),
        wave_2s_mm: (0.5 * (more - less)).hypot(between_edges),
    }
}
