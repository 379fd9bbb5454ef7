//! From the curves of single passes to the bows of the member, with their uncertainty, and order by order.

use super::cross::CrossWelds;
use super::learned::FACTORS;
use super::result::{Bow, FitUpShare, PassResult, Shortening, Step};
use super::uncertainty::{Bias, HEAT_FROM_LEG_BIAS, SPAN, Together};
use super::walk::{Bent, Walk};
use super::{Job, plan::Plan};
use crate::bow::{largest, largest_kinked};
use crate::member::{Parts, properties};
use crate::numerics::{between, farthest, parabola, range};
use crate::welding::{FlangeFit, HeatSource};
use ndarray::{Array2, ArrayView1};
use std::borrow::Cow;

/// A bow smaller than this is called straight, mm.
const STRAIGHT_MM: f64 = 0.01;
/// Spreads nearer than this are equal, relative.
const SAME_SPREAD: f64 = 1e-9;
/// Forces that vary less than this along a pass are reported as one number, relative.
const CONSTANT: f64 = 1e-3;

/// Bias of the heat: none beside that of the force, unless some heat is deduced from a leg.
pub fn heat_bias(job: &Job) -> f64 {
    let from_leg = job.passes.iter().any(|p| p.heat_source == HeatSource::Leg);
    if from_leg { HEAT_FROM_LEG_BIAS } else { 0.0 }
}

/// How a level's results are unsure: its biases and how passes hang together.
pub struct Unsure {
    together: Together,
    /// Bias of the force that all passes share.
    pub force: f64,
    /// Bias of a sideways moment that all passes share.
    moment: f64,
    /// Rise of the bows that plates and assembly add, mm.
    rise_mm: [f64; 2],
    /// Length, mm.
    length_mm: f64,
    /// What was learned of both bows: variance of the log of what welds do, its covariance with the rise (mm), the rise's own
    /// variance with its scatter (mm²).
    known: Option<[[f64; 3]; 2]>,
    /// Scatter of the shortening beside that of welding, mm.
    length_sd_mm: f64,
    /// Whether deviations are left out: sizes alone are wanted.
    silent: bool,
}

impl Unsure {
    /// Of a job.
    pub fn of(job: &Job, bias: Bias) -> Self {
        let length_mm = job.member.length_mm;
        let metres = 1e-3 * length_mm;
        let force = bias.force.hypot(heat_bias(job));
        let usual = Self {
            together: Together::of(&job.passes, bias),
            force,
            moment: force.hypot(bias.arm),
            rise_mm: job.assembly.bow_mm_per_m.map(|bow| metres * bow),
            length_mm,
            known: None,
            length_sd_mm: 0.0,
            silent: false,
        };
        let Some(learned) = job.learned.as_deref() else { return usual };
        let seam = if learned.seams { [0.0; 2] } else { bias.seam };
        let (force, moment) = (learned.force(job), learned.moment(job));
        let known = [(force, 0), (moment, 1)].map(|(weights, bow)| {
            let at = FACTORS + bow;
            let both: f64 = weights.iter().zip(&learned.covariance[at]).map(|(w, c)| w * c).sum();
            let own = learned.covariance[at][at] + learned.scatter[bow].powi(2);
            [learned.variance(&weights), metres * both, metres * metres * own]
        });
        Self {
            together: Together::of(&job.passes, Bias { seam, ..bias }),
            force: learned.variance(&force).sqrt(),
            moment: learned.variance(&moment).sqrt(),
            known: Some(known),
            length_sd_mm: metres * learned.scatter[2],
            ..usual
        }
    }

    /// Without deviations, where sizes alone are wanted.
    pub fn silent(self) -> Self {
        Self { silent: true, ..self }
    }

    /// Two standard deviations of a bow at x, camber 0 or sweep 1: what welds do there, and what plates and assembly add.
    fn of_bow(&self, contributions: impl Iterator<Item = f64> + Clone, x_mm: f64, bow: usize) -> f64 {
        let Some(known) = &self.known else {
            return if bow == 0 { self.of_force(contributions) } else { self.of_moment(contributions) };
        };
        let [weld, both, plates] = known[bow];
        let (sum, shape) = (contributions.clone().sum::<f64>(), parabola(x_mm / self.length_mm));
        let common = sum * sum * weld + 2.0 * sum * shape * both + shape * shape * plates;
        SPAN * self.together.sigma(contributions, 0.0).hypot(common.max(0.0).sqrt())
    }

    /// Two standard deviations of a sum of what the forces of passes do.
    fn of_force(&self, contributions: impl Iterator<Item = f64> + Clone) -> f64 {
        SPAN * self.together.sigma(contributions, self.force)
    }

    /// The same of what forces do by their lateral arms.
    pub fn of_moment(&self, contributions: impl Iterator<Item = f64> + Clone) -> f64 {
        SPAN * self.together.sigma(contributions, self.moment)
    }
}

/// Camber: + toward the inner flange.
pub fn camber(march: &Walk, cross: &CrossWelds, unsure: &Unsure) -> Bow {
    bow(march, (&march.camber, &march.camber_all), cross, unsure, 0, ["inner", "outer"])
}

/// Sweep: + toward the near side.
pub fn sweep(march: &Walk, cross: &CrossWelds, unsure: &Unsure) -> Bow {
    bow(march, (&march.sweep, &march.sweep_all), cross, unsure, 1, ["near", "far"])
}

