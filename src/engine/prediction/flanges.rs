//! Cup, tilt and toe offsets of both flanges, stretch by stretch.

use super::alike::covers;
use super::divided::Divided;
use super::learned::Assembly;
use super::plan::WalkPlan;
use super::result::FlangeAngles;
use super::uncertainty::{FOLD_SCATTER, SPAN, TILT_SCATTER, heat_bias};
use super::{Factors, Job};
use crate::angular::both_sides::{Fillet, JointFillets, WebFoot, angles, narrowing_together_mm, toes_mm};
use crate::angular::cup::{FoldingHeat, cup_rad};
use crate::member::{Seam, Span};
use crate::shrinkage::fillets::COLD_S;
use crate::shrinkage::second_side::cooling_time_s;
use crate::shrinkage::tendon::heat_parameter;
use crate::shrinkage::transverse::flange_narrowing_mm;
use crate::welding::{Pass, Side};

/// The same flanges without what plates bring to this very piece.
pub(crate) fn without(flanges: &[FlangeAngles], drawn: &Assembly) -> Vec<FlangeAngles> {
    let Assembly { cup_mm, tilt_mm, .. } = *drawn;
    let less = |f: &FlangeAngles| {
        let half_mm = 0.5 * f.width_mm;
        FlangeAngles {
            cup_rad: f.cup_rad - cup_mm / half_mm,
            tilt_rad: f.tilt_rad - tilt_mm / half_mm,
            near_toe_mm: f.near_toe_mm - cup_mm - tilt_mm,
            far_toe_mm: f.far_toe_mm - cup_mm + tilt_mm,
            ..*f
        }
    };
    flanges.iter().map(less).collect()
}

/// Every stretch of each flange over which nothing changes, outer flange first.
pub(super) fn flanges(job: &Job, plan: &WalkPlan) -> Vec<FlangeAngles> {
    let mut out: Vec<FlangeAngles> = Vec::with_capacity(2 * plan.spans.len());
    for seam in Seam::BOTH {
        for (index, span) in plan.spans.iter().enumerate() {
            let goes_on = index > 0 && alike(job, seam, &plan.spans[index - 1], span);
            let here = if goes_on { None } else { Some(shape(job, plan, span, seam)) };
            match (out.last_mut(), here) {
                (Some(before), here) if here.as_ref().is_none_or(|here| same(before, here)) => {
                    before.to_mm = span.to_mm;
                    before.x_mm = 0.5 * (before.from_mm + before.to_mm);
                }
                (_, here) => out.extend(here),
            }
        }
    }
    out
}

/// Whether nothing changes at a seam from one span to the next.
fn alike(job: &Job, seam: Seam, a: &Span, b: &Span) -> bool {
    let plates = |span: &Span| {
        let (width_mm, thickness_mm) = span.plates.flange_mm(seam);
        [width_mm, thickness_mm, span.plates.web_mm].map(f64::to_bits)
    };
    let mut passes = job.passes.iter().filter(|p| p.seam == seam);
    plates(a) == plates(b) && passes.all(|p| covers(p, a.middle_mm()) == covers(p, b.middle_mm()))
}

fn same(a: &FlangeAngles, b: &FlangeAngles) -> bool {
    let bits = |f: &FlangeAngles| {
        [f.width_mm, f.thickness_mm, f.near_toe_mm, f.far_toe_mm, f.q_j_per_mm3].map(f64::to_bits)
    };
    a.flange == b.flange && bits(a) == bits(b)
}

/// Deviation of a sum of two that know nothing of each other.
fn both(a: f64, b: f64) -> f64 {
    (a * a + b * b).sqrt()
}

