//! The web as it must be before welding: the one curve that ordinates, outlines and lengths of its plates are read from.

use super::Job;
use super::cross::CrossWelds;
use super::walk::Walk;
use crate::bow::{BowShape, count_of_substeps};
use crate::numerics::between;

/// Parts of the member between which its edges are taken as straight: a bow lies within 1/65 000 of itself of so many.
const FINE: f64 = 256.0;

/// What the finished web is made from: bow and shrinkage of seams, what plates bring, and welds across.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct WebCurve {
    /// Predicted camber less the one aimed at.
    off: BowShape,
    /// Shrinkage by seams of outer and inner edge from the start to the stations of that, mm.
    seams_mm: Vec<[f64; 2]>,
    cross: CrossWelds,
}

impl WebCurve {
    /// Of a walk and the camber that was read from it.
    pub(super) fn of(job: &Job, march: &Walk, cross: &CrossWelds, camber: &BowShape) -> Self {
        let seams_mm = march.lines.iter().map(|line| [line[0], line[1]]).collect();
        Self { off: job.off_aimed(camber), seams_mm, cross: cross.clone() }
    }

    /// Outer edge to cut at a place on the finished member (mm from its start end), mm from the straight line through its ends, + toward the
    /// inner flange: the camber aimed at ([`Job::aimed_camber_mm`]) less the predicted one. The inner edge lies the clear depth beyond it.
    pub fn outer_mm(&self, x_mm: f64) -> f64 {
        0.0 - self.off.offset_at_mm(x_mm)
    }

    /// Ordinate of the outer edge farthest from zero, with its sign, and where it is, mm; between stations too.
    pub fn largest(&self) -> (f64, f64) {
        let (off_mm, at_mm) = self.off.largest();
        (0.0 - off_mm, at_mm)
    }

    /// Weld shrinkage between two places on the finished member, mm: mean of both edges, of seams and of welds across.
    pub fn shrinkage_mm(&self, from_mm: f64, to_mm: f64) -> f64 {
        if to_mm <= from_mm {
            return 0.0;
        }
        let edge = |line: usize| {
            let so_far = |x| between(&self.off.x_mm, |i| self.seams_mm[i][line], x);
            let seams = so_far(to_mm) - so_far(from_mm);
            if self.cross.is_empty() { seams } else { seams + self.cross.line_mm(line, from_mm, to_mm) }
        };
        0.5 * (edge(0) + edge(1))
    }

    /// Where welds across turn both edges by more than `least_mm` at their own place, mm from the start end, along the member.
    pub fn turns_mm(&self, least_mm: f64) -> impl Iterator<Item = f64> {
        self.cross.welds.iter().filter(move |weld| weld.camber_mm.abs() > least_mm).map(|weld| weld.at_mm)
    }

    /// Places along the member, mm, so close that edges go straight between them; every turn is one.
    pub fn places_mm(&self) -> Vec<f64> {
        let stations = &self.off.x_mm;
        let longest = stations.last().map_or(0.0, |length| length / FINE);
        let parts = |ends: &[f64]| {
            let (from, to) = (ends[0], ends[1]);
            let parts = count_of_substeps(to - from, longest);
            (0..parts as u32).map(move |i| from + (to - from) * f64::from(i) / parts)
        };
        let inside = stations.windows(2).flat_map(parts);
        let turns = self.off.kinks.iter().map(|kink| kink.0);
        let mut all: Vec<f64> = inside.chain(stations.last().copied()).chain(turns).collect();
        all.sort_unstable_by(f64::total_cmp);
        all.dedup();
        all
    }
}
