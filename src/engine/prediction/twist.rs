//! Turn of the member by flanges that want to sweep differently: seams on opposite sides, or flanges of unequal width.

use super::Job;
use super::plan::Plan;
use super::result::{Bow, Twist};
use super::shapes::Unsure;
use super::walk::Walk;
use crate::bow::twist::{Stretch, turn_rad};
use crate::member::{Plates, Seam};
use crate::numerics::between;
use crate::shrinkage::second_side::seam_index;

/// Reads the moments of a walk.
pub fn twist(job: &Job, plan: &Plan, march: &Walk, sweep: &Bow, unsure: &Unsure) -> Twist {
    let mut stretches: Vec<Stretch> = march
        .web
        .iter()
        .zip(march.x_mm.windows(2))
        .map(|(part, ends)| stretch(&plan.spans[part.span].plates, part.depth_mm, ends[1] - ends[0]))
        .collect();
    // turns add up over the passes, which is also what their span needs
    let turns: Vec<Vec<f64>> = (0..job.passes.len())
        .map(|pass| {
            let seam = job.passes[pass].seam;
            for (column, s) in stretches.iter_mut().enumerate() {
                let moment = march.force[[pass, column]] * march.arm_z[[pass, column]];
                let bends = moment / (job.member.steel.e_mpa * s.flange_mm4[seam_index(seam)]);
                // a pull at the near side is + and bends toward the far side, w″ +
                s.apart_per_mm = if seam == Seam::Inner { bends } else { -bends };
            }
            turn_rad(&stretches)
        })
        .collect();
    let sum = |k: usize| turns.iter().map(|turn| turn[k]).sum::<f64>();
    let stations = march.x_mm.len();
    let at = (0..stations).fold(0, |best, k| if sum(k).abs() > sum(best).abs() { k } else { best });
    let at = if sum(at).abs() > 0.0 { at } else { stations / 2 };
    let at_mm = march.x_mm[at];
    let max_rad = sum(at) + 0.0;
    let beside = &stretches[at.min(stretches.len().saturating_sub(1))];
    let apart_mm = max_rad * beside.height_mm + 0.0;
    let whole = between(&march.x_mm, |k| sweep.profile[k][1], at_mm);
    let [outer, inner] = beside.flange_mm4.map(|i| i / (beside.flange_mm4[0] + beside.flange_mm4[1]));
    Twist {
        max_rad,
        at_mm,
        max_2s_rad: unsure.of_moment(turns.iter().map(|turn| turn[at])),
        apart_mm,
        flange_sweep_mm: [whole - inner * apart_mm + 0.0, whole + outer * apart_mm + 0.0],
        profile: march.x_mm.iter().enumerate().map(|(k, x)| [*x, sum(k) + 0.0]).collect(),
    }
}

fn stretch(plates: &Plates, depth_mm: f64, length_mm: f64) -> Stretch {
    let [outer, inner] = Seam::BOTH.map(|seam| plates.flange_mm(seam));
    let thirds = |(width, thickness): (f64, f64)| width * thickness.powi(3) / 3.0;
    Stretch {
        length_mm,
        height_mm: depth_mm + 0.5 * (outer.1 + inner.1),
        flange_mm4: [outer, inner].map(|(width, thickness)| thickness * width.powi(3) / 12.0),
        torsion_mm4: thirds(outer) + thirds(inner) + thirds((depth_mm, plates.web_mm)),
        apart_per_mm: 0.0,
    }
}
