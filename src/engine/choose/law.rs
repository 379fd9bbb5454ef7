//! The quick law, as drawn pieces correct it.
//!
//! The quick law takes sizes as normal and adds up the chances of missing: where sizes are skewed or hang together, drawn pieces say
//! otherwise. What they say of one candidate is true of its neighbours, too: for each quantity by how much its deviation is larger
//! than taken, and for all how much of the sum is left because the same pieces miss several.

use super::pieces::DrawnChances;
use super::score::{JUDGED, Score};
use statrs::function::erf::{erfc, erfc_inv};
use std::f64::consts::SQRT_2;

/// The law: part of the distance to a limit, in deviations, that is left of each quantity, and of the sum of the chances.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct QuickLaw {
    left: [f64; JUDGED],
    together: f64,
}

/// Bounds of a correction (choice: beyond them one candidate says nothing of another).
const LEFT: (f64, f64) = (0.3, 1.5);

/// Chances below this are none.
const NONE: f64 = 1e-12;

/// Limits nearer than this to the expected size, in deviations, say nothing of the deviation.
const NEAR: f64 = 0.2;

impl QuickLaw {
    /// As it is.
    pub(super) const PLAIN: Self = Self { left: [1.0; JUDGED], together: 1.0 };

    /// Chance to be inside every tolerance.
    pub(super) fn inside(&self, score: &Score) -> f64 {
        (1.0 - self.together * self.missing(score).iter().sum::<f64>()).max(0.0)
    }

    fn missing(&self, score: &Score) -> [f64; JUDGED] {
        let mut out = score.missing;
        for (miss, left) in out.iter_mut().zip(self.left) {
            let plain = (left - 1.0).abs() < 1e-12;
            if !plain && *miss > NONE {
                *miss = beyond(left * deviations(*miss));
            }
        }
        out
    }

    /// What the pieces of a candidate say. The twist is not drawn, and stays as it is.
    pub(crate) fn corrected_by(score: &Score, pieces: &DrawnChances) -> Self {
        let mut law = Self::PLAIN;
        // none of so many is less than one
        let least = 0.5 / (pieces.drawn.max(1) as f64);
        for ((left, taken), drawn) in law.left.iter_mut().zip(score.missing).zip(pieces.out_of) {
            let taken = deviations(taken.max(NONE));
            if taken > NEAR {
                *left = (deviations(drawn.max(least)) / taken).clamp(LEFT.0, LEFT.1);
            }
        }
        let drawn: f64 = pieces.out_of.iter().sum();
        let any = 1.0 - pieces.inside;
        if drawn > 0.0 && any > 0.0 {
            law.together = (any / drawn).min(1.0);
        }
        law
    }
}

/// Deviations beyond which a chance lies.
fn deviations(chance: f64) -> f64 {
    SQRT_2 * erfc_inv(2.0 * chance.clamp(NONE, 1.0 - NONE))
}

/// Chance beyond so many deviations.
fn beyond(deviations: f64) -> f64 {
    0.5 * erfc(deviations / SQRT_2)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::choose::CandidateCost;
    use crate::tolerance::Quantity;
    use std::collections::BTreeMap;

    fn score(missing: [f64; JUDGED]) -> Score {
        let inside = 1.0 - missing.iter().sum::<f64>();
        Score { inside, used: 0.5, camber_mm: 0.0, effort: CandidateCost::default(), missing }
    }

    fn pieces(out_of: [f64; Quantity::ALL.len()], any: f64) -> DrawnChances {
        DrawnChances {
            inside: 1.0 - any,
            standard_error: 0.01,
            drawn: 2000,
            outside: BTreeMap::new(),
            out_of,
        }
    }

    /// Normal tables (any textbook): 2.28 % lies beyond two deviations, 15.87 % beyond one.
    #[test]
    fn the_corrected_law_says_of_the_candidate_what_its_pieces_said() {
        let plain = score([0.0, 0.0, 0.022_75, 0.0, 0.022_75, 0.0, 0.0, 0.0, 0.0]);
        let drawn = pieces([0.0, 0.0, 0.158_66, 0.0, 0.158_66, 0.0, 0.0, 0.0], 0.2);
        let law = QuickLaw::corrected_by(&plain, &drawn);
        let got = law.inside(&plain);
        assert!((got - 0.8).abs() < 1e-4, "{got}, drawn 0.8, taken {}", plain.inside);
        // half of the distance is left: four deviations of a neighbour are two, and half of the sum is missed by the same pieces
        let neighbour = score([0.0, 0.0, 3.167e-5, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0]);
        let (got, want) = (1.0 - law.inside(&neighbour), 0.022_75 * 0.2 / (2.0 * 0.158_66));
        assert!((got - want).abs() < 1e-4, "{got}, wanted {want}");
        assert!((QuickLaw::PLAIN.inside(&plain) - plain.inside).abs() < 1e-15);
    }
}
