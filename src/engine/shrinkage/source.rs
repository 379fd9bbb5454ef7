//! Heat that acts as one pass, and what it would pull alone.

use super::narrow::{Narrow, faces_s};
use super::tendon;

/// The plates a fillet joins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Legs {
    /// Flange width, mm.
    pub width_mm: f64,
    /// Flange thickness, mm.
    pub flange_mm: f64,
    /// Web thickness, mm.
    pub web_mm: f64,
    /// Yield strength, MPa.
    pub yield_mpa: f64,
    /// Young's modulus, MPa.
    pub e_mpa: f64,
}

impl Legs {
    /// Time t* of [`second_side::cooling_time_s`](super::second_side::cooling_time_s) for that heat, s.
    pub fn cooling_time_s(&self, heat_j_per_mm: f64) -> f64 {
        let Self { flange_mm, web_mm, yield_mpa, e_mpa, .. } = *self;
        super::second_side::cooling_time_s(heat_j_per_mm, flange_mm, web_mm, yield_mpa, e_mpa)
    }

    /// Time in which that heat leaves the joint, s: by t* along the plates and by the faces of the flange side by side.
    pub fn warm_time_s(&self, heat_j_per_mm: f64) -> f64 {
        1.0 / (1.0 / self.cooling_time_s(heat_j_per_mm) + 1.0 / faces_s(self.flange_mm))
    }

    /// Reach of the plastic zone of that heat, mm.
    pub fn reach_mm(&self, heat_j_per_mm: f64) -> f64 {
        let Self { flange_mm, web_mm, yield_mpa, e_mpa, .. } = *self;
        super::second_side::reach_mm(heat_j_per_mm, flange_mm, web_mm, yield_mpa, e_mpa)
    }

    /// That heat as one pass; `stretching_j_per_mm` is the heat that stretches the section meanwhile, at the own and at
    /// the other seam.
    pub fn source(&self, heat_j_per_mm: f64, stretching_j_per_mm: [f64; 2]) -> Source {
        let Self { width_mm, flange_mm, web_mm, yield_mpa, e_mpa } = *self;
        let over_square = heat_j_per_mm / (flange_mm * flange_mm);
        Source {
            held_n: tendon::held_force_n(heat_j_per_mm, flange_mm, web_mm, yield_mpa),
            loss_mm3_per_j: tendon::free_loss(over_square, yield_mpa),
            narrow: Narrow::of(width_mm, flange_mm, self.reach_mm(heat_j_per_mm), yield_mpa / e_mpa),
            stretching_j_per_mm,
        }
    }
}

/// Heat that acts as one pass.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Source {
    /// Its force in a section held lengthwise, N.
    pub held_n: f64,
    /// What a free section takes off, over its stretch, mm³/J.
    pub loss_mm3_per_j: f64,
    /// What it pulls more on a flange narrower than its plastic zone.
    pub narrow: Narrow,
    /// Heat that stretches the section meanwhile at the own and at the other seam, J/mm.
    pub stretching_j_per_mm: [f64; 2],
}

impl Source {
    /// Its force in a free section, N; `give_per_mm2` is the strain of this seam by unit force along this and along the
    /// other one, times E.
    #[inline]
    pub fn lone_n(&self, give_per_mm2: [f64; 2]) -> f64 {
        let [own, other] = self.stretching_j_per_mm;
        let stretch = own * give_per_mm2[0] + other * give_per_mm2[1];
        self.held_n * tendon::free_factor(self.loss_mm3_per_j, stretch) * self.narrow.factor(stretch)
    }
}
