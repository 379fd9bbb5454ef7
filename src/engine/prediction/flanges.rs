//! Cup, tilt and toe offsets of both flanges, stretch by stretch.

use super::alike::covers;
use super::divided::Divided;
use super::learned::Assembly;
use super::plan::WalkPlan;
use super::result::FlangeAngles;
use super::uncertainty::{Bias, FOLD_SCATTER, SPAN, TILT_SCATTER};
use super::{Factors, Job};
use crate::angular::both_sides::{
    Angles, Fillet, JointFillets, WebFoot, angles, narrowing_together_mm, toes_mm,
};
use crate::angular::cup::{FoldingHeat, SIGMA, cup_and_lost_rad};
use crate::angular::runs::{Run, more};
use crate::angular::stitched::folded_part;
use crate::angular::tilt::{TILT_OWN, TILT_SHARED};
use crate::member::{Seam, Span};
use crate::numerics::{LANES, Number, Work, in_lanes};
use crate::shrinkage::fillets::COLD_S;
use crate::shrinkage::second_side::{cooling_time_s, seam_index};
use crate::shrinkage::tendon::heat_parameter;
use crate::shrinkage::transverse::flange_narrowing_mm;
use crate::welding::{Pass, Side};

/// A bead longer than so many halves of its flange folds it in its middle as if it had no ends (by [`folded_part`] all but 10⁻⁴ of it).
const LONG: f64 = 10.0;

/// What welding does to both flanges, span by span, of one job or of several of one layout side by side.
#[derive(Debug)]
pub(super) struct Folds<N = f64> {
    spans: [Vec<Folded<N>>; 2],
}

/// The same of one flange in one span.
#[derive(Debug, Clone, Copy, Default)]
struct Folded<N> {
    width_mm: N,
    thickness_mm: N,
    /// Heat parameter of the strongest pass, J/mm³.
    q_j_per_mm3: N,
    angles: Angles<N>,
    /// Near and far toe.
    toes_mm: (N, N),
    narrowing_mm: N,
}

/// One flange in one span, of jobs side by side.
struct Joint<'a, N> {
    jobs: &'a [&'a Job],
    plan: &'a WalkPlan<N>,
    span: &'a Span<N>,
    seam: Seam,
    width_mm: N,
    thickness_mm: N,
}

impl<N: Number> Folds<N> {
    /// Of the jobs of a plan.
    pub(super) fn of(jobs: &[&Job], plan: &WalkPlan<N>) -> Self {
        in_lanes::<N, _>(Folding { jobs, plan })
    }

    /// Every stretch of each flange of one of the jobs over which nothing changes, outer flange first, with what plates and assembly bring to
    /// it; without deviations if it is `silent`.
    pub(super) fn stretches(
        &self,
        (job, k): (&Job, usize),
        plan: &WalkPlan<N>,
        brought: &Assembly,
        silent: bool,
        out: &mut Vec<FlangeAngles>,
    ) {
        out.clear();
        for seam in Seam::BOTH {
            for (folded, span) in self.spans[seam_index(seam)].iter().zip(&plan.spans) {
                let here = folded.read(k, (seam, span), brought);
                match out.last_mut() {
                    Some(before) if same(before, &here) => {
                        before.to_mm = here.to_mm;
                        before.x_mm = 0.5 * (before.from_mm + before.to_mm);
                    }
                    _ if silent => out.push(here),
                    _ => out.push(folded.unsure(k, job, here)),
                }
            }
        }
    }
}

/// Folds both flanges, in wide registers.
struct Folding<'a, N> {
    jobs: &'a [&'a Job],
    plan: &'a WalkPlan<N>,
}

