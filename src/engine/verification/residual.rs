//! What is read of the residual stress along the member.

use super::result::Residual;
use crate::joint_solver::{ElementKind, Joint, Lengthwise, NodalField, Outcome, at_nodes, points};

/// Places along a profile, at least, from end to end.
const PLACES: usize = 80;

/// Peaks, edges, balance and profiles of a welded section.
pub(crate) fn residual(joint: &Joint, outcome: &Outcome, lengthwise: Lengthwise, yield_mpa: f64) -> Residual {
    let nodes = at_nodes(&outcome.mesh, &outcome.along_mpa, &outcome.solid);
    let field = NodalField::new(&outcome.mesh, &nodes);
    let in_flange = |across: f64| field.at([across, -joint.flange_mm / 2.0], |p| p == ElementKind::Flange);
    let in_web = |up: f64| field.at([0.0, up], |p| p == ElementKind::Web);
    let half = joint.flange_width_mm / 2.0;
    let plates = extremes(outcome, |part| !matches!(part, ElementKind::Fillet(_)));
    let weld = extremes(outcome, |part| matches!(part, ElementKind::Fillet(_)));
    let edges = [in_flange(half), in_flange(-half)].map(Option::unwrap_or_default);
    Residual {
        peak_mpa: plates[1].0,
        peak_at_mm: plates[1].1,
        peak_over_yield: plates[1].0 / yield_mpa,
        lowest_mpa: plates[0].0,
        lowest_at_mm: plates[0].1,
        weld_metal_peak_mpa: weld[1].0,
        near_edge_mpa: edges[0],
        far_edge_mpa: edges[1],
        edge_over_yield: f64::midpoint(edges[0], edges[1]) / yield_mpa,
        at_weld_over_yield: in_flange(0.0).unwrap_or_default() / yield_mpa,
        out_of_balance: (lengthwise != Lengthwise::Held).then(|| out_of_balance(outcome)),
        flange_profile: profile(-half, half, in_flange),
        web_profile: profile(0.0, joint.web_stub_mm, in_web),
    }
}

/// Smallest and largest stress of the solid points of some parts, MPa, and where.
fn extremes(outcome: &Outcome, wanted: impl Fn(ElementKind) -> bool) -> [(f64, [f64; 2]); 2] {
    let counts = |k: &usize| outcome.solid[k / 4] && wanted(outcome.mesh.elements[k / 4].part);
    let all =
        || (0..outcome.along_mpa.len()).filter(counts).map(|k| (outcome.along_mpa[k], outcome.points_mm[k]));
    let none = (0.0, [0.0; 2]);
    [
        all().min_by(|a, b| a.0.total_cmp(&b.0)).unwrap_or(none),
        all().max_by(|a, b| a.0.total_cmp(&b.0)).unwrap_or(none),
    ]
}

/// Largest of force and both moments of the stress, each over the sum of its parts without sign: 0 in a section left to itself.
fn out_of_balance(outcome: &Outcome) -> f64 {
    let (mut sums, mut sizes) = ([0.0; 3], [f64::MIN_POSITIVE; 3]);
    let areas = outcome.mesh.elements.iter().flat_map(|e| points(&outcome.mesh, e)).map(|p| p.area_mm2);
    for (k, (area, at)) in areas.zip(&outcome.points_mm).enumerate().filter(|(k, _)| outcome.solid[k / 4]) {
        let force = area * outcome.along_mpa[k];
        for (m, mode) in [1.0, at[0], at[1]].into_iter().enumerate() {
            sums[m] += force * mode;
            sizes[m] += (force * mode).abs();
        }
    }
    sums.iter().zip(sizes).map(|(sum, size)| sum.abs() / size).fold(0.0, f64::max)
}

fn profile(from: f64, to: f64, stress: impl Fn(f64) -> Option<f64>) -> Vec<[f64; 2]> {
    let place = |k: usize| from + (to - from) * k as f64 / PLACES as f64;
    (0..=PLACES).filter_map(|k| stress(place(k)).map(|mpa| [place(k), mpa])).collect()
}
