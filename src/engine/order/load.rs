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

    fn add(self, o: Self) -> Self {
        Self {
            press_min: self.press_min + o.press_min,
            heat_min: self.heat_min + o.heat_min,
            measure_min: self.measure_min + o.measure_min,
            money: self.money + o.money,
            push_places: self.push_places + o.push_places,
            heats: self.heats + o.heats,
            runs: self.runs + o.runs,
            still_out: self.still_out + o.still_out,
            blocked: self.blocked + o.blocked,
        }
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
        Self {
            press_min: by * self.press_min,
            heat_min: by * self.heat_min,
            measure_min: by * self.measure_min,
            money: by * self.money,
            push_places: by * self.push_places,
            heats: by * self.heats,
            runs: by * self.runs,
            still_out: by * self.still_out,
            blocked: by * self.blocked,
        }
    }
}