impl<N: Number> Work for Folding<'_, N> {
    type Done = Folds<N>;

    #[cfg_attr(wide, inline(always))]
    fn run(self) -> Folds<N> {
        let (Self { jobs, plan }, mut spans) = (self, [Vec::new(), Vec::new()]);
        for (seam, all) in Seam::BOTH.into_iter().zip(&mut spans) {
            all.reserve(plan.spans.len());
            for (index, span) in plan.spans.iter().enumerate() {
                let goes_on = index > 0 && alike(jobs[0], seam, &plan.spans[index - 1], span);
                let folded =
                    if goes_on { all[index - 1] } else { Joint::of(jobs, plan, span, seam).folded() };
                all.push(folded);
            }
        }
        Folds { spans }
    }
}

/// Whether nothing changes at a seam from one span to the next.
fn alike<N: Number>(job: &Job, seam: Seam, a: &Span<N>, b: &Span<N>) -> bool {
    let plates = |span: &Span<N>| (span.plates.flange_mm(seam), span.plates.web_mm);
    let covers = |p: &Pass, span: &Span<N>| covers(p, span.middle_mm().nth(0));
    let mut passes = job.passes.iter().filter(|p| p.seam == seam);
    plates(a) == plates(b) && passes.all(|p| covers(p, a) == covers(p, b))
}

fn same(a: &FlangeAngles, b: &FlangeAngles) -> bool {
    let bits = |f: &FlangeAngles| {
        [f.width_mm, f.thickness_mm, f.near_toe_mm, f.far_toe_mm, f.q_j_per_mm3].map(f64::to_bits)
    };
    a.flange == b.flange && bits(a) == bits(b)
}

