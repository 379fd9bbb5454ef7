//! Why numbers describe no spread.

use thiserror::Error;

/// Probability that must remain between the cuts (a choice: further out, an assumed shape says nothing).
pub(crate) const LEAST_LEFT: f64 = 1e-9;

/// One cause each; every message says what was found and what would be right.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum SpreadFault {
    /// NaN or infinite.
    #[error("the {what} is {found}; it must be a finite number")]
    NotFinite {
        /// The parameter.
        what: &'static str,
        /// Its value.
        found: f64,
    },
    /// Standard deviation ≤ 0.
    #[error(
        "the standard deviation is {found}; it must be above 0 (leave the spread out to keep a value fixed)"
    )]
    SdNotPositive {
        /// Its value.
        found: f64,
    },
    /// Coefficient of variation ≤ 0.
    #[error("the coefficient of variation is {found}; it must be above 0, such as 0.15 for 15 %")]
    CovNotPositive {
        /// Its value.
        found: f64,
    },
    /// Median ≤ 0 of a lognormal distribution.
    #[error(
        "the median of a lognormal spread is {found}; it must be above 0 (a normal spread can be negative)"
    )]
    MedianNotPositive {
        /// Its value.
        found: f64,
    },
    /// low ≥ high.
    #[error("low is {low} and high is {high}; low must be less than high")]
    EndsCrossed {
        /// Lower end.
        low: f64,
        /// Upper end.
        high: f64,
    },
    /// Mode of a triangle outside its ends.
    #[error("the mode is {mode}; it must lie between low, {low}, and high, {high}")]
    ModeOutside {
        /// Lower end.
        low: f64,
        /// Mode.
        mode: f64,
        /// Upper end.
        high: f64,
    },
    /// Mean or standard deviation overflow.
    #[error(
        "the spread is so wide that its mean or standard deviation is no finite number; make it narrower"
    )]
    TooWide,
    /// Cut limits in the wrong order.
    #[error("cut off below {low} and above {high}; the lower limit must be less than the upper one")]
    CutsCrossed {
        /// Lower cut.
        low: f64,
        /// Upper cut.
        high: f64,
    },
    /// Almost nothing is left between the cuts.
    #[error(
        "only {left:.1e} of the spread is left between {low} and {high}; the limits must keep at least {:.0e} of it",
        LEAST_LEFT
    )]
    NothingLeft {
        /// Lower cut, or the least possible value.
        low: f64,
        /// Upper cut, or the greatest possible value.
        high: f64,
        /// Probability left.
        left: f64,
    },
}
