//! Published estimates, put through the same beam, so that a user sees how far the methods differ.

use super::Job;
use super::plan::WalkPlan;
use super::result::{Estimate, FlangeAngles};
use super::walk::Walk;
use crate::angular::published as angles;
use crate::member::{Parts, Seam, properties};
use crate::numerics::farthest;
use crate::shrinkage::lateral_arm::{centroid_mm, combined_moment, left_after_second};
use crate::shrinkage::published::{
    FILLETS_MM_PER_M, METHODS, MethodInput, PublishedMethod, SHOP_RULE_MM_PER_MM, four_seams_mm_per_m,
};
use crate::shrinkage::second_side::{felt_lag, overlap_n};
use crate::shrinkage::source::Legs;
use crate::welding::{Pass, Side};

/// How a pass stands to the ones before it at the same junction.
#[derive(Clone, Copy)]
struct Standing {
    /// Earlier pass on the other side, the lag to it (time/t_w), and the part of its moment that is left.
    opposite: Option<(usize, f64, f64)>,
    /// Earlier pass on the same side.
    repeated: Option<usize>,
    /// Distance of the centroid of the fillet from the plane of the web, with sign, mm: where these methods put their force.
    arm_mm: f64,
}

/// All estimates of camber, sweep and shortening, then of the cup of each flange.
pub(super) fn estimates(job: &Job, plan: &WalkPlan, march: &Walk, flanges: &[FlangeAngles]) -> Vec<Estimate> {
    let standing: Vec<Standing> = (0..job.passes.len()).map(|i| stand(job, plan, i)).collect();
    let mut out = Vec::with_capacity(3 * METHODS.len() + 12);
    let mut effects = Vec::with_capacity(job.passes.len());
    let mut before: Vec<(f64, f64)> = Vec::with_capacity(job.passes.len());
    let mut sums = Vec::with_capacity(march.x_mm.len());
    let mut bows = [0.0; 3];
    for method in METHODS {
        add_up(job, method, &standing, &mut effects);
        match ratio(&effects, &before) {
            // methods that differ by a factor share their shapes
            Some(times) => bows = bows.map(|bow| bow * times),
            None => {
                bows = [
                    farthest(&march.x_mm, add_curves(march, 2, &mut sums, effects.iter().map(|e| e.0))),
                    farthest(&march.x_mm, add_curves(march, 3, &mut sums, effects.iter().map(|e| e.1))),
                    effects.iter().zip(&march.shortening).map(|((force, _), (_, unit))| force * unit).sum(),
                ];
            }
        }
        before.clone_from(&effects);
        for (quantity, value) in ["camber.max_mm", "sweep.max_mm", "shortening_mm"].into_iter().zip(bows) {
            out.push(of(method, quantity, value));
        }
    }
    shop_rules(job, &mut out);
    for seam in Seam::BOTH {
        cups(job, flanges, seam, &mut out);
    }
    out
}

/// The factor between two methods' effects, if it is the same for every pass.
fn ratio(effects: &[(f64, f64)], before: &[(f64, f64)]) -> Option<f64> {
    let times = effects.first()?.0 / before.first().filter(|e| e.0 > 0.0)?.0;
    let same = |a: f64, b: f64| (a - times * b).abs() <= 1e-12 * a.abs();
    let all = effects.iter().zip(before).all(|(a, b)| same(a.0, b.0) && same(a.1, b.1));
    all.then_some(times)
}

/// Each pass's unit curve, that of camber (2) or sweep (3), taken so many times, added up in `sums`.
fn add_curves<'a>(
    march: &Walk,
    unit: usize,
    sums: &'a mut Vec<f64>,
    times: impl Iterator<Item = f64>,
) -> &'a [f64] {
    sums.clear();
    sums.resize(march.x_mm.len(), 0.0);
    for (pass, times) in times.enumerate() {
        sums.iter_mut().zip(march.bends(pass)).for_each(|(sum, bends)| *sum += times * bends[unit]);
    }
    sums
}

fn of(method: &PublishedMethod, quantity: &'static str, value: f64) -> Estimate {
    Estimate {
        quantity,
        method: method.method,
        source: method.source,
        value: value + 0.0,
        bound: method.bound,
    }
}

fn stand(job: &Job, plan: &WalkPlan, index: usize) -> Standing {
    let pass = &job.passes[index];
    let middle = 0.5 * (pass.from_mm + pass.to_mm);
    let plates = job.member.plates_at(middle);
    let (width_mm, flange_mm) = plates.flange_mm(pass.seam);
    let steel = &job.member.steel;
    let clock = |p: &Pass| {
        let order = job.orders.iter().position(|o| o.number == p.order);
        order.and_then(|i| plan.clock_s.get(i)).copied().unwrap_or(0.0)
    };
    let overlaps = |p: &Pass| p.seam == pass.seam && p.from_mm < pass.to_mm && p.to_mm > pass.from_mm;
    let earlier = |same_side: bool| {
        job.passes[..index].iter().rposition(|p| overlaps(p) && (p.side == pass.side) == same_side)
    };
    let (web_mm, yield_mpa, e_mpa) = (plates.web_mm, steel.yield_mpa, steel.e_mpa);
    let warm_s = Legs { width_mm, flange_mm, web_mm, yield_mpa, e_mpa }.warm_time_s(pass.heat_j_per_mm);
    Standing {
        opposite: earlier(false).map(|i| {
            let lag = (clock(pass) - clock(&job.passes[i])) / warm_s;
            let depth_mm = job.member.depth.depth_mm(middle);
            let at_mm = if pass.seam == Seam::Outer { 0.0 } else { depth_mm };
            let give = properties(&plates, depth_mm, 0.0, Parts::ALL).give_per_mm2(at_mm);
            let stretch = pass.heat_j_per_mm * pass.welded_fraction() * give;
            (i, lag, left_after_second(felt_lag(lag, stretch, yield_mpa)))
        }),
        repeated: earlier(true),
        arm_mm: pass.side.sign() * centroid_mm(plates.web_mm, pass.leg_mm),
    }
}