impl<'a, N: Number> Joint<'a, N> {
    #[cfg_attr(wide, inline(always))]
    fn of(jobs: &'a [&'a Job], plan: &'a WalkPlan<N>, span: &'a Span<N>, seam: Seam) -> Self {
        let (width_mm, thickness_mm) = span.plates.flange_mm(seam);
        Self { jobs, plan, span, seam, width_mm, thickness_mm }
    }

    /// A number of a pass.
    #[cfg_attr(wide, inline(always))]
    fn number(&self, pass: usize, value: fn(&Pass) -> f64) -> N {
        N::of(|k| value(&self.jobs[k].passes[pass]))
    }

    #[cfg_attr(wide, inline(always))]
    fn passes(&self) -> impl Iterator<Item = (usize, &'a Pass)> {
        let (seam, middle_mm) = (self.seam, self.span.middle_mm().nth(0));
        let here = move |(_, p): &(usize, &Pass)| p.seam == seam && covers(p, middle_mm);
        self.jobs[0].passes.iter().enumerate().filter(here)
    }

    #[cfg_attr(wide, inline(always))]
    fn fillet(&self, pass: usize) -> Fillet<N> {
        let heat_j_per_mm = self.number(pass, |p| p.heat_j_per_mm);
        Fillet {
            heat_j_per_mm,
            q_j_per_mm3: heat_parameter(heat_j_per_mm, self.thickness_mm, self.span.plates.web_mm),
            leg_mm: self.number(pass, |p| p.leg_mm),
            welded_fraction: self.number(pass, Pass::welded_fraction),
            folded: N::of(|k| self.folded_part(pass, k)),
        }
    }

    /// Part of the fold of a pass that the toes show under its stitches.
    fn folded_part(&self, pass: usize, k: usize) -> f64 {
        let half_mm = 0.5 * (self.width_mm.nth(k) - self.span.plates.web_mm.nth(k));
        let run = || Some(bead_mm(self.jobs[k], pass)).filter(|long_mm| *long_mm < LONG * half_mm);
        let stitched = self.jobs[k].passes[pass].stitch.map(|s| [s.weld_mm, s.gap_mm]);
        let short = stitched.or_else(|| run().map(|long_mm| [long_mm, 2.0 * LONG * half_mm]));
        short.map_or(1.0, |stitch| folded_part(stitch, half_mm))
    }

    /// Of several passes on a side the one that folds most (plates hot through not counted), of each job: it leads, and the others add to it.
    #[cfg_attr(wide, inline(always))]
    fn strongest(&self, side: Side) -> [Option<usize>; LANES] {
        let on_side = || self.passes().filter(|(_, p)| p.side == side).map(|(pass, _)| pass);
        let mut found = [on_side().next(); LANES];
        if on_side().nth(1).is_some() {
            let mut folds = Vec::new();
            for pass in on_side() {
                let f = self.fillet(pass);
                let folding = FoldingHeat::of(f.q_j_per_mm3, self.span.plates.web_mm, f.leg_mm);
                let [cup, lost] = cup_and_lost_rad(folding);
                folds.push((pass, f.folded * (cup + lost)));
            }
            for (k, found) in found.iter_mut().enumerate().take(N::COUNT) {
                let most = folds.iter().max_by(|a: &&(usize, N), b| a.1.nth(k).total_cmp(&b.1.nth(k)));
                *found = most.map(|most| most.0);
            }
        }
        found
    }

    #[cfg_attr(wide, inline(always))]
    fn folded(&self) -> Folded<N> {
        let (near, far) = (self.strongest(Side::Near), self.strongest(Side::Far));
        let all_alike = (1..N::COUNT).all(|k| (near[k], far[k]) == (near[0], far[0]));
        let mut all = None;
        for k in 0..N::COUNT {
            let led = self.led([near[k], far[k]]);
            // jobs in which other passes lead
            all = Some(all.map_or(led, |all: Folded<N>| all.with(k, &led)));
            if all_alike {
                break;
            }
        }
        all.unwrap_or_default()
    }

    /// With these passes leading on near and far side.
    #[cfg_attr(wide, inline(always))]
    fn led(&self, led: [Option<usize>; 2]) -> Folded<N> {
        let job = self.jobs[0];
        let web_mm = self.span.plates.web_mm;
        let mut fillets = [None; 2];
        for (fillet, pass) in fillets.iter_mut().zip(led) {
            if let Some(pass) = pass {
                *fillet = Some(self.fillet(pass));
            }
        }
        let [near, far] = fillets;
        let order = led.map(|led| {
            let of = |pass: usize| job.orders.iter().position(|o| job.passes[pass].order == o.number);
            led.and_then(of).unwrap_or(0)
        });
        let clock_s = order.map(|order| self.plan.clock_s.get(order).copied().unwrap_or_default());
        let wait = (clock_s[1] - clock_s[0]).abs();
        let (mut strongest, mut narrows) = (N::all(f64::MIN_POSITIVE), N::default());
        for (pass, _) in self.passes() {
            let heat_j_per_mm = self.number(pass, |p| p.heat_j_per_mm);
            let (leg_mm, welded) =
                (self.number(pass, |p| p.leg_mm), self.number(pass, Pass::welded_fraction));
            strongest = strongest.max(heat_j_per_mm);
            narrows += welded * flange_narrowing_mm(heat_j_per_mm, self.thickness_mm, leg_mm);
        }
        let (yield_mpa, e_mpa) = (self.plan.yield_mpa, self.plan.e_mpa);
        let cooling = cooling_time_s(strongest, self.thickness_mm, web_mm, yield_mpa, e_mpa);
        let lag = N::all(COLD_S).above(wait, wait / cooling, N::all(f64::INFINITY));
        let joint = JointFillets { near, far, near_first: order[0] <= order[1], lag };
        let gap_mm = N::of(|k| self.jobs[k].fit_up_gap_mm);
        let mut angles = angles(&joint, &WebFoot { thickness_mm: web_mm, gap_mm, hold: job.hold });
        for (at, side) in [Side::Near, Side::Far].into_iter().enumerate() {
            if let Some(most) = led[at] {
                self.add_further(side, most, led[1 - at], &mut angles);
            }
        }
        let factor = |of: fn(&Factors) -> f64| N::of(|k| of(&self.jobs[k].factors));
        let sides = [factor(|f| f.near_tilt), factor(|f| f.far_tilt)];
        let angles = angles.times(factor(|f| f.cup), factor(|f| f.tilt), sides);
        let q = |fillet: Option<Fillet<N>>| fillet.map_or(N::default(), |f| f.q_j_per_mm3);
        Folded {
            width_mm: self.width_mm,
            thickness_mm: self.thickness_mm,
            q_j_per_mm3: q(near).max(q(far)),
            angles,
            toes_mm: toes_mm(&angles, &joint, self.width_mm, web_mm),
            narrowing_mm: narrowing_together_mm(&joint, self.thickness_mm) + narrows,
        }
    }

    /// Adds what the passes on a side do beside the one that leads there.
    fn add_further(&self, side: Side, most: usize, other: Option<usize>, angles: &mut Angles<N>) {
        let passes = &self.jobs[0].passes;
        let further = self.passes().filter(|(_, p)| p.side == side && p.order != passes[most].order);
        // an earlier fillet on the other side backs the web
        let run = |(pass, p): (usize, &Pass)| {
            let f = self.fillet(pass);
            let before = other.filter(|other| passes[*other].order < p.order).map(|other| self.fillet(other));
            let thicker = before.map_or(N::default(), |f| f.welded_fraction * 0.5 * f.leg_mm);
            Run {
                heat_j_per_mm: f.heat_j_per_mm,
                q_j_per_mm3: f.q_j_per_mm3,
                leg_mm: f.leg_mm,
                web_mm: self.span.plates.web_mm + thicker,
                folded: f.folded,
            }
        };
        let further: Vec<Run<N>> = further.map(run).collect();
        if further.is_empty() {
            return;
        }
        let more = more(&further, &self.jobs[0].hold);
        angles.cup_rad += more.cup_rad;
        angles.unequal_rad += more.cup_rad * side.sign();
        angles.turns_rad[usize::from(side == Side::Far)] += more.tilt_rad;
        angles.tilt_rad += more.tilt_rad * side.sign();
        angles.cup_sigma_rad += more.cup_sigma_rad;
        angles.tilt_sigma_rad += more.tilt_sigma_rad;
    }
}

