//! A bow as a whole: offsets and slopes at stations, the cubic between them, and kinks.

use super::integrate::{Bend, hermite, largest, largest_kinked, peaks, raised, roof, substeps};
use crate::member::Span;
use crate::numerics::GAUSS_2;

/// A bow at stations, with its slopes, measured from the chord.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BowShape {
    /// Stations, mm from the start end.
    pub x_mm: Vec<f64>,
    /// Offsets, mm.
    pub offset_mm: Vec<f64>,
    /// Slopes, rad.
    pub slope: Vec<f64>,
    /// Where it turns at once beside all that: place, mm, and angle, rad, + bows it to the + side. Offsets and slopes are without it.
    pub kinks: Vec<(f64, f64)>,
}

impl BowShape {
    /// Integrates a curvature v″(x) (1/mm) over spans, chord-referenced.
    ///
    /// A constant curvature of −1e-6/mm over 8 m bows by κL²/8 = 8 mm:
    /// ```
    /// use weldbow_engine::{bow::BowShape, member::{Plates, Span}};
    /// let plates = Plates { web_mm: 6.0, outer_mm: (200.0, 10.0), inner_mm: (200.0, 10.0) };
    /// let span = Span { from_mm: 0.0, to_mm: 8000.0, plates, depth_from_mm: 600.0, slope: 0.0 };
    /// let shape = BowShape::integrate(&[span], 1000.0, |_, _| -1e-6);
    /// let (bow, at) = shape.largest();
    /// assert!((bow - 8.0).abs() < 1e-9 && (at - 4000.0).abs() < 1e-6);
    /// ```
    pub fn integrate(spans: &[Span], longest_mm: f64, curvature: impl Fn(&Span, f64) -> f64) -> Self {
        let mut bend = Bend::default();
        let mut shape = Self::default();
        shape.push(0.0, bend);
        for (from, to, index) in substeps(spans, longest_mm) {
            let step = to - from;
            bend.step(step, GAUSS_2.map(|(place, _)| curvature(&spans[index], from + place * step)));
            shape.push(to, bend);
        }
        shape.chorded()
    }

    /// As if it were new.
    pub(crate) fn clear(&mut self) {
        self.x_mm.clear();
        self.offset_mm.clear();
        self.slope.clear();
        self.kinks.clear();
    }

    fn push(&mut self, x_mm: f64, bend: Bend) {
        self.x_mm.push(x_mm);
        self.offset_mm.push(bend.offset_mm);
        self.slope.push(bend.slope);
    }

    /// The same shape measured from the line through its ends.
    fn chorded(mut self) -> Self {
        if let (Some(&length), Some(&end)) = (self.x_mm.last(), self.offset_mm.last()) {
            let tilt = if length > 0.0 { end / length } else { 0.0 };
            for ((offset, slope), x) in self.offset_mm.iter_mut().zip(&mut self.slope).zip(&self.x_mm) {
                *offset -= tilt * x;
                *slope -= tilt;
            }
        }
        self
    }

    /// Largest offset of the shape and where it is, mm; see [`largest`] and [`largest_kinked`].
    pub fn largest(&self) -> (f64, f64) {
        let Self { x_mm, offset_mm, slope, kinks } = self;
        if kinks.is_empty() {
            return largest(x_mm, offset_mm, slope);
        }
        largest_kinked(x_mm, offset_mm, slope, |x| self.turned(x), &self.kinks_mm())
    }

    /// Every offset that may be the worst by some measure, mm, and where it is, in turn: at stations and kinks, and where the shape is flat
    /// between them.
    pub fn peaks(&self) -> Vec<(f64, f64)> {
        let mut all = Vec::with_capacity(3 * self.x_mm.len());
        let take = |found| all.push(found);
        peaks(&self.x_mm, &self.offset_mm, &self.slope, |x| self.turned(x), &self.kinks_mm(), take);
        all
    }

    /// Offset at a place, mm: on the cubic through offsets and slopes of the stations beside it, and what kinks add; 0 without stations.
    ///
    /// A parabola of 120 mm, known at its ends alone, with a kink of 1 mrad at a quarter of the length of 24 m:
    /// ```
    /// use weldbow_engine::bow::BowShape;
    /// let (x_mm, offset_mm, slope) = (vec![0.0, 24e3], vec![0.0, 0.0], vec![0.02, -0.02]);
    /// let shape = BowShape { x_mm, offset_mm, slope, kinks: vec![(6e3, 1e-3)] };
    /// assert!((shape.offset_at_mm(6e3) - (90.0 + 4.5)).abs() < 1e-9);
    /// assert!((shape.offset_at_mm(12e3) - (120.0 + 3.0)).abs() < 1e-9);
    /// ```
    pub fn offset_at_mm(&self, x_mm: f64) -> f64 {
        let known = &self.x_mm;
        let above = known.partition_point(|station| *station < x_mm).min(known.len().saturating_sub(1));
        let smooth = match (above.checked_sub(1), known.get(above)) {
            (_, None) => return 0.0,
            (Some(below), Some(station)) if *station > x_mm => {
                let ends = |of: &[f64]| [of[below], of[above]];
                hermite(ends(known), ends(&self.offset_mm), ends(&self.slope), x_mm).0
            }
            _ => self.offset_mm[above],
        };
        if self.kinks.is_empty() { smooth } else { smooth + self.turned(x_mm).0 }
    }