/// Force (N) and sideways moment (N·mm) each pass adds by one method.
fn add_up(job: &Job, method: &PublishedMethod, standing: &[Standing], effects: &mut Vec<(f64, f64)>) {
    effects.clear();
    let lone = |pass: &Pass| {
        let weld = MethodInput {
            heat_j_per_mm: pass.heat_j_per_mm,
            nominal_mm2: 0.5 * pass.leg_mm * pass.leg_mm,
            e_mpa: job.member.steel.e_mpa,
        };
        (method.force_n)(&weld) * pass.welded_fraction()
    };
    for (pass, stands) in job.passes.iter().zip(standing) {
        let own = lone(pass);
        let own = stands.repeated.map_or(own, |i| (own - lone(&job.passes[i])).max(0.0));
        let pull = own * stands.arm_mm;
        effects.push(match stands.opposite {
            None => (own, pull),
            Some((i, lag, left)) => {
                let before = lone(&job.passes[i]);
                let moment_before = before * standing[i].arm_mm;
                let force = overlap_n(before, own, method.second.factor(lag)) - before;
                (force, combined_moment(moment_before, pull, left) - moment_before)
            }
        });
    }
}

/// Rules that give a shortening without a force.
fn shop_rules(job: &Job, out: &mut Vec<Estimate>) {
    let mut push = |method, source, value, bound| {
        out.push(Estimate { quantity: "shortening_mm", method, source, value, bound });
    };
    let welded: f64 = job.passes.iter().map(|p| (p.to_mm - p.from_mm) * p.welded_fraction()).sum();
    let rule = SHOP_RULE_MM_PER_MM * welded;
    push("0.8 mm per 3 m for each weld", "shop rule, source not recorded", rule, false);
    let metres = job.member.length_mm / 1e3;
    let source = "German shop rule, Malisius school (memory, check)";
    push("fillets, 0.1 mm per m", source, FILLETS_MM_PER_M.0 * metres, true);
    push("fillets, 0.3 mm per m", source, FILLETS_MM_PER_M.1 * metres, true);
    let seams = |seam, side| job.passes.iter().any(|p| p.seam == seam && p.side == side);
    if Seam::BOTH.into_iter().all(|seam| seams(seam, Side::Near) && seams(seam, Side::Far)) {
        let thickest = Seam::BOTH.into_iter().flat_map(|s| job.member.flange(s)).map(|p| p.thickness_mm);
        let per_m = four_seams_mm_per_m(job.member.depth.deepest_mm(), thickest.fold(0.0, f64::max));
        push(
            "allowance for four seams",
            "cutting allowance of shops, source not recorded",
            per_m * metres,
            true,
        );
    }
}

fn cups(job: &Job, flanges: &[FlangeAngles], seam: Seam, out: &mut Vec<Estimate>) {
    let of_seam = flanges.iter().filter(|f| f.flange == seam && f.q_j_per_mm3 > 0.0);
    let Some(worst) = of_seam.max_by(|a, b| a.cup_rad.total_cmp(&b.cup_rad)) else { return };
    let here: Vec<&Pass> =
        job.passes.iter().filter(|p| p.seam == seam && (p.from_mm..=p.to_mm).contains(&worst.x_mm)).collect();
    let both = here.iter().any(|p| p.side != here[0].side);
    let halves = if both { 1.0 } else { 0.5 };
    let leg = here.iter().map(|p| p.leg_mm).fold(0.0, f64::max);
    let (q, width, thickness) = (worst.q_j_per_mm3, worst.width_mm, worst.thickness_mm);
    let quantity = match seam {
        Seam::Outer => "flanges.outer.cup_rad",
        Seam::Inner => "flanges.inner.cup_rad",
    };
    let mut push = |method, source, value, bound| {
        out.push(Estimate { quantity, method, source, value: halves * value, bound });
    };
    let blodgett = angles::blodgett_edge_mm(width, leg, thickness) / (0.5 * width);
    push(
        "0.02·W·w^1.3/t² over the half width",
        "Blodgett, Design of Weldments (memory); runs away for q > 6",
        blodgett,
        q > angles::BLODGETT_LIMIT_Q,
    );
    push(
        "inherent deformation in Q/h²",
        "Satoh and Terasaki 1976; Luo, Murakawa and Ueda 1997 (memory, low)",
        angles::inherent_fold_rad(q),
        false,
    );
    push(
        "shrinkage at a quarter-depth arm",
        "derived",
        angles::lever_arm_fold_rad(q),
        q > angles::BLODGETT_LIMIT_Q,
    );
    push(
        "second section calculation",
        "own computation, written apart from the default",
        angles::second_calculation_fold_rad(q),
        false,
    );
}