/// How long the bead is that a pass is a stretch of, mm.
fn bead_mm(job: &Job, pass: usize) -> f64 {
    let own = &job.passes[pass];
    let (mut from, mut to) = (own.from_mm, own.to_mm);
    // each may reach the next
    for _ in &job.passes {
        for other in job.passes.iter().filter(|o| (o.seam, o.side) == (own.seam, own.side)) {
            if other.from_mm <= to && other.to_mm >= from {
                (from, to) = (from.min(other.from_mm), to.max(other.to_mm));
            }
        }
    }
    to - from
}

impl<N: Number> Folded<N> {
    /// The same with one of its jobs from another.
    fn with(&self, index: usize, other: &Self) -> Self {
        let of = |a: N, b: N| N::of(|k| if k == index { b.nth(k) } else { a.nth(k) });
        let (a, b) = (&self.angles, &other.angles);
        Self {
            q_j_per_mm3: of(self.q_j_per_mm3, other.q_j_per_mm3),
            angles: Angles {
                cup_rad: of(a.cup_rad, b.cup_rad),
                unequal_rad: of(a.unequal_rad, b.unequal_rad),
                tilt_rad: of(a.tilt_rad, b.tilt_rad),
                turns_rad: [0, 1].map(|side: usize| of(a.turns_rad[side], b.turns_rad[side])),
                own_part: of(a.own_part, b.own_part),
                cup_sigma_rad: of(a.cup_sigma_rad, b.cup_sigma_rad),
                tilt_sigma_rad: of(a.tilt_sigma_rad, b.tilt_sigma_rad),
            },
            toes_mm: (of(self.toes_mm.0, other.toes_mm.0), of(self.toes_mm.1, other.toes_mm.1)),
            narrowing_mm: of(self.narrowing_mm, other.narrowing_mm),
            ..*self
        }
    }

