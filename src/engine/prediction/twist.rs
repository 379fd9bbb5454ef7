//! Turn of the member by flanges that want to sweep differently: seams on opposite sides, flanges of unequal width, strips that came
//! bowed unlike.

use super::divided::DividedTurn;
use super::plan::WalkPlan;
use super::plates::Brought;
use super::result::{Bow, Twist};
use super::unsure::Unsure;
use super::walk::Walk;
use super::{Job, strips};
use crate::bow::twist::{Torsion, Turned, TwistStretch};
use crate::member::{Member, Plates, Seam};
use crate::numerics::{Number, farthest};
use crate::shrinkage::second_side::seam_index;

/// What every result says of straightening.
const CAUTION: &str =
    "no plan straightens a twist: it is never pressed at a single point; ask the responsible engineer";

/// A turn that offsets the section by less than this is none but rounding, mm.
const STRAIGHT_MM: f64 = 1e-4;

/// Reads the moments of a walk, and what bowed strips want.
pub(super) fn twist(
    job: &Job,
    plan: &WalkPlan,
    (march, brought): (&Walk, &Brought),
    sweep: &Bow,
    unsure: &Unsure,
) -> Twist {
    let torsion = torsion(job, plan, march);
    let of_strips = strips::wanted(&[job], plan, march, brought.is_any(), unsure.apart_mm_per_m);
    // turns add up over the passes, which is also what their spread needs
    let passes = 0..job.passes.len();
    let mut turned: Vec<Turned> =
        passes.map(|pass| torsion.turned(&wanted(job, march, &torsion, pass).collect::<Vec<_>>())).collect();
    let of_plates = of_strips.map(|wanted| torsion.turned(&wanted));
    let bowed = usize::from(of_plates.is_some());
    turned.extend(of_plates);
    let by_welds = &turned[..turned.len() - bowed];
    let by_plates = &turned[by_welds.len()..];
    let one_sd = strips::one_sd(job, &torsion, unsure);
    let sum = |k: usize| turned.iter().map(|t| t.turn_rad[k]).sum::<f64>() + 0.0;
    let profile: Vec<[f64; 2]> = march.x_mm.iter().enumerate().map(|(k, x)| [*x, sum(k)]).collect();
    let stations = profile.len();
    let finish = stations.saturating_sub(1);
    let spread = |at: usize, end: usize| {
        let from_end = |t: &Turned| t.turn_rad[at] - t.turn_rad[end];
        unsure.of_turn(by_welds.iter().map(from_end), one_sd.as_ref().map_or(0.0, from_end))
    };
    let unsure_by = |end: usize| -> Vec<DividedTurn> { (0..stations).map(|at| spread(at, end)).collect() };
    let both = [0, finish].map(unsure_by);
    let profile_2s_rad = both.each_ref().map(|by| by.iter().map(DividedTurn::all_rad).collect::<Vec<f64>>());
    let [unsure_by, _] = both;
    let of_start_rad = &profile_2s_rad[0];
    // a mean of next to nothing is largest at no place of its own: what counts is where the member may turn most
    let at = farthest_of(stations, |k| over_mm(job, profile[k][0]) * (profile[k][1].abs() + of_start_rad[k]));
    let max_2s_of = unsure_by[at];
    let flanges = flange_lines(job, &torsion, march, sweep, &turned, &profile);
    let apart: Vec<f64> = flanges[1].iter().zip(&flanges[0]).map(|(inner, outer)| inner - outer).collect();
    Twist {
        max_rad: profile[at][1],
        at_mm: march.x_mm.get(at).copied().unwrap_or_default(),
        max_2s_rad: of_start_rad[at],
        max_2s_of,
        by_plates_rad: by_plates.iter().map(|t| t.turn_rad[at]).sum::<f64>() + 0.0,
        end_to_end_rad: profile[finish][1],
        end_to_end_2s_rad: of_start_rad[finish],
        apart_mm: farthest(&march.x_mm, &apart) + 0.0,
        flange_sweep_mm: [0, 1].map(|flange| farthest(&march.x_mm, &flanges[flange]) + 0.0),
        flange_profile_mm: flanges,
        profile,
        profile_2s_rad,
        caution: CAUTION,
    }
}

/// The curvatures that a pass makes the flanges want, stretch by stretch, as [`Torsion::turned`] takes them.
fn wanted(job: &Job, march: &Walk, torsion: &Torsion, pass: usize) -> impl Iterator<Item = [f64; 2]> {
    let (seam, e_mpa) = (seam_index(job.passes[pass].seam), job.member.steel.e_mpa);
    let pulls = march.pulls(pass).iter().zip(torsion.stretches());
    pulls.map(move |([force_n, _, arm_mm, _], s)| wish(s, seam, force_n * arm_mm / e_mpa))
}

/// Turn at the stations by all passes and strips at once, of jobs side by side: what sizes are read from.
#[cfg_attr(wide, inline(always))]
pub(super) fn turned<N: Number>(
    torsion: &Torsion<N>,
    march: &Walk<N>,
    e_mpa: N,
    of_strips: Option<Vec<[N; 2]>>,
) -> Vec<N> {
    let mut all = of_strips.unwrap_or_else(|| vec![[N::default(); 2]; march.near_n_mm.len()]);
    for ((sum, near_n_mm), s) in all.iter_mut().zip(&march.near_n_mm).zip(torsion.stretches()) {
        for (seam, moment) in near_n_mm.iter().enumerate() {
            let [apart, whole] = wish(s, seam, *moment / e_mpa);
            *sum = [sum[0] + apart, sum[1] + whole];
        }
    }
    torsion.turned(&all).turn_rad
}

