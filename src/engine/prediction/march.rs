//! The walk along the member: at every Gauss point lay the passes in their order on the section joined by then, and
//! integrate what each adds.

use super::plan::{Pair, Plan, Turn};
use super::stations::Stations;
use super::uncertainty::Bias;
use super::{Job, lay_strip};
use crate::bow::{Bend, Strain, ripple, strain, substeps};
use crate::member::{Parts, Seam, Section, Span, properties};
use crate::numerics::GAUSS_2;
use crate::shrinkage::joint::{Added, Joint, Laid, seam_index};
use crate::shrinkage::{prior, tendon};
use crate::welding::Side;
use ndarray::Array2;

/// Substeps along a member without breaks: eighths of the length, where a shop also takes its ordinates. The offset error
/// falls with the fourth power of their number; on a 3:1 taper eight leave less than 5e-5 of the bow.
pub const SUBSTEPS: f64 = 8.0;

/// What the walk brings back. Rows are passes in the job's order; columns are stations, or substeps where said.
#[derive(Debug)]
pub struct March {
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
    /// Shortening of the centroid line by each pass, mm, and by 1 N along it.
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
    /// Shortening so far of the outer web edge, the inner web edge along x, and the inner flange along its own axis, mm,
    /// at stations.
    pub edges: Vec<[f64; 3]>,
    /// Mean web compression in substeps: (x, MPa, web thickness, depth).
    pub web: Vec<(f64, f64, f64, f64)>,
    /// Largest mean temperature rise of the section, K.
    pub warmest_k: f64,
    /// Whether yield held a force down somewhere.
    pub capped: bool,
    /// How unsure forces and arms are.
    pub bias: Bias,
}

/// Strains of one pass at one Gauss point.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Effect {
    pub real: Strain,
    pub unit: Strain,
    pub force_n: f64,
    pub lone_n: f64,
    pub up_n_mm: f64,
    pub moment_n_mm: f64,
}

/// The four curves of one pass while integrating.
#[derive(Debug, Clone, Copy, Default)]
struct Curves {
    camber: Bend,
    sweep: Bend,
    unit_camber: Bend,
    unit_sweep: Bend,
}

/// Walks the plan with substeps of at most L/`substeps_wanted`; forces are those of the stations, if there are any.
pub fn march(job: &Job, plan: &Plan, substeps_wanted: f64, stations: Option<&Stations>) -> March {
    let passes = job.passes.len();
    let steps: Vec<(f64, f64, usize)> =
        substeps(&plan.spans, job.member.length_mm / substeps_wanted).collect();
    let mut out = March::empty(passes, steps.len());
    out.bias = if stations.is_some() { Bias::STRIP } else { Bias::FORMULA };
    let mut curves = vec![Curves::default(); passes];
    let mut points = [vec![Effect::default(); passes], vec![Effect::default(); passes]];

    out.x_mm.push(0.0);
    out.camber_slope.push(0.0);
    out.sweep_slope.push(0.0);
    out.edges.push([0.0; 3]);
    for (column, (from, to, index)) in steps.into_iter().enumerate() {
        let (span, turns, step) = (&plan.spans[index], plan.turns(index), to - from);
        let middle = 0.5 * (from + to);
        let mut edges = *out.edges.last().unwrap_or(&[0.0; 3]);
        let mut compression = 0.0;
        for (point, (place, weight)) in points.iter_mut().zip(GAUSS_2) {
            let x = from + place * step;
            let here = match stations {
                None => lay_all(job, turns, span, x, point),
                Some(stations) => lay_strip::lay(job, stations, (index, span), turns, x, point),
            };
            out.warmest_k = out.warmest_k.max(here.warmest_k);
            out.capped |= here.capped;
            compression += weight * here.compression_mpa;
            for (edge, shortens) in edges.iter_mut().zip(here.edges) {
                *edge += weight * step * shortens;
            }
        }
        let (mut camber_slope, mut sweep_slope) = (0.0, 0.0);
        for (pass, curve) in curves.iter_mut().enumerate() {
            let [a, b] = [&points[0][pass], &points[1][pass]];
            curve.camber.step(step, [-a.real.in_plane, -b.real.in_plane]);
            curve.sweep.step(step, [-a.real.lateral, -b.real.lateral]);
            curve.unit_camber.step(step, [-a.unit.in_plane, -b.unit.in_plane]);
            curve.unit_sweep.step(step, [-a.unit.lateral, -b.unit.lateral]);
            let total = &mut out.shortening[pass];
            total.0 -= 0.5 * step * (a.real.axial + b.real.axial);
            total.1 -= 0.5 * step * (a.unit.axial + b.unit.axial);
            let force = 0.5 * (a.force_n + b.force_n);
            let moment = 0.5 * (a.moment_n_mm + b.moment_n_mm);
            out.force[[pass, column]] = force;
            out.lone[[pass, column]] = 0.5 * (a.lone_n + b.lone_n);
            let arm = |moment: f64| if force.abs() > 0.0 { moment / force } else { 0.0 };
            out.arm_z[[pass, column]] = arm(moment);
            out.arm_y[[pass, column]] = arm(0.5 * (a.up_n_mm + b.up_n_mm));
            out.camber[[pass, column + 1]] = curve.camber.offset_mm;
            camber_slope += curve.camber.slope;
            out.sweep[[pass, column + 1]] = curve.sweep.offset_mm;
            sweep_slope += curve.sweep.slope;
            out.unit_camber[[pass, column + 1]] = curve.unit_camber.offset_mm;
            out.unit_sweep[[pass, column + 1]] = curve.unit_sweep.offset_mm;
        }
        out.camber_slope.push(camber_slope);
        out.sweep_slope.push(sweep_slope);
        out.x_mm.push(to);
        out.middle_mm.push(middle);
        out.edges.push(edges);
        out.web.push((middle, compression, span.plates.web_mm, span.depth_mm(middle)));
    }
    out.refer_to_chord(job.member.length_mm);
    out
}

