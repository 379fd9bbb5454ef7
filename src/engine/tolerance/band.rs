//! The allowed band around the wanted size: as much less, as much more.

use super::{Judgement, judge};

/// Allowed deviation to either side, mm, both without sign.
///
/// ```
/// use weldbow_engine::tolerance::{Band, Judgement};
/// let camber = Band { less_mm: 0.0, more_mm: 20.0 };
/// assert_eq!(camber.side_mm(4.0), 20.0);
/// assert_eq!(camber.side_mm(-4.0), 0.0);
/// assert_eq!(camber.judge(8.0, 5.0), Judgement::Within);
/// assert_eq!(camber.judge(3.0, 5.0), Judgement::Near); // 2 mm too little is possible
/// assert_eq!(camber.judge(-6.0, 5.0), Judgement::Out);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// Allowed below the wanted size.
    pub less_mm: f64,
    /// Allowed above it.
    pub more_mm: f64,
}

impl Band {
    /// The same to both sides.
    pub const fn both(mm: f64) -> Self {
        Self { less_mm: mm, more_mm: mm }
    }

    /// What both allow.
    pub(crate) fn common(self, other: Self) -> Self {
        Self { less_mm: self.less_mm.min(other.less_mm), more_mm: self.more_mm.min(other.more_mm) }
    }

    /// Middle of the band: 0 if both sides allow the same, mm.
    pub(crate) fn middle_mm(self) -> f64 {
        0.5 * (self.more_mm - self.less_mm)
    }

    /// Half its width, mm.
    pub(crate) fn half_mm(self) -> f64 {
        0.5 * (self.more_mm + self.less_mm)
    }

    /// The allowed size on the side of a deviation (mm); zero counts as more.
    pub fn side_mm(self, deviation_mm: f64) -> f64 {
        if deviation_mm < 0.0 { self.less_mm } else { self.more_mm }
    }

    /// Judges deviation ± spread (two standard deviations), mm, against both edges of the band.
    ///
    /// A band with equal edges judges as [`judge`] does; an unequal one must not, since a small deviation
    /// to the wide side can still reach over the narrow edge.
    pub fn judge(self, deviation_mm: f64, spread_mm: f64) -> Judgement {
        judge(deviation_mm - self.middle_mm(), spread_mm, self.half_mm())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_equal_band_judges_like_a_plain_limit() {
        for value in [-15.0, -8.0, -3.0, 0.0, 3.0, 8.0, 15.0] {
            assert_eq!(Band::both(9.0).judge(value, 2.0), judge(value, 2.0, 9.0), "at {value} mm");
        }
    }

    #[test]
    fn a_deviation_on_either_edge_is_within() {
        let band = Band { less_mm: 2.0, more_mm: 20.0 };
        for (value, wanted) in [
            (-2.0, Judgement::Within),
            (20.0, Judgement::Within),
            (-2.1, Judgement::Out),
            (20.1, Judgement::Out),
        ] {
            let found = band.judge(value, 0.0);
            assert_eq!(found, wanted, "at {value} mm: {found:?}, not {wanted:?}");
        }
    }
}
