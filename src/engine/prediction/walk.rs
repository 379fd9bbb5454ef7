//! The walk along the member: at every Gauss point lay the passes in their order on the section joined by then, and
//! integrate what each adds.

use super::Job;
use super::plan::Plan;
use super::point::{Effect, Here, Place, Pulls, lay_all};
use crate::bow::{Bend, Plane, substeps};
use crate::numerics::GAUSS_2;
use ndarray::Array2;

/// Substeps along a member without breaks: eighths of the length, where a shop also takes its ordinates. The offset error
/// falls with the fourth power of their number; on a 3:1 taper eight leave less than 5e-5 of the bow.
pub const SUBSTEPS: f64 = 8.0;

/// What the walk brings back. Rows are passes in the job's order; columns are stations, or substeps where said.
#[derive(Debug)]
pub struct Walk {
    /// Stations, mm.
    pub x_mm: Vec<f64>,
    /// Camber of each pass from the chord, mm, at stations.
    pub camber: Array2<f64>,
    /// Slope of all passes together.
    pub camber_slope: Vec<f64>,
    /// Sweep of each pass from the chord, mm.
    pub sweep: Array2<f64>,
    /// Slope of all passes together.
    pub sweep_slope: Vec<f64>,
    /// Camber by 1 N along the whole pass, mm.
    pub unit_camber: Array2<f64>,
    /// Sweep by 1 N·mm along the whole pass, mm.
    pub unit_sweep: Array2<f64>,
    /// Shortening of the centroid line of the finished member by each pass, mm, and by 1 N along it.
    pub shortening: Vec<(f64, f64)>,
    /// Force added along the seam, N, in substeps.
    pub force: Array2<f64>,
    /// Lone force, N, in substeps.
    pub lone: Array2<f64>,
    /// Sideways moment over force, mm, in substeps.
    pub arm_z: Array2<f64>,
    /// Distance from the seam into the web at which the force acts, mm, in substeps.
    pub arm_y: Array2<f64>,
    /// Middles of the substeps, mm.
    pub middle_mm: Vec<f64>,
    /// Shortening so far, mm, at stations, of outer and inner web edge along x since the first order, and of outer and inner
    /// flange along their own axes since each joined.
    pub lines: Vec<[f64; 4]>,
    /// The web in substeps.
    pub web: Vec<WebPart>,
    /// Largest mean temperature rise of the section, K.
    pub warmest_k: f64,
    /// Whether yield held a force down somewhere.
    pub capped: bool,
}

/// Camber and sweep of one pass, and by 1 N and 1 N·mm along it, while integrating.
#[derive(Debug, Clone, Copy, Default)]
struct Curves([Bend; 4]);

/// The web in one substep.
#[derive(Debug, Clone, Copy)]
pub struct WebPart {
    /// Its middle, mm.
    pub x_mm: f64,
    /// Its span in the plan.
    pub span: usize,
    /// Clear depth there, mm.
    pub depth_mm: f64,
    /// Mean strain of the section while the web is flat.
    pub flat: Plane,
}

/// Walks the plan with substeps of at most L/`substeps_wanted`; passes pull as `pulls` says.
pub fn walk(job: &Job, plan: &Plan, substeps_wanted: f64, pulls: &mut impl Pulls) -> Walk {
    let passes = job.passes.len();
    let steps: Vec<(f64, f64, usize)> =
        substeps(&plan.spans, job.member.length_mm / substeps_wanted).collect();
    let mut out = Walk::empty(passes, steps.len());
    let mut curves = vec![Curves::default(); passes];
    let mut points = [vec![Effect::default(); passes], vec![Effect::default(); passes]];
    for (column, (from, to, index)) in steps.into_iter().enumerate() {
        let step = to - from;
        let here = [0, 1].map(|k: usize| {
            let place = Place::of(job, plan, index, from + GAUSS_2[k].0 * step);
            lay_all(pulls, &place, &mut points[k])
        });
        out.note(plan, (from, to, index), here);
        let (mut camber_slope, mut sweep_slope) = (0.0, 0.0);
        for (pass, curve) in curves.iter_mut().enumerate() {
            let ends = [&points[0][pass], &points[1][pass]];
            curve.step(step, ends);
            out.pass(pass, column, step, ends, [here[0].centroid_mm, here[1].centroid_mm]);
            let stations = [&mut out.camber, &mut out.sweep, &mut out.unit_camber, &mut out.unit_sweep];
            for (station, bend) in stations.into_iter().zip(&curve.0) {
                station[[pass, column + 1]] = bend.offset_mm;
            }
            camber_slope += curve.0[0].slope;
            sweep_slope += curve.0[1].slope;
        }
        out.camber_slope.push(camber_slope);
        out.sweep_slope.push(sweep_slope);
    }
    out.refer_to_chord(job.member.length_mm);
    out
}

