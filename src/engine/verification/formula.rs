//! What the formula level says of the very same joint: its flange and web stub alone, the same heat, waits and preheat.
//!
//! The member's prediction differs from it where the rest of the section matters: a larger section frees less, and another
//! seam may have left stress in this one. Both sides here leave that out.

use super::case::{Case, CaseFillet, Layer};
use super::result::LayerNumbers;
use crate::angular::both_sides::{Fillet, JointFillets, WebFoot, angles, narrowing_together_mm};
use crate::angular::hold::Hold;
use crate::member::{Parts, Plates, properties};
use crate::shrinkage::fillets::{self, COLD_S, Timeline, after_s};
use crate::shrinkage::second_side::Junction;
use crate::shrinkage::source::Legs;
use crate::shrinkage::transverse::flange_narrowing_mm;
use crate::shrinkage::{lateral_arm, tendon};
use crate::steel::E_MPA;

/// Force, its place, cup, tilt and narrowing after each layer, all laid so far together. `held` leaves out the loss of a
/// section that is free to shorten and bend while hot.
pub fn formula(case: &Case, held: bool) -> Vec<LayerNumbers> {
    formula_so(case, held, HeldSo::FREE)
}

/// What keeps a joint square, and the gap at its root, for its tilt.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeldSo {
    /// Tacks, rolls, held until cold.
    pub hold: Hold,
    /// Root gap, mm.
    pub gap_mm: f64,
}

impl HeldSo {
    /// In one piece, by nothing.
    pub const FREE: Self = Self { hold: Hold::NOTHING, gap_mm: 0.0 };
}

/// [`formula`] of a joint that something keeps square.
pub fn formula_so(case: &Case, held: bool, so: HeldSo) -> Vec<LayerNumbers> {
    let mut sum = Sum::default();
    case.layers.iter().map(|layer| sum.lay(case, layer, held, so)).collect()
}

/// What the joint holds so far.
#[derive(Default)]
struct Sum {
    now_s: f64,
    begun: bool,
    timeline: Timeline,
    joint: Junction,
    force_n: f64,
    moment_n_mm: f64,
    narrowing_mm: f64,
    /// Bead and shop clock of near and far side.
    laid: [Option<(CaseFillet, f64)>; 2],
}

impl Sum {
    fn lay(&mut self, case: &Case, layer: &Layer, held: bool, so: HeldSo) -> LayerNumbers {
        if self.begun {
            self.now_s = after_s(self.now_s, layer.wait);
        }
        self.begun = true;
        for bead in &layer.beads {
            self.laid[bead.side as usize] = Some((*bead, self.now_s));
        }
        self.pull(case, &layer.beads, held);
        let [cup_rad, tilt_rad, together_mm] = self.angles(case, so);
        LayerNumbers {
            force_n: self.force_n,
            across_mm: (self.force_n > 0.0).then(|| self.moment_n_mm / self.force_n),
            up_mm: Some(0.0),
            cup_rad: Some(cup_rad),
            tilt_rad: Some(tilt_rad),
            narrowing_mm: Some(self.narrowing_mm + together_mm),
        }
    }

    /// Adds the force and moment of one layer, and what it narrows the flange by.
    fn pull(&mut self, case: &Case, beads: &[CaseFillet], held: bool) {
        let legs = legs(case);
        let mut laid = [None; 2];
        for bead in beads {
            laid[bead.side as usize] = Some(fillets::Bead {
                side: bead.side,
                heat_j_per_mm: bead.heat_j_per_mm,
                welded_fraction: 1.0,
                deposit_mm2: bead.deposit_mm2,
                arm_mm: lateral_arm::arm_mm(legs.web_mm, bead.leg_mm, bead.heat_j_per_mm, case.yield_mpa),
                times: 1.0,
            });
            self.narrowing_mm += flange_narrowing_mm(bead.heat_j_per_mm, legs.flange_mm, bead.leg_mm);
        }
        // no other seam is near
        let fillets = self.timeline.meet(&legs, &laid, self.now_s, |_, _| 0.0);
        let give = [if held { 0.0 } else { give_per_mm2(case) }, 0.0];
        let available_mm2 =
            case.joint.flange_width_mm * legs.flange_mm + case.joint.web_stub_mm * legs.web_mm;
        let warmth = tendon::warmth_factor(case.start_c - 20.0);
        let added = self.joint.lay(&fillets.laid(give, warmth, available_mm2, case.yield_mpa));
        self.force_n += added.force_n;
        self.moment_n_mm += added.moment_n_mm;
    }

