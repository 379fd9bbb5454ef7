//! Where supports and rams stand, and the bending moment of unit forces between them.

use super::{PressError, PushFrom};
use crate::member::Member;
use serde::Serialize;

/// One ram, or two that push alike.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Rams {
    /// At x, mm from the start end.
    One(f64),
    /// At two places, mm, with the same force each.
    Two(f64, f64),
}

impl Rams {
    /// How many.
    pub const fn count(self) -> f64 {
        match self {
            Self::One(_) => 1.0,
            Self::Two(..) => 2.0,
        }
    }

    /// Their places, mm.
    pub fn places_mm(self) -> impl Iterator<Item = f64> + Clone {
        let [first, last] = self.both_mm();
        std::iter::once(first).chain(matches!(self, Self::Two(..)).then_some(last))
    }

    /// First and last ram, mm: the same if there is one.
    pub const fn both_mm(self) -> [f64; 2] {
        match self {
            Self::One(at) => [at, at],
            Self::Two(a, b) => [a, b],
        }
    }

    /// Where the set is measured: at the one ram, or midway between two, mm.
    pub fn gauge_mm(self) -> f64 {
        let [first, last] = self.both_mm();
        0.5 * (first + last)
    }
}

/// A press set up on a member: supports, rams, side.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PressLayout {
    /// The two supports, mm from the start end, on the side opposite to the rams.
    pub supports_mm: [f64; 2],
    /// Ram or rams between them.
    pub rams: Rams,
    /// Side the rams push on.
    pub from: PushFrom,
}

impl PressLayout {
    /// One ram midway between supports `span_mm` apart, at x (mm).
    pub fn centred(at_mm: f64, span_mm: f64, from: PushFrom) -> Self {
        let half = 0.5 * span_mm;
        Self { supports_mm: [at_mm - half, at_mm + half], rams: Rams::One(at_mm), from }
    }

    /// Two rams `apart_mm` apart, midway between supports `span_mm` apart, about x (mm).
    pub fn pair(at_mm: f64, span_mm: f64, apart_mm: f64, from: PushFrom) -> Self {
        let (half, out) = (0.5 * span_mm, 0.5 * apart_mm);
        Self { supports_mm: [at_mm - half, at_mm + half], rams: Rams::Two(at_mm - out, at_mm + out), from }
    }

    /// Distance between the supports, mm.
    pub fn span_mm(&self) -> f64 {
        self.supports_mm[1] - self.supports_mm[0]
    }

    /// Shortest distance from a ram to a support, mm.
    pub fn arm_mm(&self) -> f64 {
        let [a, b] = self.supports_mm;
        self.rams.places_mm().map(|r| (r - a).min(b - r)).fold(f64::INFINITY, f64::min)
    }

    /// Steepest angle (rad, without sign) between the inner flange and the axis under the pads that bear on it: a pad needs a wedge
    /// of it to stand square to its force, and a stop so that it does not slide. Nothing sideways.
    pub(crate) fn wedge_rad(&self, member: &Member) -> f64 {
        let steeper = |most: f64, x: f64| most.max(member.depth.slope(x).atan().abs());
        match self.from {
            PushFrom::Inner => self.rams.places_mm().fold(0.0, steeper),
            PushFrom::Outer => self.supports_mm.into_iter().fold(0.0, steeper),
            PushFrom::Near | PushFrom::Far => 0.0,
        }
    }

    /// Share of one ram's force that the supports carry, each.
    pub(crate) fn reactions(&self) -> [f64; 2] {
        let [a, _] = self.supports_mm;
        let right: f64 = self.rams.places_mm().map(|r| (r - a) / self.span_mm()).sum();
        [self.rams.count() - right, right]
    }

    pub(super) fn checked(&self, length_mm: f64) -> Result<(), PressError> {
        const SLACK: f64 = 1e-6;
        let [from_mm, to_mm] = self.supports_mm;
        if !(from_mm >= -SLACK && to_mm <= length_mm + SLACK && from_mm < to_mm) {
            return Err(PressError::Supports { from_mm, to_mm, length_mm });
        }
        match self.rams.places_mm().find(|r| !(*r > from_mm && *r < to_mm)) {
            Some(at_mm) => Err(PressError::Ram { at_mm, from_mm, to_mm }),
            None => Ok(()),
        }
    }

    /// Moment at x of a unit force at c, mm.
    pub(super) fn moment_of_one(&self, x_mm: f64, c_mm: f64) -> f64 {
        let ([a, b], l) = (self.supports_mm, self.span_mm());
        let moment = if x_mm <= c_mm { (x_mm - a) * (b - c_mm) / l } else { (c_mm - a) * (b - x_mm) / l };
        // at a support rounding may go below nothing
        moment.max(0.0)
    }

    /// Shear at x of a unit force at c.
    pub(super) fn shear_of_one(&self, x_mm: f64, c_mm: f64) -> f64 {
        let ([a, b], l) = (self.supports_mm, self.span_mm());
        if x_mm <= c_mm { (b - c_mm) / l } else { -(c_mm - a) / l }
    }

    /// Moment at x of a unit force in every ram, mm.
    pub(crate) fn moment_of_rams(&self, x_mm: f64) -> f64 {
        self.rams.places_mm().map(|c| self.moment_of_one(x_mm, c)).sum()
    }

    /// Shear at x of a unit force in every ram.
    pub(super) fn shear_of_rams(&self, x_mm: f64) -> f64 {
        self.rams.places_mm().map(|c| self.shear_of_one(x_mm, c)).sum()
    }
}