fn shape(job: &Job, plan: &WalkPlan, span: &Span, seam: Seam) -> FlangeAngles {
    let (width_mm, thickness_mm) = span.plates.flange_mm(seam);
    let web_mm = span.plates.web_mm;
    let steel = &job.member.steel;
    let q = |pass: &Pass| heat_parameter(pass.heat_j_per_mm, thickness_mm, web_mm);
    let here = || job.passes.iter().filter(|p| p.seam == seam && covers(p, span.middle_mm()));
    // of several passes on a side the one that folds most leads, and the others add to it
    let fold = |p: &Pass| p.welded_fraction * cup_rad(FoldingHeat::of(q(p), web_mm, p.leg_mm));
    let strongest = |side: Side| here().filter(|p| p.side == side).max_by(|a, b| fold(a).total_cmp(&fold(b)));
    let (near, far) = (strongest(Side::Near), strongest(Side::Far));
    let laid_at = |pass: Option<&Pass>| {
        let order = job.orders.iter().position(|o| pass.is_some_and(|p| p.order == o.number));
        order.and_then(|i| plan.clock_s.get(i)).copied().unwrap_or(0.0)
    };
    let wait = laid_at(far) - laid_at(near);
    let strongest_heat = here().map(|p| p.heat_j_per_mm).fold(f64::MIN_POSITIVE, f64::max);
    let cooling = cooling_time_s(strongest_heat, thickness_mm, web_mm, steel.yield_mpa, steel.e_mpa);
    let lag = if wait.abs() >= COLD_S { f64::INFINITY } else { wait.abs() / cooling };
    let fillet = |p: Option<&Pass>| {
        p.map(|p| Fillet {
            heat_j_per_mm: p.heat_j_per_mm,
            q_j_per_mm3: q(p),
            leg_mm: p.leg_mm,
            welded_fraction: p.welded_fraction,
        })
    };
    let joint = JointFillets { near: fillet(near), far: fillet(far), near_first: wait >= 0.0, lag };
    let foot = WebFoot { thickness_mm: web_mm, gap_mm: job.fit_up_gap_mm, hold: job.hold };
    let Factors { cup, tilt, near_tilt, far_tilt, .. } = job.factors;
    let mut angles = angles(&joint, &foot);
    for (at, (side, most)) in [(Side::Near, near), (Side::Far, far)].into_iter().enumerate() {
        let Some(most) = most else { continue };
        let further = || here().filter(|p| p.side == side && p.order != most.order);
        if further().next().is_none() {
            continue;
        }
        // an earlier fillet on the other side backs the web
        let run = |p: &Pass| {
            let before = [far, near][at].filter(|other| other.order < p.order);
            let thicker = before.map_or(0.0, |other| 0.5 * other.welded_fraction * other.leg_mm);
            crate::angular::runs::Run {
                heat_j_per_mm: p.heat_j_per_mm,
                q_j_per_mm3: q(p),
                leg_mm: p.leg_mm,
                web_mm: web_mm + thicker,
                welded_fraction: p.welded_fraction,
            }
        };
        let further: Vec<_> = further().map(run).collect();
        let more = crate::angular::runs::more(&further, &job.hold);
        angles.cup_rad += more.cup_rad;
        angles.unequal_rad += side.sign() * more.cup_rad;
        angles.turns_rad[at] += more.tilt_rad;
        angles.tilt_rad += side.sign() * more.tilt_rad;
        angles.cup_sigma_rad += more.cup_sigma_rad;
        angles.tilt_sigma_rad += more.tilt_sigma_rad;
    }
    let mut angles = angles.times(cup, tilt, [near_tilt, far_tilt]);
    let toes = toes_mm(&angles, &joint, width_mm, web_mm);
    let Assembly { cup_mm, tilt_mm, .. } = job.brought();
    let (near_toe_mm, far_toe_mm) = (toes.0 + cup_mm + tilt_mm, toes.1 + cup_mm - tilt_mm);
    let mut heat = heat_bias(here());
    let half_mm = 0.5 * width_mm;
    let plates = job.toes_sd_mm().map(|mm| mm / half_mm);
    if let Some(learned) = job.learned.as_deref() {
        let [cup, tilt] = learned.flange(job);
        let sides = angles.sides_sigma_rad();
        (angles.cup_sigma_rad, angles.tilt_sigma_rad) =
            (cup * angles.cup_rad.abs(), both(tilt * angles.tilt_rad, sides));
        // what is learned of the heat is in there
        heat = 0.0;
    }
    // the cup carries the heat's own bias beside that of the fold curve; both what differs from piece to piece
    let cup_sigma = both(both(angles.cup_sigma_rad, both(heat, FOLD_SCATTER) * angles.cup_rad), plates[0]);
    let tilt_sigma = both(both(angles.tilt_sigma_rad, TILT_SCATTER * angles.tilt_rad), plates[1]);
    let toe_sigma = 0.5 * width_mm * both(cup_sigma, tilt_sigma);
    let two_s_mm = |a: f64, b: f64| SPAN * half_mm * both(a, b);
    let toe_2s_of = Divided {
        all_mm: SPAN * toe_sigma,
        shared_mm: two_s_mm(both(angles.cup_sigma_rad, heat * angles.cup_rad), angles.tilt_sigma_rad),
        welding_mm: two_s_mm(FOLD_SCATTER * angles.cup_rad, TILT_SCATTER * angles.tilt_rad),
        plates_mm: two_s_mm(plates[0], plates[1]),
    };
    FlangeAngles {
        flange: seam,
        x_mm: span.middle_mm(),
        from_mm: span.from_mm,
        to_mm: span.to_mm,
        width_mm,
        thickness_mm,
        q_j_per_mm3: near.map_or(0.0, q).max(far.map_or(0.0, q)),
        cup_rad: angles.cup_rad + cup_mm / (0.5 * width_mm),
        tilt_rad: angles.tilt_rad + tilt_mm / (0.5 * width_mm),
        near_toe_mm,
        far_toe_mm,
        cup_2s_rad: SPAN * cup_sigma,
        tilt_2s_rad: SPAN * tilt_sigma,
        toe_2s_mm: SPAN * toe_sigma,
        toe_2s_of,
        narrowing_mm: narrowing_together_mm(&joint, thickness_mm)
            + here()
                .map(|p| p.welded_fraction * flange_narrowing_mm(p.heat_j_per_mm, thickness_mm, p.leg_mm))
                .sum::<f64>(),
    }
}
