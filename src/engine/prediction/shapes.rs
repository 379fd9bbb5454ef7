//! From the curves of single passes to the bows of the member, with their uncertainty, and order by order.

use super::cross::CrossWelds;
use super::divided::Divided;
use super::plates::Brought;
use super::result::{Bow, FitUpShare, PassResult, Shortening, WeldingStep};
use super::uncertainty::SPAN;
use super::unsure::{Spread, Unsure};
use super::walk::{BentLine, Walk};
use super::{Job, plan::WalkPlan};
use crate::bow::{BowShape, Bowed, largest_of, raised};
use crate::member::{Parts, properties};
use crate::numerics::{Number, arch_at, arch_top, between, farthest, range};
use crate::welding::FlangeFit;

/// A bow smaller than this is called straight, mm.
const STRAIGHT_MM: f64 = 0.01;
/// Spreads nearer than this are equal, relative.
const SAME_SPREAD: f64 = 1e-9;
/// Forces that vary less than this along a pass are reported as one number, relative.
const CONSTANT: f64 = 1e-3;

/// What stands beside the seams in the shape of one job of a walk.
pub(super) struct Beside<'a> {
    /// Its number in the walk.
    pub(super) k: usize,
    /// Welds across.
    pub(super) cross: &'a CrossWelds,
    /// What plates bring that come bowed.
    pub(super) brought: &'a Brought,
    /// Rise that plates and assembly add to camber and sweep, mm.
    pub(super) rise_mm: [f64; 2],
}

/// What camber and sweep are toward.
const TOWARD: [[&str; 2]; 2] = [["inner", "outer"], ["near", "far"]];

/// Camber, + toward the inner flange, and sweep, + toward the near side; how they run along the member only if that is wanted.
pub(crate) fn bows(march: &Walk, beside: &Beside<'_>, unsure: &Unsure, along: bool) -> [Bow; 2] {
    [0, 1].map(|which: usize| bow(march, &Line::of(march, beside, which), unsure, along))
}

/// Size and place of the largest camber and sweep, mm, where a rise (mm) is added to what the seams do and no kink or plate.
#[cfg_attr(wide, inline(always))]
pub(crate) fn tops<N: Number>(march: &Walk<N>, rise_mm: [N; 2]) -> [(N, N); 2] {
    [top(march, &march.camber_all, rise_mm[0]), top(march, &march.sweep_all, rise_mm[1])]
}

#[cfg_attr(wide, inline(always))]
fn top<N: Number>(march: &Walk<N>, seams: &BentLine<N>, rise_mm: N) -> (N, N) {
    let stations = march.x_mm.len();
    let length_mm = march.x_mm.last().copied().unwrap_or_default();
    let smooth = Smooth { march, seams };
    if rise_mm.any(|rise| rise.abs() > 0.0) {
        largest_of(stations, &Raised { smooth, rise_mm, length_mm })
    } else {
        largest_of(stations, &smooth)
    }
}

/// A bow by seams alone.
struct Smooth<'a, N> {
    march: &'a Walk<N>,
    seams: &'a BentLine<N>,
}

impl<N: Number> Bowed<N> for Smooth<'_, N> {
    #[cfg_attr(wide, inline(always))]
    fn at(&self, i: usize) -> [N; 3] {
        [self.march.x_mm[i], self.seams.offset_mm[i], self.seams.slope[i]]
    }
}

/// The same with a rise added to it, mm.
struct Raised<'a, N> {
    smooth: Smooth<'a, N>,
    rise_mm: N,
    length_mm: N,
}

impl<N: Number> Bowed<N> for Raised<'_, N> {
    #[cfg_attr(wide, inline(always))]
    fn at(&self, i: usize) -> [N; 3] {
        raised(self.smooth.at(i), self.rise_mm, self.length_mm)
    }
}

/// The same without their uncertainty, by their tops where nothing but a rise is added to what the seams do; put into `bows`.
pub(crate) fn bows_alone<N: Number>(
    march: &Walk<N>,
    beside: &Beside<'_>,
    tops: &[(N, N); 2],
    along: bool,
    bows: [&mut Bow; 2],
) {
    let smooth = beside.cross.is_empty();
    for (which, bow) in bows.into_iter().enumerate() {
        let line = Line::of(march, beside, which);
        let top = if smooth && beside.brought.bow(which).is_none() {
            let (size, at) = tops[which];
            (size.nth(beside.k), at.nth(beside.k))
        } else {
            line.top()
        };
        bow.begin(top, which);
        if along {
            bow.runs_as(line.shape());
        }
    }
}

