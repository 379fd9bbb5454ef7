//! From the curves of single passes to the bows of the member, with their uncertainty, and order by order.

use super::cross::CrossWelds;
use super::divided::Divided;
use super::plates::Brought;
use super::result::{Bow, FitUpShare, PassResult, Shortening, WeldingStep};
use super::uncertainty::SPAN;
use super::unsure::{Spread, Unsure};
use super::walk::{BentLine, Walk};
use super::{Job, plan::WalkPlan};
use crate::bow::{Bend, largest, largest_kinked};
use crate::member::{Parts, properties};
use crate::numerics::{between, farthest, parabola, range};
use crate::welding::FlangeFit;
use ndarray::Array2;
use std::borrow::Cow;

/// A bow smaller than this is called straight, mm.
const STRAIGHT_MM: f64 = 0.01;
/// Spreads nearer than this are equal, relative.
const SAME_SPREAD: f64 = 1e-9;
/// Forces that vary less than this along a pass are reported as one number, relative.
const CONSTANT: f64 = 1e-3;

/// Camber, + toward the inner flange, and sweep, + toward the near side; how they run along the member only if that is wanted.
pub(crate) fn bows(march: &Walk, beside: (&CrossWelds, &Brought), unsure: &Unsure, along: bool) -> [Bow; 2] {
    let (camber, sweep) = ((&march.camber, &march.camber_all), (&march.sweep, &march.sweep_all));
    [bow(march, camber, beside, unsure, (0, along)), bow(march, sweep, beside, unsure, (1, along))]
}

/// What camber and sweep are toward.
const TOWARD: [[&str; 2]; 2] = [["inner", "outer"], ["near", "far"]];

/// Camber and sweep without their uncertainty and their profiles.
pub(crate) fn bows_alone(job: &Job, march: &Walk, cross: &CrossWelds) -> [Bow; 2] {
    let rise = job.brought().bow_mm_per_m.map(|bow| 1e-3 * job.member.length_mm * bow);
    let brought = Brought::of(job, &march.x_mm);
    let both = [&march.camber_all, &march.sweep_all];
    [0, 1].map(|which: usize| {
        let all = inherited(risen(march, both[which], rise[which]), brought.bow(which));
        let (_, top) = kinked(march, all, cross, which);
        named(march, top, Vec::new(), which)
    })
}

fn bow(
    march: &Walk,
    (offsets, all): (&Array2<f64>, &BentLine<f64>),
    (cross, brought): (&CrossWelds, &Brought),
    unsure: &Unsure,
    (which, along): (usize, bool),
) -> Bow {
    let all = inherited(risen(march, all, unsure.rise_mm[which]), brought.bow(which));
    let (all, top) = kinked(march, all, cross, which);
    let spread = |k: usize| {
        let x = march.x_mm[k];
        let of_seams = unsure.of_bow(offsets.column(k).iter().copied(), x, which);
        if cross.is_empty() { of_seams } else { Spread { across_mm: cross.bow_2s(which, x), ..of_seams } }
    };
    let (straight, all_mm) = (is_straight(top.0), |k: usize| spread(k).all_mm());
    let stations = 0..march.x_mm.len();
    // where a straight member bows is where it is least sure
    let profile_2s_mm: Vec<f64> = match (unsure.silent && !straight, along || straight) {
        (false, true) => stations.map(all_mm).collect(),
        (true, true) => vec![0.0; stations.len()],
        (_, false) => Vec::new(),
    };
    let spans = !unsure.silent && profile_2s_mm.is_empty();
    let mut bow = named(march, top, profile_2s_mm, which);
    if spans {
        bow.max_2s_mm = between(&march.x_mm, all_mm, bow.at_mm);
    }
    let profile = || march.x_mm.iter().zip(&all.offset_mm).map(|(x, v)| [*x, *v + 0.0]).collect();
    let profile = if along { profile() } else { Vec::new() };
    let max_2s_of = if unsure.silent {
        Divided::default()
    } else {
        Divided::between(&march.x_mm, |k| spread(k).divided(), bow.at_mm)
    };
    let by_plates_mm =
        brought.bow(which).map_or(0.0, |bends| between(&march.x_mm, |k| bends[k].offset_mm, bow.at_mm) + 0.0);
    Bow { profile, max_2s_of, by_plates_mm, ..bow }
}

/// A bow with what the member inherits of strips that came bowed.
fn inherited<'a>(all: Cow<'a, BentLine<f64>>, brought: Option<&[Bend]>) -> Cow<'a, BentLine<f64>> {
    let mut all = all;
    if let Some(brought) = brought {
        let BentLine { offset_mm, slope } = all.to_mut();
        for ((offset, slope), bend) in offset_mm.iter_mut().zip(slope).zip(brought) {
            *offset += bend.offset_mm;
            *slope += bend.slope;
        }
    }
    all
}

