//! The walk along the member: at every Gauss point lay the passes in their order on the section joined by then, and
//! integrate what each adds.

use super::Job;
use super::effects::{Effect, Effects};
use super::plan::WalkPlan;
use super::point::{Here, Panel, Place, Pulls, lay_all};
use crate::bow::{Bend, Plane, substeps};
use crate::numerics::{GAUSS_2, Number, refill};

/// What the walk brings back, of one job or of several side by side.
#[derive(Debug, Default)]
pub(super) struct Walk<N = f64> {
    /// Stations, mm.
    pub x_mm: Vec<N>,
    /// For each pass and station camber and sweep from the chord, mm, and the same by 1 N and by 1 N·mm along the whole pass.
    bends: Vec<[N; 4]>,
    /// For each pass and substep force added along the seam and lone force, N, sideways moment over force and distance from the seam into
    /// the web at which the force acts, mm.
    pulls: Vec<[N; 4]>,
    /// Of all passes together: offset, mm, and slope.
    pub(crate) camber_all: BentLine<N>,
    /// Of all passes together.
    pub(crate) sweep_all: BentLine<N>,
    /// Shortening of the centroid line of the finished member by each pass, mm, and by 1 N along it.
    pub shortening: Vec<(N, N)>,
    /// Of all passes together, mm.
    pub(crate) shortening_all: N,
    /// Middles of the substeps, mm.
    pub middle_mm: Vec<N>,
    /// Shortening so far, mm, at stations, of outer and inner web edge along x since the first order, and of outer and inner
    /// flange along their own axes since each joined.
    pub lines: Vec<[N; 4]>,
    /// The web in substeps.
    pub web: Vec<WebPart<N>>,
    /// Sideways moments of all passes at outer and inner seam, N·mm, + near, in substeps.
    pub(crate) near_n_mm: Vec<[N; 2]>,
    /// Largest mean temperature rise of the section, K.
    pub(crate) warmest_k: N,
    /// Largest mean temperature rise of the parts there when a flange joined them, K.
    pub(crate) joined_k: N,
    /// 1 where yield held a force down somewhere, else 0.
    pub(crate) capped: N,
}

/// A bow at stations: offsets from the chord, mm, and slopes.
#[derive(Debug, Clone, Default)]
pub(crate) struct BentLine<N> {
    /// Offsets, mm.
    pub(crate) offset_mm: Vec<N>,
    /// Slopes.
    pub(crate) slope: Vec<N>,
}

/// Camber and sweep of one pass, and by 1 N and 1 N·mm along it, while integrating.
#[derive(Debug, Clone, Copy, Default)]
struct Curves<N>([Bend<N>; 4]);

/// The web in one substep.
#[derive(Debug, Clone, Copy)]
pub(super) struct WebPart<N = f64> {
    /// Its middle, mm.
    pub x_mm: N,
    /// Its span in the plan.
    pub span: usize,
    /// Clear depth there, mm.
    pub depth_mm: N,
    /// Mean strain of the section while the web is flat.
    pub flat: Plane<N>,
}

/// How much a walk keeps.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Keep {
    /// What all passes do together.
    Sums,
    /// How they press the web and turn the member too.
    Judged,
    /// What all passes do together, and the bows of each.
    Bows,
    /// All that each pass does, and the web.
    Passes,
}

impl Keep {
    const fn web(self) -> bool {
        matches!(self, Self::Judged | Self::Passes)
    }
}

/// Most substeps of a panel, over which forces go as a cubic: a span of the usual walk is one panel, and with more substeps the error falls on.
const PANEL: usize = 8;

