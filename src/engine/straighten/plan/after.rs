//! The shape a plan starts from and the one it leaves.

use super::{Plan, Way, Work};
use crate::straighten::decide::Action;
use crate::straighten::flange::Passes;
use crate::straighten::press::{PushFrom, kink_offset_mm};
use crate::straighten::shape::{OutOfStraight, add_bow_of};
use crate::tolerance::Quantity;

impl Plan {
    /// Offsets (mm) a bow is straightened from: as it is, and for camber with what lines of heat on a flange bring.
    pub fn before_mm(&self, shape: &OutOfStraight, quantity: Quantity) -> Vec<f64> {
        if quantity == Quantity::Sweep {
            return shape.sweep_mm.clone();
        }
        let mut camber_mm = shape.camber_mm.clone();
        for (stretch_mm, passes) in self.lines() {
            add_bow_of(&shape.x_mm, &mut camber_mm, stretch_mm, passes.camber_mm);
        }
        camber_mm
    }

    /// Whether lines of heat are drawn on a flange, which bring camber.
    pub(super) fn lined(&self) -> bool {
        self.lines().next().is_some()
    }

    /// Lines of heat, each from–to (mm).
    fn lines(&self) -> impl Iterator<Item = ([f64; 2], &Passes)> {
        self.chosen.iter().flat_map(|c| &c.way.steps).filter_map(|step| match &step.work {
            Work::Lines { from_mm, to_mm, passes, .. } => Some(([*from_mm, *to_mm], passes)),
            _ => None,
        })
    }
}

/// Whether camber that lines of heat have changed is straightened: only what is accepted is not, as what they bring is known to half or
/// double.
pub(crate) fn asks_after_lines(then: Action) -> bool {
    then != Action::Accept
}

impl Way {
    /// Places (mm) and turns (rad) by which it takes a bow away, and the side it is pushed or heated on.
    pub(crate) fn turns(&self) -> Vec<(f64, f64, PushFrom)> {
        let of = |work: &Work| -> Vec<(f64, f64, PushFrom)> {
            match work {
                Work::Push(p) => {
                    p.bent.nominal.lumps.iter().map(|(x, turn)| (*x, *turn, p.layout.from)).collect()
                }
                Work::Heats(h) => h.places.iter().map(|p| (p.x_mm, p.turn_rad(), p.heated)).collect(),
                Work::Fold { .. } | Work::Lines { .. } => Vec::new(),
            }
        };
        self.steps.iter().flat_map(|s| of(&s.work)).collect()
    }

    /// Offsets left (mm) at the stations if everything comes out right, with their sign.
    pub fn after_mm(&self, x_mm: &[f64], before_mm: &[f64]) -> Vec<f64> {
        let (Some(&from), Some(&to)) = (x_mm.first(), x_mm.last()) else { return Vec::new() };
        let length = to - from;
        let turns = self.turns();
        let gone = |x: f64| -> f64 {
            // a ram on the inner or near side turns its place away from that side
            let one = |(c, turn, side): &(f64, f64, PushFrom)| {
                side.sign() * turn * kink_offset_mm(x - from, (c - from).clamp(0.0, length), length)
            };
            turns.iter().map(one).sum()
        };
        x_mm.iter().zip(before_mm).map(|(x, o)| o + gone(*x)).collect()
    }
}
