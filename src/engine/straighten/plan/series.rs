//! A series of pushes and what it leaves.

use super::Push;
use crate::numerics::{between, largest};
use crate::straighten::press::{Bent, PushFrom, kink_offset_mm};
use serde::Serialize;

/// Standard deviation of a kink after up to three pushes with their readings, over the kink: `tests/laws/push_log.rs` finds 0.04 to 0.08 with
/// a true yield of 0.9 to 1.35 of the given one, seams with and without stress and gauges a few per cent off; the larger end
/// (computed; no measurement).
pub const CORRECTED_SD: f64 = 0.08;
/// Part of the places that end above the band in which work stops, of the same trials, rounded up: 0.008 of 2256, 0.012 of the worst
/// span (computed).
pub const OVERSHOT: f64 = 0.02;

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

/// Stations, offsets and length that a bow is taken away over, mm.
#[derive(Debug, Clone)]
pub(super) struct Bow<'a> {
    /// Stations from the first one.
    pub along_mm: Vec<f64>,
    /// Offsets with their sign.
    pub offset_mm: &'a [f64],
    /// First station from the start end.
    pub start_mm: f64,
    /// From the first to the last station: kinks act between them.
    pub length_mm: f64,
}

impl<'a> Bow<'a> {
    pub(super) fn new(x_mm: &[f64], offset_mm: &'a [f64]) -> Self {
        let start_mm = x_mm.first().copied().unwrap_or(0.0);
        Self {
            along_mm: x_mm.iter().map(|x| x - start_mm).collect(),
            offset_mm,
            start_mm,
            length_mm: x_mm.last().copied().unwrap_or(0.0) - start_mm,
        }
    }

    /// Largest offset with its sign, mm.
    pub(crate) fn peak_mm(&self) -> f64 {
        largest(self.offset_mm.iter().copied())
    }

    /// Offset at a place from the first station, mm, straight between stations.
    pub(crate) fn at_mm(&self, along: f64) -> f64 {
        between(&self.along_mm, |i| self.offset_mm[i], along)
    }

    /// What kinks leave at the stations, mm with sign: (place from the start end, angle, + takes positive offsets away).
    pub(crate) fn left_mm(&self, kinks: impl Iterator<Item = (f64, f64)> + Clone) -> Vec<f64> {
        let gone = |x: f64| -> f64 {
            let one = |(c, turn): (f64, f64)| {
                turn * kink_offset_mm(x, (c - self.start_mm).clamp(0.0, self.length_mm), self.length_mm)
            };
            kinks.clone().map(one).sum()
        };
        self.along_mm.iter().zip(self.offset_mm).map(|(x, o)| o - gone(*x)).collect()
    }
}

/// Kinks of pushes: a ram on the inner or near side takes positive offsets away.
pub(super) fn kinks_of<'b>(
    pushes: impl Iterator<Item = (&'b Bent, PushFrom)> + Clone,
) -> impl Iterator<Item = (f64, f64)> + Clone {
    pushes.flat_map(|(bent, from)| bent.lumps.iter().map(move |(c, turn)| (*c, -from.sign() * turn)))
}
