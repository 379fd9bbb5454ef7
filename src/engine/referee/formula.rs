//! What the formula level says of the very same joint: its flange and web stub alone, the same heat, waits and preheat.
//!
//! The member's prediction differs from it where the rest of the section matters: a larger section frees less, and another
//! seam may have left stress in this one. Both sides here leave that out.

use super::case::{Bead, Case};
use super::result::Numbers;
use crate::angular::flange::{Fillet, JointFillets, angles};
use crate::member::{Parts, Plates, properties};
use crate::shrinkage::joint::{COLD_S, Joint, Laid, Timeline, cooling_time_s, side_index};
use crate::shrinkage::transverse::flange_narrowing_mm;
use crate::shrinkage::{lateral, tendon};
use crate::steel::E_MPA;
use crate::welding::Wait;

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
        let strongest = beads.iter().map(|bead| bead.heat_j_per_mm).fold(0.0, f64::max);
        let q = tendon::heat_parameter(strongest, flange, web);
        let loss = if held { 0.0 } else { tendon::free_loss(q, case.yield_mpa) };
        let common = tendon::warmth_factor(case.start_c - 20.0)
            * tendon::free_factor(loss, strongest * give_per_mm2(case));
        let (mut lone_n, mut arm_mm, mut cooling_s) = ([0.0; 2], [0.0; 2], f64::MIN_POSITIVE);
        for bead in beads {
            let (side, heat) = (side_index(bead.side), bead.heat_j_per_mm);
            lone_n[side] = common * tendon::held_force_n(heat, flange, web, case.yield_mpa);
            arm_mm[side] = lateral::arm_mm(web, bead.leg_mm);
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

/// Strain at the junction by unit force there, times E: 1/A + e²/I of flange and web stub, 1/mm².
fn give_per_mm2(case: &Case) -> f64 {
    let j = &case.joint;
    let flange = (j.flange_width_mm, j.flange_mm);
    let plates = Plates { web_mm: j.web_mm, outer_mm: flange, inner_mm: flange };
    let tee = properties(&plates, j.web_stub_mm, 0.0, Parts::WEB.with(Parts::OUTER_FLANGE));
    1.0 / tee.area_mm2 + tee.centroid_mm * tee.centroid_mm / tee.i_z_mm4
}

#[cfg(test)]
mod tests {
    use super::super::case::Layer;
    use super::*;
    use crate::member::Seam;
    use crate::section::{Joint as Tee, Root};
    use crate::shrinkage::joint::{SECOND_SIDE_AT_ONCE, SECOND_SIDE_COLD};
    use crate::welding::Side;

    fn case(layers: &[(Wait, &[Side])]) -> Case {
        let bead = |side: &Side| Bead { side: *side, leg_mm: 6.0, heat_j_per_mm: 600.0, deposit_mm2: 18.0 };
        let layer = |(k, (wait, sides)): (usize, &(Wait, &[Side]))| Layer {
            order: k as u32 + 1,
            wait: *wait,
            beads: sides.iter().map(bead).collect(),
        };
        Case {
            seam: Seam::Inner,
            x_mm: 0.0,
            joint: Tee {
                flange_width_mm: 400.0,
                flange_mm: 12.0,
                web_mm: 8.0,
                web_stub_mm: 150.0,
                near_leg_mm: Some(6.0),
                far_leg_mm: Some(6.0),
                root: Root::Tied,
            },
            layers: layers.iter().enumerate().map(layer).collect(),
            yield_mpa: 355.0,
            start_c: 20.0,
            cautions: vec![],
        }
    }

    #[test]
    fn one_fillet_has_the_force_of_the_tendon_formula() {
        // 600 · 0.75/144 = 3.125 J/mm³: 204 · (1 − 0.365 · 0.75/(1 + (3.125/2.54)^4.77))/(1 + 3.125/134) = 184.6 N per J/mm
        let got = formula(&case(&[(Wait::Cold, &[Side::Near])]), true)[0].force_n;
        assert!((got / (600.0 * 184.6) - 1.0).abs() < 1e-3, "{got}");
        let free = formula(&case(&[(Wait::Cold, &[Side::Near])]), false)[0].force_n;
        // A = 6000 mm², e = 10.2 mm, I = 8.60e6 mm⁴: 1.788e-4 /mm²; 0.245 · (1 + 3.2 · 0.739) = 0.824 mm³/J
        assert!((free / got * (1.0 + 0.824 * 600.0 * 1.788e-4) - 1.0).abs() < 2e-3, "{free} of {got}");
    }

    #[test]
    fn a_second_side_adds_by_its_wait_and_takes_the_tilt_away() {
        let turns = formula(&case(&[(Wait::Cold, &[Side::Near]), (Wait::Cold, &[Side::Far])]), true);
        let k = turns[1].force_n / turns[0].force_n;
        assert!((k - SECOND_SIDE_COLD).abs() < 1e-3, "{k}");
        let warm = formula(&case(&[(Wait::Cold, &[Side::Near]), (Wait::Seconds(20.0), &[Side::Far])]), true);
        let at_once = formula(&case(&[(Wait::Cold, &[Side::Near, Side::Far])]), true);
        assert!(at_once[0].force_n > warm[1].force_n && warm[1].force_n > turns[1].force_n);
        assert!((at_once[0].force_n / turns[0].force_n - SECOND_SIDE_AT_ONCE).abs() < 1e-3);
        assert!(turns[1].tilt_rad.unwrap().abs() < turns[0].tilt_rad.unwrap());
        assert!(at_once[0].tilt_rad.unwrap().abs() < 1e-12 && at_once[0].across_mm.unwrap().abs() < 1e-9);
    }

    #[test]
    fn the_other_side_is_the_mirror_image() {
        let [near, far] =
            [Side::Near, Side::Far].map(|side| formula(&case(&[(Wait::Cold, &[side])]), false)[0]);
        assert!((near.force_n - far.force_n).abs() < 1e-9);
        assert!((near.across_mm.unwrap() + far.across_mm.unwrap()).abs() < 1e-12);
        assert!((near.tilt_rad.unwrap() + far.tilt_rad.unwrap()).abs() < 1e-15);
    }
}