/// What the whole sequence leaves at one point.
pub(super) struct Here {
    pub warmest_k: f64,
    pub capped: bool,
    pub compression_mpa: f64,
    pub edges: [f64; 3],
}

/// The parts joined at a point.
pub(super) struct Joined {
    pub parts: Parts,
    pub section: Section,
    /// Strain by 1 N and 1 N·mm along the outer and the inner seam.
    pub by_one: [Strain; 2],
}

impl Joined {
    #[inline]
    pub fn at(span: &Span, depth_mm: f64, cos: f64, parts: Parts, e_mpa: f64) -> Self {
        let section = properties(&span.plates, depth_mm, span.slope, parts);
        let by_one = [(0.0, 1.0), (depth_mm, cos)].map(|(y, along)| strain(&section, along, y, along, e_mpa));
        Self { parts, section, by_one }
    }

    /// Part of its held force that a pass has in the section as it is: warm from preheat, and free to stretch and bend with the
    /// heat laid at once at both seams; `seam_y_mm` is that of the pair.
    pub fn freed(&self, turn: &Turn, pair: &Pair, seam_y_mm: f64, e_mpa: f64) -> f64 {
        let by = |(other, one): (&Option<Pair>, &Strain)| {
            let heat = other.as_ref().map_or(0.0, |p| p.heat_j_per_mm);
            -e_mpa * heat * one.at(&self.section, seam_y_mm, 0.0)
        };
        let stretch: f64 = turn.pairs.iter().zip(&self.by_one).map(by).sum();
        tendon::warmth_factor(turn.preheat_k) * tendon::free_factor(pair.free_loss_mm3_per_j, stretch)
    }
}

/// Lays every order at x and leaves each pass's effect in `effects`.
fn lay_all(job: &Job, turns: &[Turn], span: &Span, x: f64, effects: &mut [Effect]) -> Here {
    let steel = &job.member.steel;
    let depth = span.depth_mm(x);
    let cos = 1.0 / (1.0 + span.slope * span.slope).sqrt();
    let seam_y = [0.0, depth];
    let spent = if job.thermally_cut_web { prior::cut_edge_force_n(span.plates.web_mm) } else { 0.0 };
    let mut joints = [Joint::with_spent_force(spent); 2];
    // at outer and inner seam, in the web edge and in the flange: a flange that joins late brings no stress
    let mut stress = [[0.0; 2]; 2];
    let mut warmest_k: f64 = 0.0;
    let join = |parts| Joined::at(span, depth, cos, parts, steel.e_mpa);
    let mut joined = join(turns.first().map_or(Parts::ALL, |turn| turn.parts));
    effects.fill(Effect::default());

    for turn in turns {
        if turn.parts != joined.parts {
            let before = std::mem::replace(&mut joined, join(turn.parts));
            if !turn.follows {
                share_out_sweep(effects, before.section.i_y_mm4 / joined.section.i_y_mm4);
            }
        }
        if turn.heat_j_per_mm <= 0.0 {
            continue;
        }
        let rise = tendon::mean_rise_k(turn.heat_j_per_mm, joined.section.area_mm2, turn.preheat_k);
        warmest_k = warmest_k.max(rise);
        let mut pulled = [0.0; 2];
        for pair in turn.pairs.iter().flatten() {
            let seam = seam_index(pair.seam);
            let lone = joined.freed(turn, pair, seam_y[seam], steel.e_mpa)
                * prior::factor(pair.mean_stress(stress[seam]) / steel.yield_mpa);
            let laid = Laid {
                lone_n: pair.held_n.map(|held| held * lone),
                arm_mm: pair.arm_mm,
                deposit_mm2: pair.deposit_mm2,
                meeting: &pair.meeting,
                available_mm2: pair.flange_mm2 + 0.5 * depth * span.plates.web_mm,
                yield_mpa: steel.yield_mpa,
            };
            let added = joints[seam].lay(&laid);
            let one = &joined.by_one[seam];
            share_among_passes(one, pair, &laid, added, effects);
            let other = 1 - seam;
            pulled[other] = steel.e_mpa * added.force_n * one.at(&joined.section, seam_y[other], 0.0);
        }
        for (seam, [web, flange]) in Seam::BOTH.into_iter().zip(&mut stress) {
            *web += pulled[seam_index(seam)];
            if joined.parts.contains(Parts::flange(seam)) {
                *flange += pulled[seam_index(seam)];
            }
        }
    }
    let capped = joints.iter().any(Joint::capped);
    let point =
        Point { web_mm: span.plates.web_mm, section: &joined.section, depth, cos, e_mpa: steel.e_mpa };
    let (compression_mpa, edges) = point.finish(effects);
    Here { warmest_k, capped, compression_mpa, edges }
}