    /// That of one job, with what plates and assembly bring, without deviations.
    fn read(&self, k: usize, (seam, span): (Seam, &Span<N>), brought: &Assembly) -> FlangeAngles {
        let Assembly { cup_mm, tilt_mm, .. } = *brought;
        let width_mm = self.width_mm.nth(k);
        let half_mm = 0.5 * width_mm;
        FlangeAngles {
            flange: seam,
            x_mm: span.middle_mm().nth(k),
            from_mm: span.from_mm.nth(k),
            to_mm: span.to_mm.nth(k),
            width_mm,
            thickness_mm: self.thickness_mm.nth(k),
            q_j_per_mm3: self.q_j_per_mm3.nth(k),
            cup_rad: self.angles.cup_rad.nth(k) + cup_mm / half_mm,
            tilt_rad: self.angles.tilt_rad.nth(k) + tilt_mm / half_mm,
            near_toe_mm: self.toes_mm.0.nth(k) + cup_mm + tilt_mm,
            far_toe_mm: self.toes_mm.1.nth(k) + cup_mm - tilt_mm,
            cup_2s_rad: 0.0,
            tilt_2s_rad: 0.0,
            toe_2s_mm: 0.0,
            toe_2s_of: Divided::default(),
            narrowing_mm: self.narrowing_mm.nth(k),
        }
    }

    /// The same with its deviations.
    fn unsure(&self, k: usize, job: &Job, here: FlangeAngles) -> FlangeAngles {
        let half_mm = 0.5 * here.width_mm;
        let plates = job.toes_sd_mm().map(|mm| mm / half_mm);
        let angles = &self.angles;
        let [cup, tilt] = [angles.cup_rad, angles.tilt_rad].map(|angle| angle.nth(k));
        let covers = |p: &&Pass| p.seam == here.flange && covers(p, here.x_mm);
        let bias = job.bias(Bias::FORMULA);
        let fold = job.deviation("cup_each_piece", FOLD_SCATTER);
        let fold = fold.hypot(bias.heat_each(job.passes.iter().filter(covers)));
        let turn = job.deviation("tilt_each_piece", TILT_SCATTER);
        let (cup_sigma, tilt_sigma, heat) = match job.learned.as_deref() {
            // what is learned of the heat is in there
            Some(learned) => {
                let [of_cup, of_tilt] = learned.flange(job);
                let sides = angles.sides_sigma_rad().nth(k);
                (of_cup * cup.abs(), (of_tilt * tilt).beside(sides), 0.0)
            }
            None => {
                let heat = bias.of_heat(job.passes.iter().filter(covers));
                let cup_sigma = angles.cup_sigma_rad.nth(k) * (job.deviation("cup", SIGMA) / SIGMA);
                // what is not shared is of the sides
                let shared = TILT_SHARED * tilt.abs();
                let sides = (angles.tilt_sigma_rad.nth(k).powi(2) - shared * shared).max(0.0).sqrt();
                let of_sides = job.deviation("tilt_each_side", TILT_OWN) / TILT_OWN * sides;
                (cup_sigma, of_sides.beside(job.deviation("tilt", TILT_SHARED) * tilt), heat)
            }
        };
        // the cup carries the heat's own bias beside that of the fold curve; both what differs from piece to piece
        let of_cup = cup_sigma.beside(heat.beside(fold) * cup).beside(plates[0]);
        let of_tilt = tilt_sigma.beside(turn * tilt).beside(plates[1]);
        let toe_sigma = half_mm * of_cup.beside(of_tilt);
        let two_s_mm = |a: f64, b: f64| SPAN * half_mm * a.beside(b);
        FlangeAngles {
            cup_2s_rad: SPAN * of_cup,
            tilt_2s_rad: SPAN * of_tilt,
            toe_2s_mm: SPAN * toe_sigma,
            toe_2s_of: Divided {
                all_mm: SPAN * toe_sigma,
                shared_mm: two_s_mm(cup_sigma.beside(heat * cup), tilt_sigma),
                welding_mm: two_s_mm(fold * cup, turn * tilt),
                plates_mm: two_s_mm(plates[0], plates[1]),
            },
            ..here
        }
    }
}