/// The curvatures that a moment over E at that seam makes the flanges want: apart, and that of the section as a whole.
#[cfg_attr(wide, inline(always))]
fn wish<N: Number>(s: &TwistStretch<N>, seam: usize, bends: N) -> [N; 2] {
    let apart = bends / s.flange_mm4[seam];
    // a pull at the near side is + and bends toward the far side, w″ +
    [if seam == 1 { apart } else { -apart }, bends / (s.flange_mm4[0] + s.flange_mm4[1])]
}

/// What a turn is measured over, mm: the depth of the section there, or a flange that is wider.
pub(super) fn over_mm(job: &Job, x_mm: f64) -> f64 {
    let plates = job.member.plates_meeting_at(x_mm);
    let [outer, inner] = Seam::BOTH.map(|seam| plates.flange_mm(seam));
    (job.member.depth.depth_mm(x_mm) + outer.1 + inner.1).max(outer.0).max(inner.0)
}

/// The most that it can be anywhere, mm.
pub(super) fn deepest_over_mm(member: &Member) -> f64 {
    let flanges = Seam::BOTH.map(|seam| {
        member
            .flange(seam)
            .iter()
            .fold((0.0_f64, 0.0_f64), |(wide, thick), p| (p.width_mm.max(wide), p.thickness_mm.max(thick)))
    });
    let [outer, inner] = flanges;
    (member.depth.deepest_mm() + outer.1 + inner.1).max(outer.0).max(inner.0)
}

/// Station of the largest offset by a turn (mm), and the middle one where nothing turns.
fn farthest_of(stations: usize, offset_mm: impl Fn(usize) -> f64) -> usize {
    let most = (0..stations).map(|k| (k, offset_mm(k))).fold((0, 0.0), |a, b| if b.1 > a.1 { b } else { a });
    if most.1 > STRAIGHT_MM { most.0 } else { stations / 2 }
}

/// The member as it resists.
#[cfg_attr(wide, inline(always))]
pub(super) fn torsion<N: Number>(job: &Job, plan: &WalkPlan<N>, march: &Walk<N>) -> Torsion<N> {
    let mut stretches = Vec::with_capacity(march.web.len());
    for (part, ends) in march.web.iter().zip(march.x_mm.windows(2)) {
        let span = &plan.spans[part.span];
        stretches.push(stretch(&span.plates, part.depth_mm, span.slope, ends[1] - ends[0]));
    }
    Torsion::new(stretches, job.held_ends)
}

#[cfg_attr(wide, inline(always))]
fn stretch<N: Number>(plates: &Plates<N>, depth_mm: N, slope: N, length_mm: N) -> TwistStretch<N> {
    let (outer, inner) = (plates.flange_mm(Seam::Outer), plates.flange_mm(Seam::Inner));
    TwistStretch {
        length_mm,
        height_mm: depth_mm + (outer.1 + inner.1) * 0.5,
        flange_mm4: [twelfth(outer), twelfth(inner)],
        torsion_mm4: third(outer) + third(inner) + third((depth_mm, plates.web_mm)),
        inner_torsion_mm4: third(inner),
        slope,
    }
}

/// Stiffness of a plate (width, thickness, mm) against bending in its own plane, mm⁴.
#[cfg_attr(wide, inline(always))]
fn twelfth<N: Number>((width, thickness): (N, N)) -> N {
    thickness * (width * width * width) / 12.0
}

/// Torsion constant of a thin plate (width, thickness, mm), mm⁴.
#[cfg_attr(wide, inline(always))]
fn third<N: Number>((width, thickness): (N, N)) -> N {
    width * (thickness * thickness * thickness) / 3.0
}

/// Sweep of outer and inner flange at the stations, each from the line between its own ends, mm.
fn flange_lines(
    job: &Job,
    torsion: &Torsion,
    march: &Walk,
    sweep: &Bow,
    turned: &[Turned],
    profile: &[[f64; 2]],
) -> [Vec<f64>; 2] {
    let height = |k: usize| {
        let stretch = torsion.stretches().get(k.saturating_sub(1));
        let over_web =
            |s: &TwistStretch| s.height_mm - march.web.get(k.saturating_sub(1)).map_or(0.0, |w| w.depth_mm);
        job.member.depth.depth_mm(march.x_mm[k]) + stretch.map_or(0.0, over_web)
    };
    // measured upright by the mean of both ends
    let upright = 0.5 * profile.last().map_or(0.0, |end| end[1]);
    let mut outer = Vec::with_capacity(profile.len());
    let mut inner = Vec::with_capacity(profile.len());
    for (k, [_, turn]) in profile.iter().enumerate() {
        let own: f64 = turned.iter().map(|t| t.outer_mm[k]).sum();
        let whole = sweep.profile.get(k).map_or(0.0, |point| point[1]);
        outer.push(whole + own);
        inner.push(whole + own + height(k) * (turn - upright));
    }
    for line in [&mut outer, &mut inner] {
        torsion.refer_to_chord(line);
    }
    [outer, inner]
}
