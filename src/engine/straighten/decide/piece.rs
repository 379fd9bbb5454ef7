//! One measured piece against its limit.

use serde::Serialize;

/// Guard band over the standard measuring uncertainty for a risk of 5 % of passing a bad piece at the limit: the one-sided 95 %
/// point of the normal law (frame: JCGM 106:2012).
const GUARD: f64 = 1.645;

/// Limits of one quantity, mm or rad, and how well it is measured.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Limits {
    /// Lowest allowed.
    pub lowest: f64,
    /// Highest allowed.
    pub highest: f64,
    /// Standard uncertainty of the measurement.
    pub measuring_sd: f64,
}

impl Limits {
    /// No limit at all.
    pub const NONE: Self = Self { lowest: f64::NEG_INFINITY, highest: f64::INFINITY, measuring_sd: 0.0 };

    /// Whether anything is limited.
    pub fn is_some(&self) -> bool {
        self.lowest.is_finite() && self.highest.is_finite()
    }

    /// The same about its middle: unequal limits of a bow follow the bow, so at s = x/L they are
    /// the middle times 4s(1 − s), give or take half their width (choice; exact at mid-length, ± at the ends).
    ///
    /// ```
    /// use weldbow_engine::straighten::decide::Limits;
    /// let camber = Limits { lowest: 0.0, highest: 20.0, measuring_sd: 1.0 };
    /// assert!((camber.middle(0.5) - 10.0).abs() < 1e-12 && camber.middle(0.0).abs() < 1e-12);
    /// ```
    pub fn middle(&self, s: f64) -> f64 {
        let middle = 0.5 * (self.lowest + self.highest);
        // without limits there is no middle
        if middle.is_finite() { middle * 4.0 * s * (1.0 - s) } else { 0.0 }
    }

    /// ± the same tolerance.
    pub const fn both(tolerance: f64, measuring_sd: f64) -> Self {
        Self { lowest: -tolerance, highest: tolerance, measuring_sd }
    }

    /// Guard band 1.645·u on each side.
    pub fn guard(&self) -> f64 {
        GUARD * self.measuring_sd
    }
}

/// What to do with a piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Action {
    /// Inside the limit less the guard band.
    Accept,
    /// So near the limit that the measurement decides: cool, turn over, measure by a second method.
    MeasureAgain,
    /// Measured twice and still near the limit, or acceptable by function: the engineer's word.
    AskEngineer,
    /// Outside by more than the measurement can explain.
    Straighten,
}

/// A measured value and how often it was measured independently.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct MeasuredValue {
    /// Mean of the measurements, mm or rad.
    pub value: f64,
    /// How many independent measurements.
    pub measurements: u32,
}

impl MeasuredValue {
    /// Accept, measure again, ask, or straighten.
    ///
    /// Limits ±10 mm and u = 1 mm: 8 mm is accepted, 9 mm measured again, 12 mm straightened.
    /// ```
    /// use weldbow_engine::straighten::decide::{Action, Limits, MeasuredValue};
    /// let limits = Limits::both(10.0, 1.0);
    /// let once = |value| MeasuredValue { value, measurements: 1 }.action(&limits);
    /// assert_eq!([once(8.0), once(9.0), once(-12.0)], [Action::Accept, Action::MeasureAgain, Action::Straighten]);
    /// ```
    pub fn action(&self, limits: &Limits) -> Action {
        let over = (self.value - limits.highest).max(limits.lowest - self.value);
        // a value that is no number is not accepted
        if over <= -limits.guard() {
            return Action::Accept;
        }
        if over > limits.guard() {
            return Action::Straighten;
        }
        if self.measurements < 2 { Action::MeasureAgain } else { Action::AskEngineer }
    }
}

/// Distance from the middle of the limits beyond which a piece is no longer accepted, mm: half their width less the guard band.
/// Unequal limits of a bow lie about their [middle](Limits::middle), so −0/+20 mm act as far from it as ±10 mm from nothing.
///
/// T = ±10, u = 1: 10 − 1.645 = 8.36 mm; −0/+20 likewise, so from 18.36 mm upward and from 1.65 mm downward.
/// ```
/// use weldbow_engine::straighten::decide::{Limits, reaction_mm};
/// assert!((reaction_mm(&Limits::both(10.0, 1.0)) - 8.355).abs() < 1e-9);
/// let camber = Limits { lowest: 0.0, highest: 20.0, measuring_sd: 1.0 };
/// assert!((reaction_mm(&camber) - 8.355).abs() < 1e-9);
/// ```
pub fn reaction_mm(limits: &Limits) -> f64 {
    (0.5 * (limits.highest - limits.lowest) - limits.guard()).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_piece_still_near_its_limit_after_two_measurements_is_the_engineers() {
        let limits = Limits::both(10.0, 1.0);
        for value in [9.0, 10.0, 11.0, -9.5] {
            let found = MeasuredValue { value, measurements: 2 }.action(&limits);
            assert_eq!(found, Action::AskEngineer, "at {value}");
        }
    }

    #[test]
    fn unequal_limits_are_judged_each_on_its_side() {
        let limits = Limits { lowest: 0.0, highest: 20.0, measuring_sd: 0.5 };
        let once = |value| MeasuredValue { value, measurements: 1 }.action(&limits);
        assert_eq!([once(-2.0), once(0.3), once(15.0), once(22.0)].map(|a| a as u8), [3, 1, 0, 3]);
    }

    #[test]
    fn a_piece_is_accepted_as_far_from_the_middle_of_its_limits_as_is_said() {
        for (lowest, highest) in [(-10.0, 10.0), (0.0, 20.0), (-3.0, 12.0)] {
            let limits = Limits { lowest, highest, measuring_sd: 0.5 };
            let (middle, from) = (0.5 * (lowest + highest), reaction_mm(&limits));
            for side in [-1.0, 1.0] {
                let at = |away: f64| {
                    let value = middle + side * away;
                    MeasuredValue { value, measurements: 1 }.action(&limits)
                };
                let found = [at(from - 0.01), at(from + 0.01)];
                assert_eq!(found, [Action::Accept, Action::MeasureAgain], "{lowest}/{highest}: {from} mm");
            }
        }
    }
}
