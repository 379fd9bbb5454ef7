//! Integration points along a press span, crowded where curvature peaks.
//!
//! Near a plastic hinge the curvature goes like 1/√(distance + a little), so panels shrink toward every ram,
//! jump of section and hinge; four Gauss points a panel.

use super::section::{Material, stack};
use super::{Layout, Stack, WeldStress};
use crate::member::{Member, Span, spans};
use crate::numerics::GAUSS_4;

/// How finely a peak is approached: each panel over the one before it, and their number.
#[derive(Debug, Clone, Copy)]
pub(super) struct Grading {
    pub shrink: f64,
    pub panels: i32,
    /// Widest panel over its stretch: yield may begin inside the wide ones.
    pub widest: f64,
}

impl Grading {
    /// The last panel ends 6·10⁻⁷ of the stretch from the peak.
    pub const FINE: Self = Self { shrink: 0.6, panels: 28, widest: 1.0 / 20.0 };
    /// As near in half as many panels: enough for a range.
    pub const ROUGH: Self = Self { shrink: 0.36, panels: 14, widest: 0.25 };
}

/// Places looked at for the weakest section, per stretch.
const LOOKS: u32 = 24;

/// One integration point.
#[derive(Debug, Clone)]
pub(super) struct Point {
    pub x_mm: f64,
    pub weight_mm: f64,
    /// Index into the stacks.
    pub stack: usize,
    /// Moment of a unit force in every ram, mm.
    pub moment: f64,
    /// Moment of a unit force at the gauge, mm.
    pub gauge: f64,
    /// Mean moment of unit forces at each ram, mm.
    pub ram: f64,
    /// Shear of the rams times that of the gauge over the shear area, 1/mm².
    pub shear: f64,
}

pub(super) struct Points {
    pub stacks: Vec<Stack>,
    pub points: Vec<Point>,
}

/// Member, layout and material, to build points from.
pub(super) struct Build<'a> {
    pub member: &'a Member,
    pub layout: &'a Layout,
    pub steel: Material,
    pub weld: Option<WeldStress>,
    pub grading: Grading,
}

impl Build<'_> {
    fn stack_at(&self, span: &Span, x_mm: f64) -> Stack {
        let (depth, slope) = (span.depth_mm(x_mm), span.slope);
        stack(&span.plates, depth, slope, self.layout.from, self.steel, self.weld)
    }

    /// Stretches between the supports in which nothing jumps.
    fn stretches(&self, hinge_mm: Option<f64>) -> Vec<Span> {
        let [a, b] = self.layout.supports_mm;
        let breaks = [a, b].into_iter().chain(self.layout.rams.places_mm()).chain(hinge_mm);
        spans(self.member, breaks).into_iter().filter(|s| s.middle_mm() > a && s.middle_mm() < b).collect()
    }

    /// Where a hinge forms first: the least plastic moment over bending moment; and whether all is sound there.
    pub fn weakest_mm(&self) -> Result<f64, f64> {
        let mut best = (f64::INFINITY, 0.0);
        for span in self.stretches(None) {
            let ratio = |x: f64| self.stack_at(&span, x).plastic_n_mm / self.layout.moment_of_rams(x);
            let step = span.length_mm() / f64::from(LOOKS);
            for i in 0..=LOOKS {
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
        if best.0.is_finite() { Ok(best.1) } else { Err(self.layout.supports_mm[0]) }
    }

    pub fn points(&self, hinge_mm: f64) -> Points {
        let mut out = Points { stacks: Vec::new(), points: Vec::with_capacity(256) };
        let [a, b] = self.layout.supports_mm;
        for span in self.stretches(Some(hinge_mm)) {
            let level = span.slope.abs() <= 0.0;
            if level {
                out.stacks.push(self.stack_at(&span, span.from_mm));
            }
            let inner = |x: f64| (x - a).abs() > 1e-6 && (x - b).abs() > 1e-6;
            self.add(&mut out, &span, span.from_mm, 0.0);
            for (from, to) in panels(&span, self.grading, inner(span.from_mm), inner(span.to_mm)) {
                for (place, weight) in GAUSS_4 {
                    self.add(&mut out, &span, from + place * (to - from), weight * (to - from));
                }
            }
            self.add(&mut out, &span, span.to_mm, 0.0);
        }
        out
    }

    fn add(&self, out: &mut Points, span: &Span, x_mm: f64, weight_mm: f64) {
        if span.slope.abs() > 0.0 {
            out.stacks.push(self.stack_at(span, x_mm));
        }
        let (layout, rams) = (self.layout, self.layout.rams);
        let gauge = rams.gauge_mm();
        let plates = &span.plates;
        let area = if layout.from.strong() {
            plates.web_mm * span.depth_mm(x_mm)
        } else {
            (plates.outer_mm.0 * plates.outer_mm.1 + plates.inner_mm.0 * plates.inner_mm.1) * 5.0 / 6.0
        };
        out.points.push(Point {
            x_mm,
            weight_mm,
            stack: out.stacks.len() - 1,
            moment: layout.moment_of_rams(x_mm),
            gauge: layout.moment_of_one(x_mm, gauge),
            ram: layout.moment_of_rams(x_mm) / rams.count(),
            shear: layout.shear_of_rams(x_mm) * layout.shear_of_one(x_mm, gauge) / area,
        });
    }
}

/// Panels of a stretch, shrinking toward those of its ends where the curvature may peak.
fn panels(span: &Span, grading: Grading, from_peaks: bool, to_peaks: bool) -> Vec<(f64, f64)> {
    let graded = |peak: f64, far: f64| {
        (0..=grading.panels).map(move |i| {
            let near = if i == grading.panels { 0.0 } else { grading.shrink.powi(i + 1) };
            (peak + (far - peak) * grading.shrink.powi(i), peak + (far - peak) * near)
        })
    };
    let (a, b, middle) = (span.from_mm, span.to_mm, span.middle_mm());
    let mut out: Vec<(f64, f64)> = match (from_peaks, to_peaks) {
        (true, true) => graded(a, middle).chain(graded(b, middle)).collect(),
        (true, false) => graded(a, b).collect(),
        (false, true) => graded(b, a).collect(),
        (false, false) => vec![(a, middle), (middle, b)],
    };
    for panel in &mut out {
        *panel = (panel.0.min(panel.1), panel.0.max(panel.1));
    }
    out.sort_unstable_by(|p, q| p.0.total_cmp(&q.0));
    let widest = grading.widest * (b - a);
    out.into_iter()
        .flat_map(|(from, to)| {
            let parts = ((to - from) / widest).ceil().max(1.0);
            let step = (to - from) / parts;
            (0..parts as u32).map(move |i| (from + f64::from(i) * step, from + f64::from(i + 1) * step))
        })
        .collect()
}

/// Smallest value and its place by golden section.
fn least(f: impl Fn(f64) -> f64, mut low: f64, mut high: f64) -> (f64, f64) {
    const GOLDEN: f64 = 0.618_033_988_749_894_9;
    for _ in 0..40 {
        let (a, b) = (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
        if f(a) < f(b) {
            high = b;
        } else {
            low = a;
        }
    }
    let x = 0.5 * (low + high);
    (f(x), x)
}