    /// The same with a parabola of that rise (mm) added.
    pub fn raised(mut self, rise_mm: f64) -> Self {
        let length_mm = self.length_mm();
        for ((x, offset), slope) in self.x_mm.iter().zip(&mut self.offset_mm).zip(&mut self.slope) {
            [_, *offset, *slope] = raised([*x, *offset, *slope], rise_mm, length_mm);
        }
        self
    }

    /// Length, mm.
    fn length_mm(&self) -> f64 {
        self.x_mm.last().copied().unwrap_or_default()
    }

    fn kinks_mm(&self) -> Vec<f64> {
        self.kinks.iter().map(|kink| kink.0).collect()
    }

    /// Offset and slope that kinks add at a place, mm and rad.
    fn turned(&self, x_mm: f64) -> (f64, f64) {
        let length_mm = self.length_mm();
        self.kinks.iter().fold((0.0, 0.0), |(offset, slope), kink| {
            let more = roof(*kink, length_mm, x_mm);
            (offset + more.0, slope + more.1)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::member::Plates;

    const PLATES: Plates = Plates { web_mm: 6.0, outer_mm: (200.0, 10.0), inner_mm: (200.0, 10.0) };

    fn span(from_mm: f64, to_mm: f64) -> Span {
        Span { from_mm, to_mm, plates: PLATES, depth_from_mm: 600.0, slope: 0.0 }
    }

    #[test]
    fn a_cubic_offset_is_found_exactly_between_stations() {
        // v = x(L−x)(2L−x) is flat at x = L(1 − 1/√3)
        let length = 3.0;
        let curvature = |_: &Span, x: f64| 6.0 * x - 6.0 * length;
        let (bow, at) = BowShape::integrate(&[span(0.0, length)], 1.0, curvature).largest();
        let want = length * (1.0 - 1.0 / 3.0_f64.sqrt());
        let peak = want * (length - want) * (2.0 * length - want);
        assert!(
            (at - want).abs() < 1e-9 && (bow - peak).abs() < 1e-9,
            "{bow} at {at}, want {peak} at {want}"
        );
    }

    #[test]
    fn cutting_a_span_in_two_changes_nothing() {
        let curvature = |_: &Span, x: f64| 1e-6 * (x / 1000.0).sin();
        let whole = BowShape::integrate(&[span(0.0, 9000.0)], 100.0, curvature).largest();
        let cut = BowShape::integrate(&[span(0.0, 3700.0), span(3700.0, 9000.0)], 100.0, curvature).largest();
        assert!((whole.0 - cut.0).abs() < 1e-7 && (whole.1 - cut.1).abs() < 0.01, "{whole:?} {cut:?}");
    }

    /// By hand: a parabola of −120 mm less one of −122.2 mm leaves 2.2 mm at mid-length, which is no station; a kink θ at a stands out by
    /// θ·a·(L − a)/L.
    #[test]
    fn what_is_left_of_two_parabolas_and_a_kink_is_found_between_stations() {
        let length = 24_000.0;
        let curvature = |_: &Span, _: f64| 8.0 * 122.2 / (length * length);
        let bow = BowShape::integrate(&[span(0.0, length)], length / 3.0, curvature);
        let left = bow.raised(120.0);
        let (most, at) = left.largest();
        assert!((most + 2.2).abs() < 1e-9 && (at - 12_000.0).abs() < 1e-6, "{most} at {at}");
        assert!(left.peaks().iter().any(|(size, x)| (size + 2.2).abs() < 1e-9 && (x - at).abs() < 1e-6));
        let quarter = left.offset_at_mm(6000.0);
        assert!((quarter + 0.75 * 2.2).abs() < 1e-9, "{quarter}");
        let kinked = BowShape { kinks: vec![(6000.0, 2e-3)], ..left };
        let (most, at) = kinked.largest();
        let want = 2e-3 * 6000.0 * 18_000.0 / length - 0.75 * 2.2;
        assert!((most - want).abs() < 1e-9 && (at - 6000.0).abs() < 1e-9, "{most} at {at}, by hand {want}");
    }
}
