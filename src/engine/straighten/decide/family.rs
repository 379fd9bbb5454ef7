//! What the record of a family of pieces says: how many will need it, and whether the process should change first.

use super::Limits;
use serde::Serialize;
use statrs::distribution::{ContinuousCDF, Normal, StudentsT};
use thiserror::Error;

/// From this many pieces on the normal law is used; below, Student's t (choice).
pub(crate) const PLENTY: u32 = 30;
/// Below this C_pk straightening is a regular operation (about 2.3 % out on the worse side; choice: two standard deviations).
const POOR_CPK: f64 = 0.67;
/// Above this C_pk it is an exception (choice: four standard deviations, the usual mark of a capable process).
const GOOD_CPK: f64 = 1.33;
/// Mean over its standard error from which the mean is no accident (choice: 5 % of accidents go beyond).
const REAL_MEAN: f64 = 2.0;

/// Mean and scatter of one quantity over a family: same section, procedure and fixture.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Family {
    /// Mean deviation from the wanted value.
    pub mean: f64,
    /// Standard deviation from piece to piece.
    pub sd: f64,
    /// Pieces behind it; None if mean and deviation are known, not estimated.
    pub pieces: Option<u32>,
}

/// Why a record says nothing.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum FamilyError {
    /// Fewer than two pieces.
    #[error("{pieces} pieces give no scatter; measure at least two")]
    TooFew {
        /// Pieces given.
        pieces: u32,
    },
    /// A mean, scatter or limit that is no number, or no scatter at all.
    #[error("mean {mean}, scatter {sd} and the limits must be numbers, the scatter positive")]
    NoNumber {
        /// Mean.
        mean: f64,
        /// Standard deviation.
        sd: f64,
    },
    /// Limits the wrong way round.
    #[error("limits {lowest} and {highest} leave nothing between them")]
    NoBand {
        /// Lowest allowed.
        lowest: f64,
        /// Highest allowed.
        highest: f64,
    },
}

/// What to do about the process, besides the piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Advice {
    /// The mean is off: pre-camber, preset or another sequence takes it out of every piece.
    CentreProcess,
    /// Centred, but the scatter is too wide: fixture, fit-up gap, tack length, plate flatness.
    NarrowScatter,
    /// Neither: straighten as needed.
    AsNeeded,
    /// So capable that straightening is an exception.
    Exception,
}

/// How a family stands against its limits.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Capability {
    /// Part of the pieces outside the limits.
    pub out: f64,
    /// Part of the pieces acted on: outside the limits less the guard band, as measured.
    pub acted_on: f64,
    /// The same once the mean is brought to the middle of the limits.
    pub acted_on_centred: f64,
    /// C_p = (highest − lowest)/6s.
    pub cp: f64,
    /// C_pk = distance from the mean to the nearer limit over 3s.
    pub cpk: f64,
    /// Half width of the interval that holds the next piece with 95 %: t·s·√(1 + 1/n).
    pub next_piece_95: f64,
    /// Whether the mean differs from the middle of the limits by more than chance: |mean| > 2s/√n.
    pub mean_is_real: bool,
    /// What to do about the process.
    pub advice: Advice,
}

impl Family {
    /// Mean and standard deviation of measured pieces.
    ///
    /// # Errors
    /// [`FamilyError`] for fewer than two pieces, no number, or no scatter.
    pub fn of(measured: &[f64]) -> Result<Self, FamilyError> {
        let pieces = u32::try_from(measured.len()).unwrap_or(u32::MAX);
        if pieces < 2 {
            return Err(FamilyError::TooFew { pieces });
        }
        let n = f64::from(pieces);
        let mean = measured.iter().sum::<f64>() / n;
        let sd = (measured.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / (n - 1.0)).sqrt();
        let family = Self { mean, sd, pieces: Some(pieces) };
        if mean.is_finite() && sd.is_finite() && sd > 0.0 {
            Ok(family)
        } else {
            Err(FamilyError::NoNumber { mean, sd })
        }
    }