impl Curves {
    fn step(&mut self, step_mm: f64, [a, b]: [&Effect; 2]) {
        let [camber, sweep, unit_camber, unit_sweep] = &mut self.0;
        camber.step(step_mm, [-a.real.in_plane, -b.real.in_plane]);
        sweep.step(step_mm, [-a.real.lateral, -b.real.lateral]);
        unit_camber.step(step_mm, [-a.unit.in_plane, -b.unit.in_plane]);
        unit_sweep.step(step_mm, [-a.unit.lateral, -b.unit.lateral]);
    }
}

impl Walk {
    /// Takes down what all passes together do in a substep.
    fn note(&mut self, plan: &Plan, (from, to, index): (f64, f64, usize), here: [Here; 2]) {
        let (span, middle, step) = (&plan.spans[index], 0.5 * (from + to), to - from);
        let mut lines = self.lines.last().copied().unwrap_or_default();
        for here in &here {
            self.warmest_k = self.warmest_k.max(here.warmest_k);
            self.capped |= here.capped;
            for (line, strain) in lines.iter_mut().zip(here.lines) {
                *line -= 0.5 * step * strain;
            }
        }
        let [a, b] = here.map(|h| h.flat);
        let mean = |of: fn(&Plane) -> f64| 0.5 * (of(&a) + of(&b));
        self.x_mm.push(to);
        self.middle_mm.push(middle);
        self.lines.push(lines);
        self.web.push(WebPart {
            x_mm: middle,
            span: index,
            depth_mm: span.depth_mm(middle),
            flat: Plane { at_edge: mean(|p| p.at_edge), in_plane: mean(|p| p.in_plane), lateral: 0.0 },
        });
    }

    /// Takes down what one pass does in a substep.
    fn pass(&mut self, pass: usize, column: usize, step: f64, [a, b]: [&Effect; 2], centroid_mm: [f64; 2]) {
        let total = &mut self.shortening[pass];
        total.0 -= 0.5 * step * (a.real.at(centroid_mm[0]) + b.real.at(centroid_mm[1]));
        total.1 -= 0.5 * step * (a.unit.at(centroid_mm[0]) + b.unit.at(centroid_mm[1]));
        let pull = a.pull.plus(b.pull).times(0.5);
        self.force[[pass, column]] = pull.force_n;
        self.lone[[pass, column]] = 0.5 * (a.lone_n + b.lone_n);
        let arm = |moment: f64| if pull.force_n.abs() > 0.0 { moment / pull.force_n } else { 0.0 };
        self.arm_z[[pass, column]] = arm(pull.near_n_mm);
        self.arm_y[[pass, column]] = arm(pull.up_n_mm);
    }

    fn empty(passes: usize, steps: usize) -> Self {
        fn first<T: Clone>(value: T) -> Vec<T> {
            let mut all = Vec::with_capacity(16);
            all.push(value);
            all
        }
        let stations = || Array2::zeros((passes, steps + 1));
        let middles = || Array2::zeros((passes, steps));
        Self {
            x_mm: first(0.0),
            camber: stations(),
            camber_slope: first(0.0),
            sweep: stations(),
            sweep_slope: first(0.0),
            unit_camber: stations(),
            unit_sweep: stations(),
            shortening: vec![(0.0, 0.0); passes],
            force: middles(),
            lone: middles(),
            arm_z: middles(),
            arm_y: middles(),
            middle_mm: Vec::with_capacity(steps),
            lines: first([0.0; 4]),
            web: Vec::with_capacity(steps),
            warmest_k: 0.0,
            capped: false,
        }
    }

    fn refer_to_chord(&mut self, length_mm: f64) {
        for (offsets, slopes) in [
            (&mut self.camber, Some(&mut self.camber_slope)),
            (&mut self.sweep, Some(&mut self.sweep_slope)),
            (&mut self.unit_camber, None),
            (&mut self.unit_sweep, None),
        ] {
            let Some(&last) = offsets.shape().get(1) else { continue };
            let tilts: Vec<f64> = offsets.column(last - 1).iter().map(|end| end / length_mm).collect();
            for (mut row, tilt) in offsets.rows_mut().into_iter().zip(&tilts) {
                row.iter_mut().zip(&self.x_mm).for_each(|(offset, x)| *offset -= tilt * x);
            }
            if let Some(slopes) = slopes {
                let all: f64 = tilts.iter().sum();
                slopes.iter_mut().for_each(|slope| *slope -= all);
            }
        }
    }

    /// Index of the substep whose middle lies nearest to x (mm).
    pub fn substep_near(&self, x_mm: f64) -> usize {
        let nearer = |a: &(usize, &f64), b: &(usize, &f64)| (a.1 - x_mm).abs().total_cmp(&(b.1 - x_mm).abs());
        self.middle_mm.iter().enumerate().min_by(nearer).map_or(0, |(i, _)| i)
    }
}
