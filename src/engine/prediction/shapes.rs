//! From the curves of single passes to the bows of the member, with their uncertainty, and order by order.

use super::march::March;
use super::result::{Bow, FitUpShare, PassResult, Shortening, Step};
use super::uncertainty::{HEAT_FROM_LEG_BIAS, SPAN, combined};
use super::{Job, plan::Plan};
use crate::bow::largest;
use crate::member::{Parts, properties};
use crate::welding::{FlangeFit, HeatSource};
use ndarray::{Array2, Axis};

/// A bow smaller than this is called straight, mm.
const STRAIGHT_MM: f64 = 0.01;
/// Forces that vary less than this along a pass are reported as one number, relative.
const CONSTANT: f64 = 1e-3;

/// Bias of the heat: none beside that of the force, unless some heat is deduced from a leg.
pub fn heat_bias(job: &Job) -> f64 {
    let from_leg = job.passes.iter().any(|p| p.heat_source == HeatSource::Leg);
    if from_leg { HEAT_FROM_LEG_BIAS } else { 0.0 }
}

/// Bias of the force.
fn force_bias(job: &Job, march: &March) -> f64 {
    march.bias.force.hypot(heat_bias(job))
}

/// Camber: + toward the inner flange.
pub fn camber(job: &Job, march: &March) -> Bow {
    bow(march, &march.camber, &march.camber_slope, force_bias(job, march), ["inner", "outer"])
}

/// Sweep: + toward the near side.
pub fn sweep(job: &Job, march: &March) -> Bow {
    let bias = force_bias(job, march).hypot(march.bias.arm);
    bow(march, &march.sweep, &march.sweep_slope, bias, ["near", "far"])
}

fn bow(march: &March, offsets: &Array2<f64>, slope: &[f64], bias: f64, names: [&'static str; 2]) -> Bow {
    let sums = offsets.sum_axis(Axis(0));
    let offset_mm = sums.as_slice().unwrap_or_default();
    let (max_mm, at_mm) = largest(&march.x_mm, offset_mm, slope);
    let profile_2s_mm: Vec<f64> =
        offsets.columns().into_iter().map(|c| SPAN * combined(c.iter().copied(), bias)).collect();
    let straight = max_mm.abs() < STRAIGHT_MM;
    Bow {
        max_mm: max_mm + 0.0,
        at_mm,
        toward: match (straight, max_mm > 0.0) {
            (true, _) => "straight",
            (false, true) => names[0],
            (false, false) => names[1],
        },
        max_2s_mm: at(&march.x_mm, |i| profile_2s_mm[i], at_mm),
        profile: march.x_mm.iter().zip(offset_mm).map(|(x, v)| [*x, *v + 0.0]).collect(),
        profile_2s_mm,
    }
}

/// Value at x between stations, straight; `value` is asked at the two stations beside x.
pub fn at(x_mm: &[f64], value: impl Fn(usize) -> f64, x: f64) -> f64 {
    let above = x_mm.partition_point(|s| *s < x).clamp(1, x_mm.len().max(2) - 1);
    match (x_mm.get(above - 1), x_mm.get(above)) {
        (Some(x0), Some(x1)) => {
            let (v0, v1) = (value(above - 1), value(above));
            v0 + (x - x0) / (x1 - x0) * (v1 - v0)
        }
        _ => 0.0,
    }
}

/// Shortening of centroid and web edges.
pub fn shortening(job: &Job, march: &March) -> Shortening {
    let edges = march.edges.last().copied().unwrap_or_default();
    Shortening {
        centroid_mm: march.shortening.iter().map(|s| s.0).sum(),
        outer_edge_mm: edges[0],
        inner_edge_mm: edges[1],
        centroid_2s_mm: SPAN * combined(march.shortening.iter().map(|s| s.0), force_bias(job, march)),
    }
}

/// Pass by pass.
pub fn passes(job: &Job, march: &March) -> Vec<PassResult> {
    job.passes
        .iter()
        .enumerate()
        .map(|(index, pass)| {
            let before = |x: f64| march.middle_mm.partition_point(|middle| *middle < x);
            let along = before(pass.from_mm)..before(pass.to_mm);
            let middle = march.substep_near(0.5 * (pass.from_mm + pass.to_mm));
            let profile = |values: &Array2<f64>| -> Vec<[f64; 2]> {
                let row = values.row(index);
                let inside = || march.middle_mm.iter().zip(row).skip(along.start).take(along.len());
                let start = row.get(along.start).copied().unwrap_or_default();
                let (least, most) = range(start, inside().map(|(_, v)| v));
                if most - least <= CONSTANT * most.abs().max(least.abs()) {
                    return Vec::new();
                }
                inside().map(|(x, v)| [*x, *v]).collect()
            };
            let parts = job.orders.iter().find(|o| o.number == pass.order).map_or(Parts::ALL, |o| o.joined);
            PassResult {
                seam: pass.seam,
                side: pass.side,
                order: pass.order,
                from_mm: pass.from_mm,
                to_mm: pass.to_mm,
                leg_mm: pass.leg_mm,
                heat_input_j_per_mm: pass.heat_j_per_mm,
                heat_source: pass.heat_source,
                force_n: march.force[[index, middle]],
                lone_force_n: march.lone[[index, middle]],
                arm_y_mm: march.arm_y[[index, middle]],
                arm_z_mm: march.arm_z[[index, middle]],
                parts,
                force_profile: profile(&march.force),
                arm_z_profile: profile(&march.arm_z),
            }
        })
        .collect()
}

/// Lowest and highest of values and `start`. Plain comparisons: twice as fast as `min` and `max`, which look out for NaN.
fn range<'a>(start: f64, values: impl Iterator<Item = &'a f64>) -> (f64, f64) {
    values.fold((start, start), |(low, high), v| {
        (if *v < low { *v } else { low }, if *v > high { *v } else { high })
    })
}

