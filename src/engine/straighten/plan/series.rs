//! A series of pushes and what it leaves.

use super::Push;
use crate::straighten::press::{Bent, kink_offset_mm};
use serde::Serialize;

/// Standard deviation of a kink after measuring and correcting, over the kink (choice; the first push alone is known to
/// about 25 %).
pub const CORRECTED_SD: f64 = 0.10;

/// Pushes and what they leave.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Series {
    /// In order of x.
    pub pushes: Vec<Push>,
    /// Offsets left at the stations if every push comes out right, mm, sign of the bow.
    pub left_mm: Vec<f64>,
    /// Largest of them without sign, mm.
    pub largest_left_mm: f64,
    /// One standard deviation of the bow taken away, mm.
    pub left_sd_mm: f64,
}

impl Series {
    /// Pushes against a bow of that peak (mm), and what they leave.
    pub(super) fn of(pushes: Vec<Push>, left_mm: Vec<f64>, peak: f64) -> Self {
        let count = pushes.len().max(1) as f64;
        Self {
            largest_left_mm: left_mm.iter().fold(0.0, |m: f64, v| m.max(v.abs())),
            left_sd_mm: CORRECTED_SD * peak.abs() / count.sqrt(),
            pushes,
            left_mm,
        }
    }
}

/// What pushes leave of a bow (its peak positive) at stations along it, sign of `peak`, mm.
pub(super) fn left<'a>(
    pushes: impl Iterator<Item = &'a Bent> + Clone,
    along: &[f64],
    bow: &[f64],
    length: f64,
    start: f64,
    peak: f64,
) -> Vec<f64> {
    let gone = |x: f64| -> f64 {
        pushes
            .clone()
            .flat_map(|p| &p.lumps)
            .map(|(c, turn)| turn * kink_offset_mm(x, (c - start).clamp(0.0, length), length))
            .sum()
    };
    along.iter().zip(bow).map(|(x, b)| (b - gone(*x)) * peak.signum()).collect()
}
