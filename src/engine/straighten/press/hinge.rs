//! Where a press folds the member first: a plastic hinge, where the moment of its rams reaches the plastic moment of the section. Rams that
//! press with F each bend it by F·m(x), so F = M_p(x)/m(x) where that is least; M_p is every layer at yield (`stack`).

use super::points::Build;
use super::span::PressSpan;
use super::stack::LayeredSection;

/// Places looked at for the weakest section, per stretch.
const LOOKS: u32 = 24;

impl Build<'_> {
    /// Where a hinge forms first (mm) and the load of each ram at which it does (N): the least plastic moment over bending
    /// moment; or where the member is not sound.
    pub(super) fn first_hinge(&self) -> Result<(f64, f64), f64> {
        let mut best = (f64::INFINITY, 0.0);
        for span in self.stretches(None) {
            let ratio = |x: f64| self.stack_at(&span, x).plastic_n_mm / self.layout.moment_of_rams(x);
            // between its ends a level stretch bends in a straight line
            let looks = if span.slope.abs() > 0.0 { LOOKS } else { 1 };
            let step = span.length_mm() / f64::from(looks);
            for i in 0..=looks {
                let x = span.from_mm + f64::from(i) * step;
                let found = ratio(x);
                if found.is_nan() || found <= 0.0 {
                    return Err(x);
                }
                // the later of two alike must not win by rounding
                if found < best.0 * (1.0 - 1e-9) {
                    best = (found, x);
                }
            }
            if span.slope.abs() > 0.0 && best.1 >= span.from_mm && best.1 <= span.to_mm {
                let (low, high) = ((best.1 - step).max(span.from_mm), (best.1 + step).min(span.to_mm));
                let (found, x) = least(ratio, low, high);
                if found < best.0 * (1.0 - 1e-12) {
                    best = (found, x);
                }
            }
        }
        if best.0.is_finite() { Ok((best.1, best.0)) } else { Err(self.layout.supports_mm[0]) }
    }
}

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

/// Smallest value and its place by golden section.
fn least(f: impl Fn(f64) -> f64, mut low: f64, mut high: f64) -> (f64, f64) {
    const GOLDEN: f64 = 0.618_033_988_749_894_9;
    let inner = |low: f64, high: f64| (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
    let (mut a, mut b) = inner(low, high);
    let (mut at_a, mut at_b) = (f(a), f(b));
    for _ in 0..40 {
        if at_a < at_b {
            (high, b, at_b) = (b, a, at_a);
            a = inner(low, high).0;
            at_a = f(a);
        } else {
            (low, a, at_a) = (a, b, at_b);
            b = inner(low, high).1;
            at_b = f(b);
        }
    }
    let x = 0.5 * (low + high);
    (f(x), x)
}
