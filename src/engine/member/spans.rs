//! Stretches of member in which plates, slope and passes do not change: inside them every quantity is
//! smooth in x, so integration between their ends keeps its full order.

use super::{Member, Plates};
use crate::numerics::Number;

/// Two breaks nearer than this are one, mm.
const SAME_BREAK_MM: f64 = 1e-6;

/// One smooth stretch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span<N = f64> {
    /// Start, mm from the start end.
    pub from_mm: N,
    /// End, mm from the start end.
    pub to_mm: N,
    /// Plates present all along it.
    pub plates: Plates<N>,
    /// Clear depth at its start, mm.
    pub depth_from_mm: N,
    /// Slope of the inner flange, dd/dx.
    pub slope: N,
}

impl<N: Number> Span<N> {
    /// Those of several cases side by side.
    #[cfg_attr(wide, inline(always))]
    pub fn of<'a>(each: impl Fn(usize) -> &'a Span) -> Self {
        Self {
            from_mm: N::of(|k| each(k).from_mm),
            to_mm: N::of(|k| each(k).to_mm),
            plates: Plates::of(|k| each(k).plates),
            depth_from_mm: N::of(|k| each(k).depth_from_mm),
            slope: N::of(|k| each(k).slope),
        }
    }

    /// That of one case.
    pub fn nth(&self, index: usize) -> Span {
        Span {
            from_mm: self.from_mm.nth(index),
            to_mm: self.to_mm.nth(index),
            plates: self.plates.nth(index),
            depth_from_mm: self.depth_from_mm.nth(index),
            slope: self.slope.nth(index),
        }
    }

    /// Clear depth at x inside the span, mm.
    #[cfg_attr(wide, inline(always))]
    pub fn depth_mm(&self, x_mm: N) -> N {
        self.depth_from_mm + self.slope * (x_mm - self.from_mm)
    }

    /// Middle, mm from the start end.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn middle_mm(&self) -> N {
        (self.from_mm + self.to_mm) * 0.5
    }

    /// Length along x, mm.
    #[cfg_attr(wide, inline(always))]
    pub fn length_mm(&self) -> N {
        self.to_mm - self.from_mm
    }

    /// Cosine of the inclination of the inner flange.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn cosine(&self) -> N {
        (self.slope * self.slope + 1.0).sqrt().inverse()
    }
}

/// Cuts the member at depth kinks, piece ends and the given extra breaks (pass ends), in order of x.
pub fn spans(member: &Member, extra_mm: impl IntoIterator<Item = f64>) -> Vec<Span> {
    ends_mm(member, extra_mm).windows(2).map(|ends| Span::between(member, ends[0], ends[1])).collect()
}

/// Where those spans end, mm, from the start to the finish of the member.
pub(crate) fn ends_mm(member: &Member, extra_mm: impl IntoIterator<Item = f64>) -> Vec<f64> {
    let mut breaks: Vec<f64> = Vec::with_capacity(16);
    breaks.push(0.0);
    breaks.extend(member.breaks_mm());
    breaks.extend(extra_mm);
    breaks.retain(|x| (0.0..=member.length_mm).contains(x));
    breaks.sort_unstable_by(f64::total_cmp);
    breaks.dedup_by(|b, a| *b - *a < SAME_BREAK_MM);
    breaks
}

impl Span {
    /// The stretch of a member between two breaks that follow each other.
    pub fn between(member: &Member, from_mm: f64, to_mm: f64) -> Self {
        let middle = 0.5 * (from_mm + to_mm);
        let slope = member.depth.slope(middle);
        Self {
            from_mm,
            to_mm,
            plates: member.plates_at(middle),
            depth_from_mm: member.depth.depth_mm(middle) - slope * (middle - from_mm),
            slope,
        }
    }
}

impl Member {
    /// Where something ends that it is made of, mm, in no order.
    pub(crate) fn breaks_mm(&self) -> impl Iterator<Item = f64> {
        let flanges = self.outer_flange.iter().chain(&self.inner_flange);
        let pieces = self.web.iter().map(|p| p.to_mm).chain(flanges.map(|p| p.to_mm));
        [self.length_mm].into_iter().chain(self.depth.points().iter().map(|p| p.0)).chain(pieces)
    }
}
