//! Heat that acts as one pass, and what it would pull alone.

use super::narrow::{self, Narrow, faces_s, kept_longer};
use super::tendon;
use crate::numerics::Number;

/// The plates a fillet joins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Legs<N = f64> {
    /// Flange width, mm.
    pub width_mm: N,
    /// Flange thickness, mm.
    pub flange_mm: N,
    /// Web thickness, mm.
    pub web_mm: N,
    /// Yield strength, MPa.
    pub yield_mpa: N,
    /// Young's modulus, MPa.
    pub e_mpa: N,
}

impl<N: Number> Legs<N> {
    /// Time t* of [`second_side::cooling_time_s`](super::second_side::cooling_time_s) for that heat, s.
    ///
    /// ```
    /// use weldbow_engine::shrinkage::source::Legs;
    /// let legs = Legs { width_mm: 250.0, flange_mm: 12.0, web_mm: 8.0, yield_mpa: 355.0, e_mpa: 206e3 };
    /// assert!((legs.cooling_time_s(1158.0) - 66.1).abs() < 0.1);
    /// ```
    #[cfg_attr(wide, inline(always))]
    pub fn cooling_time_s(&self, heat_j_per_mm: N) -> N {
        let Self { flange_mm, web_mm, yield_mpa, e_mpa, .. } = *self;
        super::second_side::cooling_time_s(heat_j_per_mm, flange_mm, web_mm, yield_mpa, e_mpa)
    }

    /// Time in which that heat leaves the joint, s: by t* along the plates, longer in a narrow flange, and by the faces of the flange side by
    /// side.
    ///
    /// ```
    /// use weldbow_engine::shrinkage::source::Legs;
    /// let legs = Legs { width_mm: 250.0, flange_mm: 12.0, web_mm: 8.0, yield_mpa: 355.0, e_mpa: 206e3 };
    /// // p = 27.1/125: 1/(1/(66.1·1.188) + 1/771)
    /// assert!((legs.warm_time_s(1158.0) - 71.3).abs() < 0.1);
    /// ```
    #[cfg_attr(wide, inline(always))]
    pub fn warm_time_s(&self, heat_j_per_mm: N) -> N {
        let along_s =
            self.cooling_time_s(heat_j_per_mm) * kept_longer(self.width_mm, self.reach_mm(heat_j_per_mm));
        (along_s.inverse() + faces_s(self.flange_mm).inverse()).inverse()
    }

    /// Reach of the plastic zone of that heat, mm.
    #[cfg_attr(wide, inline(always))]
    pub fn reach_mm(&self, heat_j_per_mm: N) -> N {
        let Self { flange_mm, web_mm, yield_mpa, e_mpa, .. } = *self;
        super::second_side::reach_mm(heat_j_per_mm, flange_mm, web_mm, yield_mpa, e_mpa)
    }

    /// That heat as one pass; `stretching_j_per_mm` is the heat that stretches the section meanwhile, at the own and at
    /// the other seam, of which t_w/t_f counts.
    #[cfg_attr(wide, inline(always))]
    pub fn source(&self, heat_j_per_mm: N, stretching_j_per_mm: [N; 2]) -> PlateHeat<N> {
        let reach_mm = self.reach_mm(heat_j_per_mm);
        let suffices = narrow::suffices(self.width_mm, reach_mm);
        let Self { width_mm, flange_mm, web_mm, .. } = *self;
        let share = tendon::flange_share(flange_mm, web_mm);
        let narrow = Narrow::of((width_mm, flange_mm), share, reach_mm, self.yield_mpa / self.e_mpa);
        let [own, other] = stretching_j_per_mm;
        let stretching_j_per_mm = [own, other * web_mm / flange_mm];
        let wide = self.strip(heat_j_per_mm);
        let all_yields = suffices.any(|part| part < 1.0);
        let yielding = if all_yields { self.strip(suffices * heat_j_per_mm) } else { wide };
        PlateHeat { wide, yielding, suffices, narrow, stretching_j_per_mm }
    }

    #[cfg_attr(wide, inline(always))]
    fn strip(&self, heat_j_per_mm: N) -> Strip<N> {
        let Self { flange_mm, web_mm, yield_mpa, .. } = *self;
        Strip {
            held_n: tendon::held_force_n(heat_j_per_mm, flange_mm, web_mm, yield_mpa),
            loss_mm3_per_j: tendon::free_loss(heat_j_per_mm / (flange_mm * flange_mm), yield_mpa),
        }
    }
}

/// A heat in plates without edges.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
struct Strip<N> {
    /// Its force in a section held lengthwise, N.
    held_n: N,
    /// What a free section takes off, over its stretch, mm³/J.
    loss_mm3_per_j: N,
}

impl<N: Number> Strip<N> {
    #[cfg_attr(wide, inline(always))]
    fn free_n(&self, stretch_j_per_mm3: N) -> N {
        self.held_n * tendon::free_factor(self.loss_mm3_per_j, stretch_j_per_mm3)
    }
}

/// Heat that acts as one pass.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PlateHeat<N = f64> {
    /// As on a flange without edges.
    wide: Strip<N>,
    /// As much of it as suffices for all of the flange to yield, and what part that is.
    yielding: Strip<N>,
    suffices: N,
    /// What it pulls more on a flange narrower than its plastic zone.
    narrow: Narrow<N>,
    /// Heat that stretches the section meanwhile at the own and at the other seam, J/mm.
    stretching_j_per_mm: [N; 2],
}

impl<N: Number> PlateHeat<N> {
    /// Its force in a free section, N; `give_per_mm2` is the strain of this seam by unit force along this and along the
    /// other one, times E. A flange that yields right across pulls as hard as it then does, or as one without edges if that is
    /// more.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn lone_n(&self, give_per_mm2: [N; 2]) -> N {
        let [own, other] = self.stretching_j_per_mm;
        let stretch = own * give_per_mm2[0] + other * give_per_mm2[1];
        let wide = self.wide.free_n(stretch);
        if !self.narrow.acts() {
            return wide;
        }
        let stretch = self.suffices * stretch;
        let more = wide.max(self.yielding.free_n(stretch) * self.narrow.factor(stretch));
        self.narrow.acts_here(more, wide)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A flange of 100 mm that yields right across from about 1.5 kJ/mm on.
    const NARROW: Legs =
        Legs { width_mm: 100.0, flange_mm: 8.0, web_mm: 5.0, yield_mpa: 355.0, e_mpa: 206e3 };

    #[test]
    fn once_all_of_a_flange_yields_more_heat_pulls_no_harder_and_never_less() {
        let force = |heat: f64| NARROW.source(heat, [heat; 2]).lone_n([4e-4, -1e-4]);
        let all: Vec<f64> = (1..200).map(|k| force(30.0 * f64::from(k))).collect();
        assert!(all.windows(2).all(|w| w[1] >= w[0] * (1.0 - 1e-12)), "{all:?}");
        let at = (1..200)
            .map(|k| 30.0 * f64::from(k))
            .find(|heat| narrow::suffices(NARROW.width_mm, NARROW.reach_mm(*heat)) < 1.0);
        let full = at.unwrap() + 30.0;
        assert!((force(1.1 * full) / force(full) - 1.0).abs() < 1e-9, "a plateau from {full} J/mm on");
        let wide = Legs { width_mm: 400.0, ..NARROW };
        assert!(force(full) > 1.2 * wide.source(full, [full; 2]).lone_n([4e-4, -1e-4]));
    }
}