/// A bow with the rise that plates and assembly add.
fn risen<'a>(march: &Walk, all: &'a BentLine<f64>, rise_mm: f64) -> Cow<'a, BentLine<f64>> {
    let mut all = Cow::Borrowed(all);
    if rise_mm.abs() > 0.0 {
        let length = march.x_mm.last().copied().unwrap_or_default();
        let BentLine { offset_mm, slope } = all.to_mut();
        for ((offset, slope), x) in offset_mm.iter_mut().zip(slope).zip(&march.x_mm) {
            *offset += rise_mm * parabola(x / length);
            *slope += 4.0 * rise_mm / length * (1.0 - 2.0 * x / length);
        }
    }
    all
}

/// A bow with the kinks of welds across; the size and place of its largest offset.
fn kinked<'a>(
    march: &Walk,
    all: Cow<'a, BentLine<f64>>,
    cross: &CrossWelds,
    which: usize,
) -> (Cow<'a, BentLine<f64>>, (f64, f64)) {
    if cross.is_empty() {
        let top = largest(&march.x_mm, &all.offset_mm, &all.slope);
        return (all, top);
    }
    let kinks: Vec<f64> = cross.kinks(which).map(|kink| kink.0).collect();
    let top = largest_kinked(&march.x_mm, &all.offset_mm, &all.slope, |x| cross.bow(which, x), &kinks);
    let mut all = all;
    for (offset, x) in all.to_mut().offset_mm.iter_mut().zip(&march.x_mm) {
        *offset += cross.bow(which, *x).0;
    }
    (all, top)
}

/// Whether a bow of that size is rounding noise.
fn is_straight(max_mm: f64) -> bool {
    max_mm.abs() < STRAIGHT_MM
}

/// A bow by its size and place, without its profile; `profile_2s_mm` may be empty.
fn named(march: &Walk, (max_mm, at_mm): (f64, f64), profile_2s_mm: Vec<f64>, which: usize) -> Bow {
    let straight = is_straight(max_mm);
    let sure = profile_2s_mm.is_empty();
    // where a member stays straight its largest offset is rounding noise: it may bow where it is least sure
    let at_mm = if straight && !sure { least_sure(&march.x_mm, &profile_2s_mm) } else { at_mm };
    Bow {
        max_mm: max_mm + 0.0,
        at_mm,
        toward: match (straight, max_mm > 0.0) {
            (true, _) => "straight",
            (false, true) => TOWARD[which][0],
            (false, false) => TOWARD[which][1],
        },
        max_2s_mm: if sure { 0.0 } else { between(&march.x_mm, |i| profile_2s_mm[i], at_mm) },
        max_2s_of: Divided::default(),
        by_plates_mm: 0.0,
        profile: Vec::new(),
        profile_2s_mm,
    }
}

/// The station of the largest spread; of equal ones the middle one.
fn least_sure(x_mm: &[f64], spread_mm: &[f64]) -> f64 {
    let most = spread_mm.iter().fold(0.0_f64, |most, s| most.max(*s));
    let near = x_mm.iter().zip(spread_mm).filter(|(_, s)| **s >= (1.0 - SAME_SPREAD) * most).map(|(x, _)| *x);
    let (first, last) = near.fold((f64::INFINITY, 0.0_f64), |(a, b), x| (a.min(x), b.max(x)));
    if first <= last { 0.5 * (first + last) } else { 0.0 }
}

/// Shortening of centroid, web edges and flanges.
pub(crate) fn shortening(job: &Job, march: &Walk, cross: &CrossWelds, unsure: &Unsure) -> Shortening {
    let passes = march.shortening.iter().map(|s| s.0);
    let of_seams = unsure.divided(passes, unsure.force, 0.0, SPAN * unsure.plates_sd_mm[2]);
    let centroid_2s_of = Spread { across_mm: cross.shortening_2s_mm, ..of_seams }.divided();
    let alone = shortening_of(job, march, cross, unsure.cut_mm);
    Shortening { centroid_2s_mm: centroid_2s_of.all_mm, centroid_2s_of, ..alone }
}

/// The same without its uncertainty.
pub(crate) fn shortening_alone(job: &Job, march: &Walk, cross: &CrossWelds) -> Shortening {
    shortening_of(job, march, cross, 1e-3 * job.member.length_mm * job.brought().shortening_mm_per_m)
}

