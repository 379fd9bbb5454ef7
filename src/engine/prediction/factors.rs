//! Multipliers on what the model computes.

use crate::member::Seam;

/// Multipliers on what the model computes, 1 as computed: what a shop's own measurements ask for, or how unsure the
/// model is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Factors {
    /// Shrinkage force of every pass.
    pub force: f64,
    /// Shrinkage force of the passes at the outer seam, beside `force`.
    pub(crate) outer_seam: f64,
    /// Shrinkage force of the passes at the inner seam, beside `force`.
    pub(crate) inner_seam: f64,
    /// What a second side laid later takes back of the sideways moment of the first at the outer seam, beside `force` and `arm`.
    pub(crate) outer_second: f64,
    /// The same at the inner seam.
    pub(crate) inner_second: f64,
    /// Heat that is deduced from a leg; it is in the heat of those passes already.
    pub(crate) heat_from_leg: f64,
    /// How far from the web plane a fillet pulls.
    pub arm: f64,
    /// What welds across the member shrink, made after its seams.
    pub cross_welds: f64,
    /// Cup of the flanges.
    pub cup: f64,
    /// Tilt of the flanges.
    pub tilt: f64,
    /// What fillets on the near side turn, beside `tilt`; in part only where both sides cancel at once
    /// ([`Angles::times`](crate::angular::both_sides::Angles::times)).
    pub(crate) near_tilt: f64,
    /// What fillets on the far side turn, likewise.
    pub(crate) far_tilt: f64,
}

impl Factors {
    /// As computed.
    pub const NONE: Self = Self {
        force: 1.0,
        outer_seam: 1.0,
        inner_seam: 1.0,
        outer_second: 1.0,
        inner_second: 1.0,
        heat_from_leg: 1.0,
        arm: 1.0,
        cross_welds: 1.0,
        cup: 1.0,
        tilt: 1.0,
        near_tilt: 1.0,
        far_tilt: 1.0,
    };

    /// Multiplier on the shrinkage force at a seam.
    pub(crate) const fn of_seam(&self, seam: Seam) -> f64 {
        self.force
            * match seam {
                Seam::Outer => self.outer_seam,
                Seam::Inner => self.inner_seam,
            }
    }

    /// Multiplier on what a second side laid later takes back at a seam.
    pub(crate) const fn of_second(&self, seam: Seam) -> f64 {
        match seam {
            Seam::Outer => self.outer_second,
            Seam::Inner => self.inner_second,
        }
    }

    /// Whether everything is as computed.
    pub fn is_none(&self) -> bool {
        *self == Self::NONE
    }
}