/// Walks the plan with substeps of at most L/`substeps_wanted`; passes pull as `pulls` says, and what they do at a point is kept in an `E`. `job` is
/// the planned one; of several side by side the first. `out` is used again. Compiled where it is called, for the registers there.
#[cfg_attr(wide, inline(always))]
pub(crate) fn walk_on<N: Number, E: Effects<N>, P: Pulls<N>>(
    job: &Job,
    plan: &WalkPlan<N>,
    substeps_wanted: f64,
    keep: Keep,
    pulls: &mut P,
    out: &mut Walk<N>,
) {
    let passes = job.passes.len();
    let steps = substeps(&plan.spans, plan.length_mm / substeps_wanted);
    let stations = steps.len() + 1;
    out.begin(passes, steps.len(), keep);
    let mut curves = vec![Curves::default(); if keep < Keep::Bows { 0 } else { passes }];
    let mut points = [E::none(passes), E::none(passes)];
    let mut here = [Here::default(); 2];
    let (mut camber, mut sweep) = (Bend::default(), Bend::default());
    let (mut walked, mut cos) = (usize::MAX, N::default());
    let mut panel = 0..0;
    for (column, (from, to, index)) in steps.iter().copied().enumerate() {
        let (span, step) = (&plan.spans[index], to - from);
        let even = P::ALIKE_ALONG && span.slope == N::default();
        let begins = walked != index;
        if begins {
            (walked, cos) = (index, span.cosine());
        }
        // where plates and depth stay, each point is like the first of them
        if begins || !even {
            if begins || column == panel.end {
                let many = steps[column..].iter().take(PANEL).take_while(|step| step.2 == index).count();
                panel = column..column + many;
                let (ends_mm, substeps) = ([from, steps[panel.end - 1].1], if even { 0 } else { many });
                pulls.enter(&Panel { job, plan, index, cos, ends_mm, substeps });
            }
            let places = if even { &GAUSS_2[..1] } else { &GAUSS_2[..] };
            for (point, (place, _)) in places.iter().enumerate() {
                let at = ((column - panel.start) as f64 + place) / panel.len() as f64;
                let place = Place::of(job, plan, index, from + step * *place, cos);
                here[point] = lay_all(pulls, (&place, at), &mut points[point]);
            }
            if even {
                let [first, second] = &mut points;
                here[1] = here[0];
                second.copy(first);
            }
        }
        out.note(plan, (from, to, index), &here, keep);
        if keep == Keep::Judged {
            let [a, b] = [&points[0], &points[1]].map(|point| point.near_n_mm());
            out.near_n_mm.push([(a[0] + b[0]) * 0.5, (a[1] + b[1]) * 0.5]);
        }
        let [a, b] = &here;
        camber.step(step, [-a.left.in_plane, -b.left.in_plane]);
        sweep.step(step, [-a.left.lateral, -b.left.lateral]);
        out.camber_all.push(camber);
        out.sweep_all.push(sweep);
        let each = points[0].each().iter().zip(points[1].each());
        for ((pass, curve), (a_pass, b_pass)) in curves.iter_mut().enumerate().zip(each) {
            let ends = [a_pass, b_pass];
            curve.step(step, ends);
            out.shorten(pass, step, ends, [a.centroid_mm, b.centroid_mm]);
            if keep == Keep::Passes {
                curve.step_units(step, ends);
                out.pulls[pass * (stations - 1) + column] = pull(ends);
            }
            out.curve(pass, (column, stations), curve);
        }
    }
    out.refer_to_chord(plan.length_mm, keep);
}

/// The same of one job.
pub(crate) fn walk(
    job: &Job,
    plan: &WalkPlan,
    substeps_wanted: f64,
    keep: Keep,
    pulls: &mut impl Pulls<f64>,
) -> Walk {
    let mut out = Walk::default();
    walk_on::<_, Vec<_>, _>(job, plan, substeps_wanted, keep, pulls, &mut out);
    out
}

impl<N: Number> Curves<N> {
    fn step(&mut self, step_mm: N, [a, b]: [&Effect<N>; 2]) {
        let [camber, sweep, ..] = &mut self.0;
        camber.step(step_mm, [-a.real.in_plane, -b.real.in_plane]);
        sweep.step(step_mm, [-a.real.lateral, -b.real.lateral]);
    }

    fn step_units(&mut self, step_mm: N, [a, b]: [&Effect<N>; 2]) {
        let [.., unit_camber, unit_sweep] = &mut self.0;
        unit_camber.step(step_mm, [-a.unit.in_plane, -b.unit.in_plane]);
        unit_sweep.step(step_mm, [-a.unit.lateral, -b.unit.lateral]);
    }
}

impl<N: Number> BentLine<N> {
    /// At the start, where both are 0.
    fn begin(&mut self, stations: usize) {
        begin(&mut self.offset_mm, N::default(), stations);
        begin(&mut self.slope, N::default(), stations);
    }

    #[cfg_attr(wide, inline(always))]
    fn push(&mut self, bend: Bend<N>) {
        self.offset_mm.push(bend.offset_mm);
        self.slope.push(bend.slope);
    }