/// Offset farthest from the chord, with its sign: the top of the parabola through the farthest station and its
/// neighbours. At the stations alone a bow of eight substeps would lose up to 1.5 %.
pub fn farthest(x_mm: &[f64], offset_mm: &[f64]) -> f64 {
    let (low, high) = range(0.0, offset_mm.iter());
    let most = if high < -low { low } else { high };
    let Some(at) = offset_mm.iter().position(|v| v.to_bits() == most.to_bits()) else { return most };
    let around =
        |values: &[f64]| values.get(at.wrapping_sub(1)..at + 2).and_then(|v| <[f64; 3]>::try_from(v).ok());
    let (Some([x0, x1, x2]), Some([v0, v1, v2])) = (around(x_mm), around(offset_mm)) else { return most };
    let (before, after) = ((v1 - v0) / (x1 - x0), (v2 - v1) / (x2 - x1));
    let bends = (after - before) / (x2 - x0);
    let slope = before + bends * (x1 - x0);
    if bends.abs() > 0.0 { v1 - slope * slope / (4.0 * bends) } else { most }
}

/// Pass by pass: everything laid up to and with each.
pub fn build_up(job: &Job, march: &March) -> Vec<Step> {
    let mut shortening_mm = 0.0;
    let mut camber = vec![0.0; march.x_mm.len()];
    let mut sweep = camber.clone();
    job.passes
        .iter()
        .enumerate()
        .map(|(index, pass)| {
            shortening_mm += march.shortening[index].0;
            camber.iter_mut().zip(march.camber.row(index)).for_each(|(sum, v)| *sum += v);
            sweep.iter_mut().zip(march.sweep.row(index)).for_each(|(sum, v)| *sum += v);
            Step {
                pass: index + 1,
                order: pass.order,
                seam: pass.seam,
                side: pass.side,
                shortening_mm,
                camber_mm: farthest(&march.x_mm, &camber),
                sweep_mm: farthest(&march.x_mm, &sweep),
                camber_profile_mm: camber.clone(),
                sweep_profile_mm: sweep.clone(),
            }
        })
        .collect()
}

/// Sweep shared out by flanges clamped straight, at mid-length.
pub fn fit_up(job: &Job, plan: &Plan) -> Vec<FitUpShare> {
    let Some(span) = plan.spans.iter().find(|s| s.to_mm >= 0.5 * job.member.length_mm) else {
        return Vec::new();
    };
    let x = 0.5 * job.member.length_mm;
    let lateral = |parts| properties(&span.plates, span.depth_mm(x), span.slope, parts).i_y_mm4;
    job.orders
        .windows(2)
        .filter(|pair| pair[1].joined != pair[0].joined && pair[1].fit == FlangeFit::Straight)
        .map(|pair| FitUpShare {
            order: pair[1].number,
            sweep_kept: lateral(pair[0].joined) / lateral(pair[1].joined),
        })
        .collect()
}