fn bow(march: &Walk, line: &Line<'_, f64>, unsure: &Unsure, along: bool) -> Bow {
    let (which, cross, top) = (line.which, line.beside.cross, line.top());
    let spread = |k: usize| {
        let x = march.x_mm[k];
        let of_seams = unsure.of_bow(march.bends_at(k, which), x, which);
        if cross.is_empty() { of_seams } else { Spread { across_mm: cross.bow_2s(which, x), ..of_seams } }
    };
    let mut bow = Bow::default();
    bow.begin(top, which);
    bow.profile_2s_mm = (0..march.x_mm.len()).map(|k| spread(k).all_mm()).collect();
    if is_straight(top.0) {
        // its largest offset is rounding noise: it may bow where it is least sure
        bow.at_mm = least_sure(&march.x_mm, &bow.profile_2s_mm);
    }
    if along {
        bow.runs_as(line.shape());
    }
    // the ± reaches as far as the member may bow anywhere: what is largest on the mean need not be where it is least sure
    let kinked = |x: f64| cross.bow(which, x).0;
    let offset_mm = |k: usize| line.at(k)[1] + if cross.is_empty() { 0.0 } else { kinked(march.x_mm[k]) };
    let reach: Vec<f64> =
        bow.profile_2s_mm.iter().enumerate().map(|(k, two_s)| offset_mm(k).abs() + two_s).collect();
    let there = arch_at(&march.x_mm, |k| bow.profile_2s_mm[k], bow.at_mm);
    bow.max_2s_mm = there.max(arch_top(&march.x_mm, &reach) - top.0.abs());
    let farthest =
        reach.iter().enumerate().fold(0, |most, (k, may)| if *may > reach[most] { k } else { most });
    bow.max_2s_of = spread(farthest).divided().scaled_to(bow.max_2s_mm);
    if let Some(bends) = line.beside.brought.bow(which) {
        bow.by_plates_mm = between(&march.x_mm, |k| bends[k].offset_mm, bow.at_mm) + 0.0;
    }
    bow
}

impl Bow {
    /// Begins with a size and its place, mm, of camber (0) or sweep (1): nothing unsure, and not along the member.
    fn begin(&mut self, (max_mm, at_mm): (f64, f64), which: usize) {
        (self.max_mm, self.at_mm) = (max_mm + 0.0, at_mm);
        self.toward = match (is_straight(max_mm), max_mm > 0.0) {
            (true, _) => "straight",
            (false, true) => TOWARD[which][0],
            (false, false) => TOWARD[which][1],
        };
        (self.by_plates_mm, self.max_2s_mm, self.max_2s_of) = Default::default();
        self.profile.clear();
        self.profile_2s_mm.clear();
        self.shape.clear();
    }

    /// Runs along the member.
    fn runs_as(&mut self, shape: BowShape) {
        self.profile = shape.x_mm.iter().map(|x| [*x, shape.offset_at_mm(*x) + 0.0]).collect();
        self.shape = shape;
    }
}

/// A bow of one job of a walk, with all that is added to it.
struct Line<'a, N> {
    x_mm: &'a [N],
    seams: &'a BentLine<N>,
    beside: &'a Beside<'a>,
    which: usize,
    length_mm: f64,
}

impl<'a, N: Number> Line<'a, N> {
    fn of(march: &'a Walk<N>, beside: &'a Beside<'a>, which: usize) -> Self {
        let seams = [&march.camber_all, &march.sweep_all][which];
        let length_mm = march.x_mm.last().map_or(0.0, |x| x.nth(beside.k));
        Self { x_mm: &march.x_mm, seams, beside, which, length_mm }
    }

    /// Size and place of the largest offset.
    fn top(&self) -> (f64, f64) {
        if self.beside.cross.is_empty() {
            return largest_of(self.x_mm.len(), self);
        }
        self.shape().largest()
    }

    /// How it runs along the member.
    fn shape(&self) -> BowShape {
        let kinks = self.beside.cross.kinks(self.which).filter(|kink| kink.1.abs() > 0.0).collect();
        let mut shape = BowShape { kinks, ..BowShape::default() };
        for [x, offset, slope] in (0..self.x_mm.len()).map(|i| self.at(i)) {
            shape.x_mm.push(x);
            shape.offset_mm.push(offset);
            shape.slope.push(slope);
        }
        shape
    }
}