    #[cfg_attr(wide, inline(always))]
    fn refer_to_chord(&mut self, x_mm: &[N], length_mm: N) {
        let tilt = self.offset_mm.last().copied().unwrap_or_default() / length_mm;
        for ((offset, slope), x) in self.offset_mm.iter_mut().zip(&mut self.slope).zip(x_mm) {
            *offset -= tilt * *x;
            *slope -= tilt;
        }
    }
}

/// How one pass pulls in a substep: force, lone force, arms sideways and into the web.
fn pull<N: Number>([a, b]: [&Effect<N>; 2]) -> [N; 4] {
    let pull = a.pull.plus(b.pull).times(0.5);
    let size = pull.force_n.abs();
    let arm = |moment: N| size.above(N::default(), moment / pull.force_n, N::default());
    [pull.force_n, (a.lone_n + b.lone_n) * 0.5, arm(pull.near_n_mm), arm(pull.up_n_mm)]
}

/// A list with its first value, and room for more.
fn begin<T>(all: &mut Vec<T>, value: T, room: usize) {
    all.clear();
    all.reserve(room);
    all.push(value);
}

impl<N: Number> Walk<N> {
    /// Takes down what all passes together do in a substep.
    #[cfg_attr(wide, inline(always))]
    fn note(
        &mut self,
        plan: &WalkPlan<N>,
        (from, to, index): (N, N, usize),
        here: &[Here<N>; 2],
        keep: Keep,
    ) {
        let (span, step) = (&plan.spans[index], to - from);
        let mut lines = self.lines.last().copied().unwrap_or_default();
        let half = step * 0.5;
        for here in here {
            self.warmest_k = self.warmest_k.max(here.warmest_k);
            self.joined_k = self.joined_k.max(here.joined_k);
            self.capped = self.capped.max(here.capped);
            self.shortening_all -= half * here.left.at(here.centroid_mm);
            for (line, strain) in lines.iter_mut().zip(here.lines) {
                *line -= half * strain;
            }
        }
        self.x_mm.push(to);
        self.lines.push(lines);
        if keep.web() {
            let middle = (from + to) * 0.5;
            let (a, b) = (&here[0].flat, &here[1].flat);
            let at_edge = (a.at_edge + b.at_edge) * 0.5;
            let in_plane = (a.in_plane + b.in_plane) * 0.5;
            let flat = Plane { at_edge, in_plane, lateral: N::default() };
            self.middle_mm.push(middle);
            self.web.push(WebPart { x_mm: middle, span: index, depth_mm: span.depth_mm(middle), flat });
        }
    }

    /// Takes down by how much one pass shortens a substep.
    fn shorten(&mut self, pass: usize, step: N, [a, b]: [&Effect<N>; 2], centroid_mm: [N; 2]) {
        let total = &mut self.shortening[pass];
        total.0 -= step * (a.real.at(centroid_mm[0]) + b.real.at(centroid_mm[1])) * 0.5;
        total.1 -= step * (a.unit.at(centroid_mm[0]) + b.unit.at(centroid_mm[1])) * 0.5;
    }

    /// Takes down the bows of one pass, as far as they are kept.
    fn curve(&mut self, pass: usize, (column, stations): (usize, usize), curve: &Curves<N>) {
        self.bends[pass * stations + column + 1] = curve.0.map(|bend| bend.offset_mm);
    }

    /// Begins anew. What passes do each is kept in new arrays, so that nothing of another walk is left.
    fn begin(&mut self, passes: usize, steps: usize, keep: Keep) {
        if keep >= Keep::Bows || !self.shortening.is_empty() {
            *self = Self::of_passes(passes, steps, keep);
        }
        let stations = steps + 1;
        begin(&mut self.x_mm, N::default(), stations);
        begin(&mut self.lines, [N::default(); 4], stations);
        self.middle_mm.clear();
        self.web.clear();
        self.near_n_mm.clear();
        self.camber_all.begin(stations);
        self.sweep_all.begin(stations);
        (self.shortening_all, self.warmest_k, self.joined_k, self.capped) = Default::default();
    }

