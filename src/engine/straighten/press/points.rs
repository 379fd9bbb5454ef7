//! Integration points along a press span, crowded where curvature peaks.
//!
//! Near a plastic hinge the curvature goes like 1/√(distance + a little), so panels shrink toward every ram,
//! jump of section and hinge, as far as the moment there comes near to the plastic one; four Gauss points a panel.

use super::section::stack;
use super::{LayeredSection, PressLayout, WeldStress};
use crate::member::{Member, Span, spans};
use crate::numerics::GAUSS_4;

/// How finely a peak is approached: each panel over the one before it, and their number.
#[derive(Debug, Clone, Copy)]
pub(super) struct Grading {
    pub(crate) shrink: f64,
    pub panels: i32,
    /// Widest panel over the length that yields on one side of a hinge: yield may begin inside the wide ones.
    pub widest: f64,
}

impl Grading {
    /// The last panel ends 6·10⁻⁷ of the stretch from the peak.
    pub(crate) const FINE: Self = Self { shrink: 0.36, panels: 14, widest: 0.14 };
    /// As near, in panels nearly twice as wide where the section yields: enough for a range.
    pub(crate) const ROUGH: Self = Self { shrink: 0.36, panels: 14, widest: 0.25 };
}

/// Longest panel at an end that does not hinge, over its distance from a hinge that would.
const SMOOTH: f64 = 0.5;
/// Part of the first yield below which a panel surely stays elastic.
const ELASTIC: f64 = 0.9;

/// One integration point.
#[derive(Debug, Clone)]
pub(super) struct Point {
    pub x_mm: f64,
    pub weight_mm: f64,
    /// Index into the stacks.
    pub(crate) stack: usize,
    /// Moment of a unit force in every ram, mm.
    pub moment: f64,
    /// Moment of a unit force at the gauge, mm.
    pub(crate) gauge: f64,
    /// Moment of a unit force at each ram, mm; twice the same for one ram.
    pub rams: [f64; 2],
    /// Shear of the rams times that of the gauge over the shear area, 1/mm².
    pub shear: f64,
}

pub(super) struct Points {
    pub(crate) stacks: Vec<LayeredSection>,
    pub points: Vec<Point>,
}

/// Member, layout and material, to build points from.
pub(super) struct Build<'a> {
    pub(crate) member: &'a Member,
    pub(crate) layout: &'a PressLayout,
    pub(crate) weld: Option<WeldStress>,
    pub(crate) grading: Grading,
}

impl Build<'_> {
    pub(super) fn stack_at(&self, span: &Span, x_mm: f64) -> LayeredSection {
        let (depth, slope) = (span.depth_mm(x_mm), span.slope);
        stack(&span.plates, depth, slope, self.layout.from, &self.member.steel, self.weld)
    }

    /// Stretches between the supports in which nothing jumps.
    pub(super) fn stretches(&self, hinge_mm: Option<f64>) -> Vec<Span> {
        let [a, b] = self.layout.supports_mm;
        let breaks = [a, b].into_iter().chain(self.layout.rams.places_mm()).chain(hinge_mm);
        spans(self.member, breaks).into_iter().filter(|s| s.middle_mm() > a && s.middle_mm() < b).collect()
    }

    /// Points of every stretch, given where a hinge forms and the load of each ram at which it does.
    pub(crate) fn points(&self, hinge_mm: f64, hinge_n: f64) -> Points {
        let mut out = Points { stacks: Vec::new(), points: Vec::with_capacity(256) };
        for span in self.stretches(Some(hinge_mm)) {
            let level = span.slope.abs() <= 0.0;
            if level {
                out.stacks.push(self.stack_at(&span, span.from_mm));
            }
            let used = Used::of(self, &span, hinge_n);
            self.add(&mut out, &span, span.from_mm, 0.0);
            for (from, to) in panels(&span, self.grading, self.layout.span_mm(), &used) {
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
            rams: rams.both_mm().map(|at| layout.moment_of_one(x_mm, at)),
            shear: layout.shear_of_rams(x_mm) * layout.shear_of_one(x_mm, gauge) / area,
        });
    }
}

/// How far a stretch is used under the load that forms a hinge: bending moment over plastic moment.
struct Used<'a> {
    layout: &'a PressLayout,
    hinge_n: f64,
    /// Plastic moment at both ends and the middle, N·mm: between them all but a parabola in x.
    plastic: [f64; 3],
    span: Span,
    /// Part of the plastic moment from which some of the section yields.
    yields: f64,
}

impl<'a> Used<'a> {
    fn of(build: &Build<'a>, span: &Span, hinge_n: f64) -> Self {
        let stacks = [span.from_mm, span.middle_mm(), span.to_mm].map(|x| build.stack_at(span, x));
        let locked = build.weld.is_some();
        let yields = |s: &LayeredSection| if locked { 0.0 } else { s.first_yield_n_mm / s.plastic_n_mm };
        Self {
            layout: build.layout,
            hinge_n,
            plastic: [0, 1, 2].map(|i| stacks[i].plastic_n_mm),
            span: *span,
            yields: stacks.iter().map(yields).fold(1.0, f64::min),
        }
    }

    fn at(&self, x_mm: f64) -> f64 {
        let s = (x_mm - self.span.from_mm) / self.span.length_mm();
        let [a, m, b] = self.plastic;
        let plastic = a * (1.0 - s) * (1.0 - 2.0 * s) + m * 4.0 * s * (1.0 - s) + b * s * (2.0 * s - 1.0);
        self.hinge_n * self.layout.moment_of_rams(x_mm) / plastic
    }
}

/// Panels of a stretch, shrinking toward an end by as much as it comes near to a hinge: where a part u of the plastic
/// moment is used, curvature is as smooth as (1 − u) of the span away from a hinge.
fn panels(span: &Span, grading: Grading, whole_mm: f64, used: &Used<'_>) -> Vec<(f64, f64)> {
    let (a, b, middle) = (span.from_mm, span.to_mm, span.middle_mm());
    let graded = |peak: f64| {
        let far = middle - peak;
        let smooth = (SMOOTH * (1.0 - used.at(peak)) * whole_mm / far.abs()).max(0.0);
        let last = (0..grading.panels).find(|i| grading.shrink.powi(*i) <= smooth).unwrap_or(grading.panels);
        (0..=last).map(move |i| {
            let near = if i == last { 0.0 } else { grading.shrink.powi(i + 1) };
            (peak + far * grading.shrink.powi(i), peak + far * near)
        })
    };
    let mut out: Vec<(f64, f64)> = graded(a).chain(graded(b)).map(|(p, q)| (p.min(q), p.max(q))).collect();
    out.sort_unstable_by(|p, q| p.0.total_cmp(&q.0));
    let widest = grading.widest * 0.5 * (1.0 - used.yields) * whole_mm;
    out.into_iter()
        .flat_map(|(from, to)| {
            let yields = used.at(from).max(used.at(to)) >= ELASTIC * used.yields;
            let parts = if yields { ((to - from) / widest).ceil().max(1.0) } else { 1.0 };
            let step = (to - from) / parts;
            (0..parts as u32).map(move |i| (from + f64::from(i) * step, from + f64::from(i + 1) * step))
        })
        .collect()
}