/// Without the kinks of welds across.
impl<N: Number> Bowed<f64> for Line<'_, N> {
    fn at(&self, i: usize) -> [f64; 3] {
        let Beside { k, brought, rise_mm, .. } = *self.beside;
        let mut point = [self.x_mm[i], self.seams.offset_mm[i], self.seams.slope[i]].map(|v| v.nth(k));
        let rise_mm = rise_mm[self.which];
        if rise_mm.abs() > 0.0 {
            point = raised(point, rise_mm, self.length_mm);
        }
        let [x, mut offset, mut slope] = point;
        if let Some(bends) = brought.bow(self.which) {
            offset += bends[i].offset_mm;
            slope += bends[i].slope;
        }
        [x, offset, slope]
    }
}

/// Whether a bow of that size is rounding noise.
fn is_straight(max_mm: f64) -> bool {
    max_mm.abs() < STRAIGHT_MM
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
    let centroid_2s_of = Spread { across_mm: cross.two_s_mm(cross.shortening_mm), ..of_seams }.divided();
    let alone = shortening_alone(job, (march, 0), cross, unsure.cut_mm);
    Shortening { centroid_2s_mm: centroid_2s_of.all_mm, centroid_2s_of, ..alone }
}

/// The same without its uncertainty, of one job of a walk, with what cutting adds, mm.
pub(crate) fn shortening_alone<N: Number>(
    job: &Job,
    (march, k): (&Walk<N>, usize),
    cross: &CrossWelds,
    cut_mm: f64,
) -> Shortening {
    let seams = march.lines.last().map_or([0.0; 4], |lines| lines.map(|line| line.nth(k)));
    let across = |line: usize| seams[line] + cross.line_mm(line, 0.0, job.member.length_mm);
    let [outer_edge_mm, inner_edge_mm, outer_flange_mm, inner_flange_mm] =
        if cross.is_empty() { seams } else { [0, 1, 2, 3].map(across) };
    Shortening {
        centroid_mm: march.shortening_all.nth(k) + cut_mm + cross.shortening_mm,
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
    job.passes
        .iter()
        .enumerate()
        .map(|(index, pass)| {
            let before = |x: f64| march.middle_mm.partition_point(|middle| *middle < x);
            let along = before(pass.from_mm)..before(pass.to_mm);
            let middle = march.substep_near(0.5 * (pass.from_mm + pass.to_mm));
            let pulls = march.pulls(index);
            let profile = |value: &dyn Fn(&[f64; 4]) -> f64| -> Vec<[f64; 2]> {
                let Some(start) = pulls.get(along.start).map(value).filter(|_| along_member) else {
                    return Vec::new();
                };
                let inside = || march.middle_mm.iter().zip(pulls).skip(along.start).take(along.len());
                let values = || inside().map(|(x, pulls)| [*x, value(pulls)]);
                let (least, most) = range(start, values().map(|[_, v]| v));
                if most - least <= CONSTANT * most.abs().max(least.abs()) {
                    return Vec::new();
                }
                values().collect()
            };
            let [force_n, lone_force_n, arm_z_mm, arm_y_mm] = pulls.get(middle).copied().unwrap_or_default();
            let parts = job.orders.iter().find(|o| o.number == pass.order).map_or(Parts::ALL, |o| o.joined);
            PassResult {
                seam: pass.seam,
                side: pass.side,
                order: pass.order,
                wps: pass.wps.as_deref().map(str::to_owned),
                from_mm: pass.from_mm,
                to_mm: pass.to_mm,
                leg_mm: pass.leg_mm,
                stitch: pass.stitch,
                heat_input_j_per_mm: pass.heat_j_per_mm,
                heat_source: pass.heat_source,
                force_n,
                lone_force_n,
                arm_y_mm,
                arm_z_mm: on_member(arm_z_mm),
                parts,
                force_profile: profile(&|pulls| pulls[0]),
                arm_z_profile: profile(&|pulls| on_member(pulls[2])),
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
            for ((camber, sweep), bends) in camber.iter_mut().zip(&mut sweep).zip(march.bends(index)) {
                *camber += bends[0];
                *sweep += bends[1];
            }
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
        let welded = Beside { k: 0, cross, brought: &Brought::STRAIGHT, rise_mm: [0.0; 2] };
        let [camber, sweep] = [0, 1].map(|which| Line::of(march, &welded, which).shape());
        let along = |shape: &BowShape| march.x_mm.iter().map(|x| shape.offset_at_mm(*x)).collect();
        steps.push(WeldingStep {
            pass: last.pass + 1,
            order: last.order + 1,
            seam: None,
            side: None,
            shortening_mm: shortening_mm + cross.shortening_mm,
            camber_mm: camber.largest().0,
            sweep_mm: sweep.largest().0,
            camber_profile_mm: along(&camber),
            sweep_profile_mm: along(&sweep),
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
