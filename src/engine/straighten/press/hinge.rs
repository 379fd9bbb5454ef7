//! The load at which a press folds the member: a plastic hinge, and first yield before it.

use super::span::PressSpan;
use super::stack::LayeredSection;

impl PressSpan {
    /// The section in which a hinge would form.
    pub fn weakest(&self) -> Option<&LayeredSection> {
        let off = |p: &&super::points::Point| (p.x_mm - self.hinge_at_mm).abs();
        let near = self.at.points.iter().min_by(|a, b| off(a).total_cmp(&off(b)))?;
        self.at.stacks.get(near.stack)
    }

    /// Force of each ram at first yield of a stress-free member, N.
    pub fn first_yield_n(&self) -> f64 {
        self.first_yield_n
    }

    /// Force of each ram at which a plastic hinge forms, N.
    pub fn hinge_n(&self) -> f64 {
        self.hinge_n
    }

    pub(super) fn least_force(&self, capacity: impl Fn(&LayeredSection) -> f64) -> f64 {
        let held: Vec<f64> = self.at.stacks.iter().map(capacity).collect();
        self.at
            .points
            .iter()
            .filter(|p| p.moment > 0.0)
            .map(|p| held[p.stack] / p.moment)
            .fold(f64::INFINITY, f64::min)
    }
}