/// The same with what cutting adds, mm.
fn shortening_of(job: &Job, march: &Walk, cross: &CrossWelds, cut_mm: f64) -> Shortening {
    let seams = march.lines.last().copied().unwrap_or_default();
    let across = |line: usize| seams[line] + cross.line_mm(line, 0.0, job.member.length_mm);
    let [outer_edge_mm, inner_edge_mm, outer_flange_mm, inner_flange_mm] =
        if cross.is_empty() { seams } else { [0, 1, 2, 3].map(across) };
    Shortening {
        centroid_mm: march.shortening_all + cut_mm + cross.shortening_mm,
        outer_edge_mm,
        inner_edge_mm,
        outer_flange_mm,
        inner_flange_mm,
        centroid_2s_mm: 0.0,
        centroid_2s_of: Divided::default(),
    }
}

/// Pass by pass; how forces run along the member only if that is wanted.
pub(super) fn passes(job: &Job, march: &Walk, along_member: bool) -> Vec<PassResult> {
    let m = &job.member;
    let widest_mm = m.outer_flange.iter().chain(&m.inner_flange).map(|p| p.width_mm).fold(0.0, f64::max);
    // a moment with next to no force has no line of action on the member
    let on_member = |arm: f64| if arm.abs() <= 0.5 * widest_mm { arm } else { 0.0 };
    let arm_z = march.arm_z.mapv(on_member);
    job.passes
        .iter()
        .enumerate()
        .map(|(index, pass)| {
            let before = |x: f64| march.middle_mm.partition_point(|middle| *middle < x);
            let along = before(pass.from_mm)..before(pass.to_mm);
            let middle = march.substep_near(0.5 * (pass.from_mm + pass.to_mm));
            let profile = |values: &Array2<f64>| -> Vec<[f64; 2]> {
                if !along_member {
                    return Vec::new();
                }
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
                wps: pass.wps.as_deref().map(str::to_owned),
                from_mm: pass.from_mm,
                to_mm: pass.to_mm,
                leg_mm: pass.leg_mm,
                heat_input_j_per_mm: pass.heat_j_per_mm,
                heat_source: pass.heat_source,
                force_n: march.force[[index, middle]],
                lone_force_n: march.lone[[index, middle]],
                arm_y_mm: march.arm_y[[index, middle]],
                arm_z_mm: arm_z[[index, middle]],
                parts,
                force_profile: profile(&march.force),
                arm_z_profile: profile(&arm_z),
            }
        })
        .collect()
}

/// Pass by pass: everything laid up to and with each; then what is welded across, if anything.
pub(super) fn build_up(job: &Job, march: &Walk, cross: &CrossWelds) -> Vec<WeldingStep> {
    let mut shortening_mm = 0.0;
    let mut camber = vec![0.0; march.x_mm.len()];
    let mut sweep = camber.clone();
    let mut steps: Vec<WeldingStep> = job
        .passes
        .iter()
        .enumerate()
        .map(|(index, pass)| {
            shortening_mm += march.shortening[index].0;
            camber.iter_mut().zip(march.camber.row(index)).for_each(|(sum, v)| *sum += v);
            sweep.iter_mut().zip(march.sweep.row(index)).for_each(|(sum, v)| *sum += v);
            WeldingStep {
                pass: index + 1,
                order: pass.order,
                seam: Some(pass.seam),
                side: Some(pass.side),
                shortening_mm,
                camber_mm: farthest(&march.x_mm, &camber),
                sweep_mm: farthest(&march.x_mm, &sweep),
                camber_profile_mm: camber.clone(),
                sweep_profile_mm: sweep.clone(),
            }
        })
        .collect();
    if let Some(last) = steps.last().filter(|_| !cross.is_empty()) {
        let with = |bow: usize, profile: &[f64]| -> Vec<f64> {
            profile.iter().zip(&march.x_mm).map(|(offset, x)| offset + cross.bow(bow, *x).0).collect()
        };
        let (camber, sweep) = (with(0, &camber), with(1, &sweep));
        steps.push(WeldingStep {
            pass: last.pass + 1,
            order: last.order + 1,
            seam: None,
            side: None,
            shortening_mm: shortening_mm + cross.shortening_mm,
            camber_mm: farthest(&march.x_mm, &camber),
            sweep_mm: farthest(&march.x_mm, &sweep),
            camber_profile_mm: camber,
            sweep_profile_mm: sweep,
        });
    }
    steps
}

/// Sweep shared out by flanges clamped straight, at mid-length.
pub(crate) fn fit_up(job: &Job, plan: &WalkPlan) -> Vec<FitUpShare> {
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
