//! What the formula level says of the very same joint: its flange and web stub alone, the same heat, waits and preheat.
//!
//! The member's prediction differs from it where the rest of the section matters: a larger section frees less, and another
//! seam may have left stress in this one. Both sides here leave that out.

use super::case::{Bead, Case};
use super::result::Numbers;
use crate::angular::flange::{Fillet, JointFillets, angles};
use crate::shrinkage::joint::{COLD_S, Joint, Laid, Timeline, cooling_time_s, side_index};
use crate::shrinkage::transverse::flange_narrowing_mm;
use crate::shrinkage::{lateral, tendon};
use crate::steel::E_MPA;
use crate::welding::{Side, Wait};

/// Force, its place, cup, tilt and narrowing after each layer, all laid so far together. `held` leaves out the loss of a
/// section that is free to shorten and bend while hot.
pub fn formula(case: &Case, held: bool) -> Vec<Numbers> {
    let mut sum = Sum::default();
    case.layers.iter().map(|layer| sum.lay(case, layer.wait, &layer.beads, held)).collect()
}

/// What the joint holds so far.
#[derive(Default)]
struct Sum {
    now_s: f64,
    begun: bool,
    timeline: Timeline,
    joint: Joint,
    force_n: f64,
    moment_n_mm: f64,
    narrowing_mm: f64,
    /// Bead and shop clock of near and far side.
    laid: [Option<(Bead, f64)>; 2],
}

impl Sum {
    fn lay(&mut self, case: &Case, wait: Wait, beads: &[Bead], held: bool) -> Numbers {
        if self.begun {
            self.now_s += match wait {
                Wait::Cold => COLD_S,
                Wait::Seconds(s) => s,
            };
        }
        self.begun = true;
        for bead in beads {
            self.laid[side_index(bead.side)] = Some((*bead, self.now_s));
        }
        self.pull(case, beads, held);
        let (cup_rad, tilt_rad) = self.angles(case);
        Numbers {
            force_n: self.force_n,
            across_mm: (self.force_n > 0.0).then(|| self.moment_n_mm / self.force_n),
            up_mm: Some(0.0),
            cup_rad: Some(cup_rad),
            tilt_rad: Some(tilt_rad),
            narrowing_mm: Some(self.narrowing_mm),
        }
    }

    /// Adds the force and moment of one layer, and what it narrows the flange by.
    fn pull(&mut self, case: &Case, beads: &[Bead], held: bool) {
        let (flange, web) = (case.joint.flange_mm, case.joint.web_mm);
        let sides: Vec<Side> = self.laid.iter().flatten().map(|(bead, _)| bead.side).collect();
        let area = case.joint.area_mm2(&sides);
        let heat: f64 = beads.iter().map(|bead| bead.heat_j_per_mm).sum();
        let rise = tendon::mean_rise_k(heat, area, case.start_c - 20.0);
        let free = if held { 1.0 } else { tendon::free_factor(area) };
        let common = tendon::warmth_factor(rise) * free;
        let (mut lone_n, mut arm_mm, mut cooling_s) = ([0.0; 2], [0.0; 2], f64::MIN_POSITIVE);
        for bead in beads {
            let (side, heat) = (side_index(bead.side), bead.heat_j_per_mm);
            lone_n[side] = common * tendon::held_force_n(heat, flange, web, case.yield_mpa);
            arm_mm[side] = lateral::arm_mm(flange, web, bead.leg_mm);
            cooling_s = cooling_time_s(heat, flange, web, case.yield_mpa, E_MPA).max(cooling_s);
            let q = tendon::heat_parameter(heat, flange, web);
            self.narrowing_mm += flange_narrowing_mm(heat, flange, q);
        }
        let laid = lone_n.map(|force| force > 0.0);
        let added = self.joint.lay(&Laid {
            lone_n,
            arm_mm,
            deposit_mm2: beads.iter().map(|bead| bead.deposit_mm2).sum(),
            meeting: &self.timeline.meet(laid, self.now_s, cooling_s),
            available_mm2: case.joint.flange_width_mm * flange + case.joint.web_stub_mm * web,
            yield_mpa: case.yield_mpa,
        });
        self.force_n += added.force_n;
        self.moment_n_mm += added.moment_n_mm;
    }

    /// Cup and tilt of what is laid so far.
    fn angles(&self, case: &Case) -> (f64, f64) {
        let (flange, web) = (case.joint.flange_mm, case.joint.web_mm);
        let fillet = |laid: Option<(Bead, f64)>| {
            laid.map(|(bead, _)| Fillet {
                q_j_per_mm3: tendon::heat_parameter(bead.heat_j_per_mm, flange, web),
                leg_mm: bead.leg_mm,
                welded_fraction: 1.0,
            })
        };
        let [near, far] = self.laid;
        let wait = near.zip(far).map_or(0.0, |(near, far)| far.1 - near.1);
        let strongest = self.laid.iter().flatten().map(|(b, _)| b.heat_j_per_mm).fold(0.0, f64::max);
        let cooling = cooling_time_s(strongest, flange, web, case.yield_mpa, E_MPA);
        let lag = if wait.abs() >= COLD_S { f64::INFINITY } else { wait.abs() / cooling };
        let joint = JointFillets { near: fillet(near), far: fillet(far), near_first: wait >= 0.0, lag };
        let angles = angles(&joint, web, case.yield_mpa);
        (angles.cup_rad, angles.tilt_rad)
    }
}