    /// How the family stands against limits.
    ///
    /// # Errors
    /// [`FamilyError`] for fewer than two pieces, numbers that are none, or limits the wrong way round.
    ///
    /// Mean 6, scatter 4, limits ±10, measured to 1 mm: 15.9 % are out, 28.4 % acted on, 4.3 % once centred.
    /// ```
    /// use weldbow_engine::straighten::decide::{Family, Limits};
    /// let family = Family { mean: 6.0, sd: 4.0, pieces: None };
    /// let c = family.against(&Limits::both(10.0, 1.0))?;
    /// assert!((c.out - 0.159).abs() < 5e-4 && (c.acted_on - 0.284).abs() < 5e-4);
    /// assert!((c.acted_on_centred - 0.043).abs() < 5e-4);
    /// # Ok::<(), weldbow_engine::straighten::decide::FamilyError>(())
    /// ```
    pub fn against(&self, limits: &Limits) -> Result<Capability, FamilyError> {
        let Self { mean, sd, pieces } = *self;
        let Limits { lowest, highest, measuring_sd } = *limits;
        if pieces.is_some_and(|n| n < 2) {
            return Err(FamilyError::TooFew { pieces: pieces.unwrap_or(0) });
        }
        let numbers = [mean, sd, measuring_sd].iter().all(|number| number.is_finite());
        if !(numbers && sd > 0.0 && measuring_sd >= 0.0) {
            return Err(FamilyError::NoNumber { mean, sd });
        }
        if !(lowest.is_finite() && highest.is_finite() && lowest < highest) {
            return Err(FamilyError::NoBand { lowest, highest });
        }
        let law = Law::of(pieces);
        let seen = sd.hypot(measuring_sd);
        let guard = limits.guard();
        let outside = |mean: f64, sd: f64, g: f64| {
            let sd = sd * law.widening;
            (1.0 - (law.below((highest - g - mean) / sd) - law.below((lowest + g - mean) / sd)))
                .clamp(0.0, 1.0)
        };
        let middle = 0.5 * (lowest + highest);
        let cpk = (highest - mean).min(mean - lowest) / (3.0 * sd);
        let error = pieces.map_or(0.0, |n| sd / f64::from(n).sqrt());
        let mean_is_real = (mean - middle).abs() > REAL_MEAN * error;
        let cp = (highest - lowest) / (6.0 * sd);
        Ok(Capability {
            out: outside(mean, sd, 0.0),
            acted_on: outside(mean, seen, guard),
            acted_on_centred: outside(middle, seen, guard),
            cp,
            cpk,
            next_piece_95: law.point(0.975) * sd * law.widening,
            mean_is_real,
            advice: advice(mean_is_real, cp, cpk),
        })
    }
}

fn advice(mean_is_real: bool, cp: f64, cpk: f64) -> Advice {
    if cpk > GOOD_CPK {
        return Advice::Exception;
    }
    // centring is worth it where the mean is no accident and costs capability
    if mean_is_real && cpk < 0.9 * cp {
        return Advice::CentreProcess;
    }
    if cpk < POOR_CPK { Advice::NarrowScatter } else { Advice::AsNeeded }
}

/// The normal law, or Student's t for few pieces, with √(1 + 1/n) for the mean not being known.
struct Law {
    student: Option<StudentsT>,
    normal: Normal,
    widening: f64,
}

impl Law {
    fn of(pieces: Option<u32>) -> Self {
        let few = pieces.filter(|n| *n < PLENTY);
        let freedom = |n: u32| StudentsT::new(0.0, 1.0, f64::from(n - 1)).ok();
        Self {
            student: few.and_then(freedom),
            normal: Normal::standard(),
            widening: pieces.map_or(1.0, |n| (1.0 + 1.0 / f64::from(n)).sqrt()),
        }
    }

    fn below(&self, z: f64) -> f64 {
        self.student.as_ref().map_or_else(|| self.normal.cdf(z), |t| t.cdf(z))
    }

    fn point(&self, share: f64) -> f64 {
        self.student.as_ref().map_or_else(|| self.normal.inverse_cdf(share), |t| t.inverse_cdf(share))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn few_pieces_promise_less_than_many() {
        let limits = Limits::both(10.0, 1.0);
        let out = |pieces| Family { mean: 0.0, sd: 4.0, pieces }.against(&limits).unwrap().out;
        assert!(
            out(Some(5)) > out(Some(10)) && out(Some(10)) > out(Some(1000)) && out(Some(1000)) > out(None)
        );
    }

    #[test]
    fn the_process_is_centred_before_its_scatter_is_blamed() {
        let advice = |mean, sd| {
            Family { mean, sd, pieces: Some(20) }.against(&Limits::both(10.0, 0.5)).unwrap().advice
        };
        assert_eq!(advice(6.0, 4.0), Advice::CentreProcess);
        assert_eq!(advice(0.5, 6.0), Advice::NarrowScatter);
        assert_eq!(advice(0.5, 4.0), Advice::AsNeeded);
        assert_eq!(advice(0.5, 2.0), Advice::Exception);
    }

    #[test]
    fn a_record_that_says_nothing_is_told_so() {
        assert_eq!(Family::of(&[3.0]), Err(FamilyError::TooFew { pieces: 1 }));
        assert!(matches!(Family::of(&[3.0, 3.0]), Err(FamilyError::NoNumber { .. })));
        assert!(matches!(Family::of(&[3.0, f64::NAN]), Err(FamilyError::NoNumber { .. })));
        let family = Family::of(&[1.0, 2.0, 3.0]).unwrap();
        assert!((family.mean - 2.0).abs() < 1e-12 && (family.sd - 1.0).abs() < 1e-12);
        let wrong = Limits { lowest: 1.0, highest: -1.0, measuring_sd: 0.0 };
        assert!(matches!(family.against(&wrong), Err(FamilyError::NoBand { .. })));
    }
}