    /// Cup and tilt of what is laid so far, and what both sides narrow the flange by together.
    fn angles(&self, case: &Case, HeldSo { hold, gap_mm }: HeldSo) -> [f64; 3] {
        let (flange, web) = (case.joint.flange_mm, case.joint.web_mm);
        let fillet = |laid: Option<(CaseFillet, f64)>| {
            laid.map(|(bead, _)| Fillet {
                heat_j_per_mm: bead.heat_j_per_mm,
                q_j_per_mm3: tendon::heat_parameter(bead.heat_j_per_mm, flange, web),
                leg_mm: bead.leg_mm,
                welded_fraction: 1.0,
                folded: 1.0,
            })
        };
        let [near, far] = self.laid;
        let wait = near.zip(far).map_or(0.0, |(near, far)| far.1 - near.1);
        let strongest = self.laid.iter().flatten().map(|(b, _)| b.heat_j_per_mm).fold(0.0, f64::max);
        let cooling = legs(case).cooling_time_s(strongest);
        let lag = if wait.abs() >= COLD_S { f64::INFINITY } else { wait.abs() / cooling };
        let joint = JointFillets { near: fillet(near), far: fillet(far), near_first: wait >= 0.0, lag };
        let foot = WebFoot { thickness_mm: web, gap_mm, hold };
        let angles = angles(&joint, &foot);
        [angles.cup_rad, angles.tilt_rad, narrowing_together_mm(&joint, flange)]
    }
}

/// Its plates.
const fn legs(case: &Case) -> Legs {
    let crate::joint_solver::Joint { flange_width_mm: width_mm, flange_mm, web_mm, .. } = case.joint;
    Legs { width_mm, flange_mm, web_mm, yield_mpa: case.yield_mpa, e_mpa: E_MPA }
}

/// Strain at the junction by unit force there, times E: 1/A + e²/I of flange and web stub, 1/mm².
fn give_per_mm2(case: &Case) -> f64 {
    let j = &case.joint;
    let flange = (j.flange_width_mm, j.flange_mm);
    let plates = Plates { web_mm: j.web_mm, outer_mm: flange, inner_mm: flange };
    properties(&plates, j.web_stub_mm, 0.0, Parts::WEB.with(Parts::OUTER_FLANGE)).give_per_mm2(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::joint_solver::Joint as Tee;
    use crate::member::Seam;
    use crate::shrinkage::second_side::second_side_cold;
    use crate::welding::{Side, Wait};

    fn case(layers: &[(Wait, &[Side])]) -> Case {
        let bead = |side: &Side| CaseFillet {
            side: *side,
            leg_mm: 6.0,
            heat_j_per_mm: 600.0,
            deposit_mm2: 18.0,
            travel_speed_mm_s: 12.0,
        };
        let layer = |(k, (wait, sides)): (usize, &(Wait, &[Side]))| Layer {
            order: k as u32 + 1,
            wait: *wait,
            beads: sides.iter().map(bead).collect(),
        };
        Case {
            seam: Seam::Inner,
            x_mm: 0.0,
            joint: Tee { flange_width_mm: 400.0, ..Tee::USUAL },
            layers: layers.iter().enumerate().map(layer).collect(),
            yield_mpa: 355.0,
            start_c: 20.0,
            cautions: vec![],
        }
    }

    #[test]
    fn one_fillet_has_the_force_of_the_tendon_formula() {
        // 600/144 = 4.167, 600/64 = 9.375 J/mm³: 207·0.75·(1 − 0.365/(1 + (4.167/3.72)⁴)) + 235·0.25·(1 − 0.365/(1 + (9.375/4.65)⁴)),
        // over 1 + 3.125/78.5: 183.5 N per J/mm
        let got = formula(&case(&[(Wait::Cold, &[Side::Near])]), true)[0].force_n;
        assert!((got / (600.0 * 183.5) - 1.0).abs() < 1e-3, "{got}");
        let free = formula(&case(&[(Wait::Cold, &[Side::Near])]), false)[0].force_n;
        // A = 6000 mm², e = 10.2 mm, I = 8.60e6 mm⁴: 1.788e-4 /mm²; 1.77/(1 + 4.167/3.53) = 0.812 mm³/J
        assert!((free / got * (1.0 + 0.812 * 600.0 * 1.788e-4) - 1.0).abs() < 2e-3, "{free} of {got}");
    }

    #[test]
    fn a_second_side_adds_by_its_wait_and_takes_the_tilt_away() {
        let turns = formula(&case(&[(Wait::Cold, &[Side::Near]), (Wait::Cold, &[Side::Far])]), true);
        let k = turns[1].force_n / turns[0].force_n;
        let [one, twice] = [600.0, 1200.0].map(|heat| tendon::held_force_n(heat, 12.0, 8.0, 355.0));
        let cold = second_side_cold(legs(&case(&[])).reach_mm(600.0) / 8.0);
        assert!((k - cold).abs() < 1e-3, "{k}");
        let warm = formula(&case(&[(Wait::Cold, &[Side::Near]), (Wait::Seconds(20.0), &[Side::Far])]), true);
        let at_once = formula(&case(&[(Wait::Cold, &[Side::Near, Side::Far])]), true);
        assert!(at_once[0].force_n > warm[1].force_n && warm[1].force_n > turns[1].force_n);
        assert!((at_once[0].force_n / turns[0].force_n - twice / one).abs() < 1e-9);
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