    fn of_passes(passes: usize, steps: usize, keep: Keep) -> Self {
        let rows = |from: Keep| if keep >= from { passes } else { 0 };
        let inside = if keep == Keep::Passes { steps } else { 0 };
        Self {
            bends: vec![[N::default(); 4]; rows(Keep::Bows) * (steps + 1)],
            pulls: vec![[N::default(); 4]; rows(Keep::Passes) * steps],
            shortening: vec![(N::default(), N::default()); rows(Keep::Bows)],
            middle_mm: Vec::with_capacity(inside),
            web: Vec::with_capacity(inside),
            ..Self::default()
        }
    }

    /// Camber and sweep of a pass at stations, mm, and by 1 N and 1 N·mm.
    pub(super) fn bends(&self, pass: usize) -> &[[N; 4]] {
        let stations = self.x_mm.len();
        self.bends.get(pass * stations..(pass + 1) * stations).unwrap_or_default()
    }

    /// Camber (0) or sweep (1) of each pass at one station, mm.
    pub(super) fn bends_at(&self, station: usize, which: usize) -> impl Iterator<Item = N> + Clone {
        let stations = self.x_mm.len();
        self.bends.chunks_exact(stations).map(move |bends| bends[station][which])
    }

    /// Force, lone force, N, sideways arm and arm into the web, mm, of a pass in substeps.
    pub(super) fn pulls(&self, pass: usize) -> &[[N; 4]] {
        let steps = self.middle_mm.len();
        self.pulls.get(pass * steps..(pass + 1) * steps).unwrap_or_default()
    }

    #[cfg_attr(wide, inline(always))]
    fn refer_to_chord(&mut self, length_mm: N, keep: Keep) {
        self.camber_all.refer_to_chord(&self.x_mm, length_mm);
        self.sweep_all.refer_to_chord(&self.x_mm, length_mm);
        if keep < Keep::Bows {
            return;
        }
        for bends in self.bends.chunks_exact_mut(self.x_mm.len()) {
            let tilts = bends.last().map_or([N::default(); 4], |last| last.map(|end| end / length_mm));
            for (offsets, x) in bends.iter_mut().zip(&self.x_mm) {
                for (offset, tilt) in offsets.iter_mut().zip(tilts) {
                    *offset -= tilt * *x;
                }
            }
        }
    }

    /// Puts that of one case into `out`, which may hold another one.
    pub(super) fn put_nth(&self, index: usize, out: &mut Walk) {
        let of = |all: &[N], out: &mut Vec<f64>| refill(out, all.iter().map(|value| value.nth(index)));
        let each = |all: &[[N; 4]], out: &mut Vec<[f64; 4]>| {
            refill(out, all.iter().map(|row| [0, 1, 2, 3].map(|k: usize| row[k].nth(index))));
        };
        of(&self.x_mm, &mut out.x_mm);
        each(&self.bends, &mut out.bends);
        each(&self.pulls, &mut out.pulls);
        for (all, out) in [(&self.camber_all, &mut out.camber_all), (&self.sweep_all, &mut out.sweep_all)] {
            of(&all.offset_mm, &mut out.offset_mm);
            of(&all.slope, &mut out.slope);
        }
        refill(&mut out.shortening, self.shortening.iter().map(|(a, b)| (a.nth(index), b.nth(index))));
        out.shortening_all = self.shortening_all.nth(index);
        of(&self.middle_mm, &mut out.middle_mm);
        each(&self.lines, &mut out.lines);
        refill(&mut out.web, self.web.iter().map(|part| part.nth(index)));
        out.near_n_mm.clear();
        (out.warmest_k, out.joined_k) = (self.warmest_k.nth(index), self.joined_k.nth(index));
        out.capped = self.capped.nth(index);
    }
}

impl<N: Number> WebPart<N> {
    /// That of one case.
    fn nth(&self, index: usize) -> WebPart {
        WebPart {
            x_mm: self.x_mm.nth(index),
            span: self.span,
            depth_mm: self.depth_mm.nth(index),
            flat: self.flat.nth(index),
        }
    }
}

impl Walk {
    /// Index of the substep whose middle lies nearest to x (mm).
    pub(crate) fn substep_near(&self, x_mm: f64) -> usize {
        let nearer = |a: &(usize, &f64), b: &(usize, &f64)| (a.1 - x_mm).abs().total_cmp(&(b.1 - x_mm).abs());
        self.middle_mm.iter().enumerate().min_by(nearer).map_or(0, |(i, _)| i)
    }
}