/// Camber and sweep without their uncertainty; of their profiles the end alone.
pub fn bows_alone(job: &Job, march: &Walk, cross: &CrossWelds) -> [Bow; 2] {
    let rise = job.assembly.bow_mm_per_m.map(|bow| 1e-3 * job.member.length_mm * bow);
    let both = [(&march.camber_all, ["inner", "outer"]), (&march.sweep_all, ["near", "far"])];
    [0, 1].map(|which: usize| {
        let (all, names) = both[which];
        let (_, top) = kinked(march, risen(march, all, rise[which]), cross, which);
        let mut bow = named(march, top, Vec::new(), names);
        bow.profile = vec![[job.member.length_mm, 0.0]];
        bow
    })
}

fn bow(
    march: &Walk,
    (offsets, all): (&Array2<f64>, &Bent<f64>),
    cross: &CrossWelds,
    unsure: &Unsure,
    which: usize,
    names: [&'static str; 2],
) -> Bow {
    let (all, top) = kinked(march, risen(march, all, unsure.rise_mm[which]), cross, which);
    let profile_2s_mm: Vec<f64> = if unsure.silent && !is_straight(top.0) {
        vec![0.0; march.x_mm.len()]
    } else {
        let at = offsets.columns().into_iter().zip(&march.x_mm);
        let seams = |(c, x): (ArrayView1<'_, f64>, &f64)| {
            let of_seams = unsure.of_bow(c.iter().copied(), *x, which);
            if cross.is_empty() { of_seams } else { of_seams.hypot(cross.bow_2s(which, *x)) }
        };
        at.map(seams).collect()
    };
    let bow = named(march, top, profile_2s_mm, names);
    let profile = march.x_mm.iter().zip(&all.offset_mm).map(|(x, v)| [*x, *v + 0.0]).collect();
    Bow { profile, ..bow }
}

/// A bow with the rise that plates and assembly add.
fn risen<'a>(march: &Walk, all: &'a Bent<f64>, rise_mm: f64) -> Cow<'a, Bent<f64>> {
    let mut all = Cow::Borrowed(all);
    if rise_mm.abs() > 0.0 {
        let length = march.x_mm.last().copied().unwrap_or_default();
        let Bent { offset_mm, slope } = all.to_mut();
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
    all: Cow<'a, Bent<f64>>,
    cross: &CrossWelds,
    which: usize,
) -> (Cow<'a, Bent<f64>>, (f64, f64)) {
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
fn named(
    march: &Walk,
    (max_mm, at_mm): (f64, f64),
    profile_2s_mm: Vec<f64>,
    names: [&'static str; 2],
) -> Bow {
    let straight = is_straight(max_mm);
    let sure = profile_2s_mm.is_empty();
    // where a member stays straight its largest offset is rounding noise: it may bow where it is least sure
    let at_mm = if straight && !sure { least_sure(&march.x_mm, &profile_2s_mm) } else { at_mm };
    Bow {
        max_mm: max_mm + 0.0,
        at_mm,
        toward: match (straight, max_mm > 0.0) {
            (true, _) => "straight",
            (false, true) => names[0],
            (false, false) => names[1],
        },
        max_2s_mm: if sure { 0.0 } else { between(&march.x_mm, |i| profile_2s_mm[i], at_mm) },
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
pub fn shortening(job: &Job, march: &Walk, cross: &CrossWelds, unsure: &Unsure) -> Shortening {
    let passes = march.shortening.iter().map(|s| s.0);
    let plates_mm = SPAN * unsure.length_sd_mm;
    let centroid_2s_mm = unsure.of_force(passes).hypot(plates_mm).hypot(cross.shortening_2s_mm);
    Shortening { centroid_2s_mm, ..shortening_alone(job, march, cross) }
}

/// The same without its uncertainty.
pub fn shortening_alone(job: &Job, march: &Walk, cross: &CrossWelds) -> Shortening {
    let seams = march.lines.last().copied().unwrap_or_default();
    let across = |line: usize| seams[line] + cross.line_mm(line, 0.0, job.member.length_mm);
    let [outer_edge_mm, inner_edge_mm, outer_flange_mm, inner_flange_mm] =
        if cross.is_empty() { seams } else { [0, 1, 2, 3].map(across) };
    let cut_mm = 1e-3 * job.member.length_mm * job.assembly.shortening_mm_per_m;
    Shortening {
        centroid_mm: march.shortening.iter().map(|s| s.0).sum::<f64>() + cut_mm + cross.shortening_mm,
        outer_edge_mm,
        inner_edge_mm,
        outer_flange_mm,
        inner_flange_mm,
        centroid_2s_mm: 0.0,
    }
}

/// Pass by pass.
pub fn passes(job: &Job, march: &Walk) -> Vec<PassResult> {
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
                arm_z_mm: arm_z[[index, middle]],
                parts,
                force_profile: profile(&march.force),
                arm_z_profile: profile(&arm_z),
            }
        })
        .collect()
}

/// Pass by pass: everything laid up to and with each; then what is welded across, if anything.
pub fn build_up(job: &Job, march: &Walk, cross: &CrossWelds) -> Vec<Step> {
    let mut shortening_mm = 0.0;
    let mut camber = vec![0.0; march.x_mm.len()];
    let mut sweep = camber.clone();
    let mut steps: Vec<Step> = job
        .passes
        .iter()
        .enumerate()
        .map(|(index, pass)| {
            shortening_mm += march.shortening[index].0;
            camber.iter_mut().zip(march.camber.row(index)).for_each(|(sum, v)| *sum += v);
            sweep.iter_mut().zip(march.sweep.row(index)).for_each(|(sum, v)| *sum += v);
            Step {
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
        steps.push(Step {
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
