//! Clear web depth along the member: straight between the points of the profile, with kinks at them.

use crate::numerics::{along, clone_in_place};

/// Depth points (x, depth) in mm, x rising strictly from 0 to L.
#[derive(Debug, PartialEq)]
pub struct Profile {
    points: Vec<(f64, f64)>,
}

clone_in_place! { Profile: points }

impl Profile {
    /// Keeps the points as given; the caller has checked that x rises and every depth is positive.
    pub fn new(points: Vec<(f64, f64)>) -> Self {
        Self { points }
    }

    /// Constant depth over a length, mm.
    pub fn level(length_mm: f64, depth_mm: f64) -> Self {
        Self::new(vec![(0.0, depth_mm), (length_mm, depth_mm)])
    }

    /// The points (x, depth), mm.
    pub fn points(&self) -> &[(f64, f64)] {
        &self.points
    }

    /// The same, to be varied: whoever does keeps x rising and every depth positive.
    pub(crate) fn points_mut(&mut self) -> &mut [(f64, f64)] {
        &mut self.points
    }

    /// Clear depth at x, mm; the end values hold beyond the ends.
    pub fn depth_mm(&self, x_mm: f64) -> f64 {
        along(&self.points, x_mm)
    }

    /// Slope dd/dx just before x (tangent of the inner flange's inclination).
    pub fn slope(&self, x_mm: f64) -> f64 {
        let mut slope = 0.0;
        for pair in self.points.windows(2) {
            slope = (pair[1].1 - pair[0].1) / (pair[1].0 - pair[0].0);
            if x_mm <= pair[1].0 {
                break;
            }
        }
        slope
    }

    /// Largest clear depth, mm.
    pub fn deepest_mm(&self) -> f64 {
        self.points.iter().fold(0.0, |deepest, p| deepest.max(p.1))
    }

    /// Steepest inclination of the inner flange, degrees, without sign.
    pub(crate) fn steepest_deg(&self) -> f64 {
        self.points
            .windows(2)
            .map(|p| ((p[1].1 - p[0].1) / (p[1].0 - p[0].0)).atan().to_degrees().abs())
            .fold(0.0, f64::max)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn depth_runs_straight_between_kinks_and_slope_changes_at_them() {
        let p = Profile::new(vec![(0.0, 400.0), (6000.0, 760.0), (9000.0, 760.0)]);
        assert!((p.depth_mm(3000.0) - 580.0).abs() < 1e-9);
        assert!((p.depth_mm(8000.0) - 760.0).abs() < 1e-9);
        assert!((p.slope(6000.0) - 0.06).abs() < 1e-12, "the piece that ends at the kink counts");
        assert!(p.slope(6000.1).abs() < 1e-12);
        assert!((p.steepest_deg() - 3.4336).abs() < 1e-4);
    }
}
