//! The four shapes an unsure number can have.

use super::fault::SpreadFault;
use super::normal;

/// How a number spreads before anything is cut off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Distribution {
    /// Bell curve.
    Normal {
        /// Mean.
        mean: f64,
        /// Standard deviation, > 0.
        sd: f64,
    },
    /// A factor that is as likely twice too large as twice too small: its logarithm is normal with standard
    /// deviation s, s² = ln(1 + cov²).
    Lognormal {
        /// Median, > 0.
        median: f64,
        /// Standard deviation over mean, > 0.
        cov: f64,
    },
    /// Anywhere between two ends alike.
    Uniform {
        /// Lower end.
        low: f64,
        /// Upper end.
        high: f64,
    },
    /// Rising from the lower end to the mode, falling to the upper end.
    Triangular {
        /// Lower end.
        low: f64,
        /// Most likely value.
        mode: f64,
        /// Upper end.
        high: f64,
    },
}

use Distribution::{Lognormal, Normal, Triangular, Uniform};

/// On which side of a value a probability lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Tail {
    /// That of less.
    Below,
    /// That of more.
    Above,
}

impl Distribution {
    /// Why these parameters describe no distribution.
    pub(super) fn fault(&self) -> Option<SpreadFault> {
        let bad = self.parameters().into_iter().flatten().find(|(_, value)| !value.is_finite());
        if let Some((what, found)) = bad {
            return Some(SpreadFault::NotFinite { what, found });
        }
        match *self {
            Normal { sd, .. } if sd <= 0.0 => Some(SpreadFault::SdNotPositive { found: sd }),
            Lognormal { median, .. } if median <= 0.0 => {
                Some(SpreadFault::MedianNotPositive { found: median })
            }
            Lognormal { cov, .. } if cov <= 0.0 => Some(SpreadFault::CovNotPositive { found: cov }),
            Uniform { low, high } | Triangular { low, high, .. } if low >= high => {
                Some(SpreadFault::EndsCrossed { low, high })
            }
            Triangular { low, mode, high } if !(low..=high).contains(&mode) => {
                Some(SpreadFault::ModeOutside { low, mode, high })
            }
            _ if !(self.mean().is_finite() && self.sd().is_finite()) => Some(SpreadFault::TooWide),
            _ => None,
        }
    }

    fn parameters(&self) -> [Option<(&'static str, f64)>; 3] {
        match *self {
            Normal { mean, sd } => [Some(("mean", mean)), Some(("standard deviation", sd)), None],
            Lognormal { median, cov } => {
                [Some(("median", median)), Some(("coefficient of variation", cov)), None]
            }
            Uniform { low, high } => [Some(("low", low)), Some(("high", high)), None],
            Triangular { low, mode, high } => {
                [Some(("low", low)), Some(("mode", mode)), Some(("high", high))]
            }
        }
    }

    /// Least and greatest possible value.
    pub(super) fn ends(&self) -> (f64, f64) {
        match *self {
            Normal { .. } => (f64::NEG_INFINITY, f64::INFINITY),
            Lognormal { .. } => (0.0, f64::INFINITY),
            Uniform { low, high } | Triangular { low, high, .. } => (low, high),
        }
    }

    /// Probability of less than x, or of more, without loss of digits where it is small.
    pub(super) fn part(&self, tail: Tail, x: f64) -> f64 {
        let of = |below: f64, above: f64| if tail == Tail::Below { below } else { above };
        match *self {
            Normal { mean, sd } => normal::below(of(x - mean, mean - x) / sd),
            Lognormal { .. } if x <= 0.0 => of(0.0, 1.0),
            Lognormal { median, cov } => normal::below(of(x / median, median / x).ln() / log_sd(cov)),
            Uniform { low, high } => (of(x - low, high - x) / (high - low)).clamp(0.0, 1.0),
            Triangular { low, mode, high } => {
                let x = x.clamp(low, high);
                foot(of(x - low, high - x), of(mode - low, high - mode), high - low)
            }
        }
    }

    /// Turns probabilities into the values that have them below, or above.
    pub(super) fn values(&self, tail: Tail, p: &mut [f64]) {
        let p = p.iter_mut();
        let sign = if tail == Tail::Below { 1.0 } else { -1.0 };
        match *self {
            Normal { mean, sd } => p.for_each(|p| *p = mean + sign * sd * normal::score(*p)),
            Lognormal { median, cov } => {
                let sd = sign * log_sd(cov);
                p.for_each(|p| *p = median * (sd * normal::score(*p)).exp());
            }
            Uniform { low, high } => {
                let from = if tail == Tail::Below { low } else { high };
                p.for_each(|p| *p = from + sign * *p * (high - low));
            }
            Triangular { low, mode, high } => {
                let (from, top) = if tail == Tail::Below { (low, mode - low) } else { (high, high - mode) };
                p.for_each(|p| *p = from + sign * length(*p, top, high - low));
            }
        }
    }

    /// Mean, in closed form.
    pub(super) fn mean(&self) -> f64 {
        match *self {
            Normal { mean, .. } => mean,
            Lognormal { median, cov } => median * 1.0_f64.hypot(cov),
            Uniform { low, high } => 0.5 * low + 0.5 * high,
            Triangular { low, mode, high } => low / 3.0 + mode / 3.0 + high / 3.0,
        }
    }

    /// Standard deviation, in closed form.
    pub(super) fn sd(&self) -> f64 {
        match *self {
            Normal { sd, .. } => sd,
            Lognormal { cov, .. } => cov * self.mean(),
            Uniform { low, high } => (high - low) / 12.0_f64.sqrt(),
            Triangular { low, mode, high } => {
                let (rise, fall) = (mode - low, high - mode);
                ((rise * rise + rise * fall + fall * fall) / 18.0).sqrt()
            }
        }
    }
}

/// Standard deviation of the logarithm of a lognormal number.
pub(super) fn log_sd(cov: f64) -> f64 {
    (cov * cov).ln_1p().sqrt()
}

/// Area of a triangle of height 2/width over the first `length` from one end, its top at `top`.
fn foot(length: f64, top: f64, width: f64) -> f64 {
    if length <= top {
        return if length <= 0.0 { 0.0 } else { length / width * (length / top) };
    }
    let rest = width - length;
    1.0 - rest / width * (rest / (width - top))
}

/// Turns [`foot`] around: the length that has area p.
fn length(p: f64, top: f64, width: f64) -> f64 {
    if p * width <= top {
        (p * width * top).sqrt()
    } else {
        width - ((1.0 - p) * width * (width - top)).sqrt()
    }
}
