//! What one piece, or many, load on the shop.

use serde::Serialize;
use std::ops::{Add, AddAssign, Mul};

/// Work of straightening. Of one piece, or an expectation over pieces.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize)]
pub struct Load {
    /// Minutes at the press or the rollers.
    pub press_min: f64,
    /// Minutes at the torch, cooling included.
    pub heat_min: f64,
    /// Minutes of measuring again.
    pub measure_min: f64,
    /// Money of the straightening, without rework.
    pub money: f64,
    /// Places pushed.
    pub push_places: f64,
    /// Heats.
    pub heats: f64,
    /// Runs of roller or torch along a flange.
    pub runs: f64,
    /// Pieces still out after it.
    pub still_out: f64,
    /// Pieces that no method mends.
    pub blocked: f64,
}

impl Load {
    /// All minutes.
    pub(crate) fn minutes(&self) -> f64 {
        self.press_min + self.heat_min + self.measure_min
    }

    /// Each number made of those of both.
    fn with(self, other: Self, of: impl Fn(f64, f64) -> f64) -> Self {
        Self {
            press_min: of(self.press_min, other.press_min),
            heat_min: of(self.heat_min, other.heat_min),
            measure_min: of(self.measure_min, other.measure_min),
            money: of(self.money, other.money),
            push_places: of(self.push_places, other.push_places),
            heats: of(self.heats, other.heats),
            runs: of(self.runs, other.runs),
            still_out: of(self.still_out, other.still_out),
            blocked: of(self.blocked, other.blocked),
        }
    }

    /// The work on another quantity of the same piece beside this: a piece is blocked, or still out, once.
    #[must_use]
    pub(super) fn beside(self, other: Self) -> Self {
        let either = |a: f64, b: f64| 1.0 - (1.0 - a) * (1.0 - b);
        let blocked = either(self.blocked, other.blocked);
        Self { blocked, still_out: either(self.still_out, other.still_out), ..self + other }
    }
}

impl Add for Load {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        self.with(other, |a, b| a + b)
    }
}

impl AddAssign for Load {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl Mul<f64> for Load {
    type Output = Self;

    fn mul(self, by: f64) -> Self {
        self.with(self, |a, _| by * a)
    }
}