/// A flange clamped straight on a swept member shares the earlier curvature between old and new stiffness.
pub(super) fn share_out_sweep(effects: &mut [Effect], kept: f64) {
    for effect in effects {
        effect.real.lateral *= kept;
        effect.unit.lateral *= kept;
    }
}

/// Shares what a pair of passes adds between its passes in proportion to their lone forces; `one` is the strain by
/// 1 N and 1 N·mm along the seam.
fn share_among_passes(one: &Strain, pair: &Pair, laid: &Laid<'_>, added: Added, effects: &mut [Effect]) {
    let per_n = 1.0 / (laid.lone_n[0] + laid.lone_n[1]);
    let own = [Side::Near.sign(), Side::Far.sign()];
    let own = [0, 1].map(|side| own[side] * laid.lone_n[side] * laid.arm_mm[side]);
    let rest = added.moment_n_mm - own[0] - own[1];
    for side in [0, 1] {
        let Some(pass) = pair.pass[side] else { continue };
        let share = laid.lone_n[side] * per_n;
        let (force, moment) = (added.force_n * share, own[side] + rest * share);
        effects[pass] = Effect {
            real: Strain {
                axial: force * one.axial,
                in_plane: force * one.in_plane,
                lateral: moment * one.lateral,
            },
            unit: *one,
            force_n: force,
            lone_n: laid.lone_n[side],
            up_n_mm: 0.0,
            moment_n_mm: moment,
        };
    }
}

/// The finished section at a point.
pub(super) struct Point<'a> {
    pub web_mm: f64,
    pub section: &'a Section,
    pub depth: f64,
    pub cos: f64,
    pub e_mpa: f64,
}

impl Point<'_> {
    /// Sums the passes, softens a rippled web, and reads off the web's mean compression (MPa) and the shortening of its
    /// edges: outer, inner along x, inner along the flange's own axis.
    pub fn finish(&self, effects: &mut [Effect]) -> (f64, [f64; 3]) {
        let sum = |effects: &[Effect]| {
            effects.iter().fold(Strain::default(), |sum, e| Strain {
                axial: sum.axial + e.real.axial,
                in_plane: sum.in_plane + e.real.in_plane,
                lateral: sum.lateral + e.real.lateral,
            })
        };
        let mut total = sum(effects);
        let compression = -self.e_mpa * total.at(self.section, 0.5 * self.depth, 0.0);
        let hinged = ripple::critical_mpa(ripple::K_HINGED, self.web_mm, self.depth, self.e_mpa);
        let clamped = hinged * (ripple::K_CLAMPED / ripple::K_HINGED);
        let working = ripple::effective_share(compression, hinged, clamped);
        if working < 1.0 {
            self.soften(effects, (1.0 - working) * self.depth);
            total = sum(effects);
        }
        let inner = -total.at(self.section, self.depth, 0.0);
        (compression, [-total.at(self.section, 0.0, 0.0), inner, inner * self.cos])
    }

    /// Takes `gone` mm out of the middle of the web: the rest shortens and bends more.
    fn soften(&self, effects: &mut [Effect], gone: f64) {
        let lost = gone * self.web_mm;
        let arm = 0.5 * self.depth - self.section.centroid_mm;
        let softer_a = self.section.area_mm2 / (self.section.area_mm2 - lost);
        let softer_i =
            self.section.i_z_mm4 / (self.section.i_z_mm4 - lost * (arm * arm + gone * gone / 12.0));
        for effect in effects {
            for s in [&mut effect.real, &mut effect.unit] {
                s.axial *= softer_a;
                s.in_plane *= softer_i;
            }
        }
    }
}

impl March {
    fn empty(passes: usize, steps: usize) -> Self {
        let stations = || Array2::zeros((passes, steps + 1));
        let middles = || Array2::zeros((passes, steps));
        Self {
            x_mm: Vec::with_capacity(steps + 1),
            camber: stations(),
            camber_slope: Vec::with_capacity(steps + 1),
            sweep: stations(),
            sweep_slope: Vec::with_capacity(steps + 1),
            unit_camber: stations(),
            unit_sweep: stations(),
            shortening: vec![(0.0, 0.0); passes],
            force: middles(),
            lone: middles(),
            arm_z: middles(),
            arm_y: middles(),
            middle_mm: Vec::with_capacity(steps),
            edges: Vec::with_capacity(steps + 1),
            web: Vec::with_capacity(steps),
            warmest_k: 0.0,
            capped: false,
            bias: Bias::FORMULA,
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
