//! Several runs on one side of a joint, each cold before the next: fillets built up, or passes laid again.
//!
//! Each run turns the flange as if it came alone, on the leg that lies there with it: tilts add up. It folds it by a part of what it would alone, as its
//! heat comes in above the run before. An arc that travels in slices, layer upon layer, twice the same heat on legs of 5.7 and 8 mm (own calculation,
//! `cargo bench --bench moving -- runs`, `reference-cases/moving_slices.md`):
//!
//! | flange/web, heat | cup, first and both | ratio, law | tilt, first and both | law |
//! |---|---|---|---|---|
//! | 10/6, 800 J/mm | 11.7, 17.2 mrad | 1.48, 1.41 | 36.2, 75.5 mrad | 35.1, 72.9 |
//! | 12/8, 900 J/mm | 9.3, 13.9 mrad | 1.49, 1.40 | 40.2, 73.5 mrad | 37.5, 73.4 |
//! | 16/8, 900 J/mm | 4.3, 5.6 mrad | 1.29, 1.39 | 41.3, 76.5 mrad | 37.5, 73.4 |
//!
//! A plain section agrees with the cups of four other joints within 7 % (`tests/laws/several_runs.rs`); it adds half of the tilt, and sections are
//! no referee of that. Nothing is measured. That a leg in several runs tilts more than in one is common practice, no source.

use super::both_sides::TILT_SIGMA;
use super::cup::{FoldingHeat, cup_and_lost_rad, sigma_rad};
use super::hold::Hold;
use super::tilt::free_tilt_rad;
use crate::numerics::Number;
use crate::sources::{Constant, Trust, record};

/// Part of what a further run would fold alone that it adds: 0.58, 0.60 and 0.38 in three joints (own calculation,
/// `reference-cases/moving_slices.md`).
const FURTHER_FOLD: f64 = 0.5;

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] =
    &[record!(FURTHER_FOLD, "", "part of its cup that a further run adds")
        .known(Trust::OwnCalculation, "reference-cases/moving_slices.md: three joints of two runs")];

/// One run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Run<N = f64> {
    /// Net heat Q, J/mm.
    pub heat_j_per_mm: N,
    /// Heat parameter, J/mm³.
    pub q_j_per_mm3: N,
    /// Leg that lies there with it, mm.
    pub leg_mm: N,
    /// Thickness of the web with what backs it, mm.
    pub web_mm: N,
    /// Part of its fold that the toe shows, as of a [`Fillet`](super::both_sides::Fillet).
    pub folded: N,
}

/// What the other runs of a side add, with one standard deviation each, rad.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct More<N = f64> {
    /// Cup.
    pub cup_rad: N,
    /// Tilt toward that side.
    pub tilt_rad: N,
    /// Deviation of the cup.
    pub(crate) cup_sigma_rad: N,
    /// Deviation of the tilt.
    pub tilt_sigma_rad: N,
}

/// Beside the run that folds most, what the further ones add. A gap has closed with the first.
///
/// A second 800 J/mm, q 6.15, to a leg of 8 on 6 mm of web would fold by 10.44 mrad, so it adds 5.22; it turns by 38.0·exp(−ln²(800/(17.8·6·8))).
/// ```
/// use weldbow_engine::angular::{hold::Hold, runs::{Run, more}};
/// let run = |leg_mm| Run { heat_j_per_mm: 800.0, q_j_per_mm3: 6.15, leg_mm, web_mm: 6.0, folded: 1.0 };
/// let more = more(&[run(8.0)], &Hold::NOTHING);
/// assert!((more.cup_rad - 5.22e-3).abs() < 5e-5, "{more:?}");
/// assert!((more.tilt_rad - 37.8e-3).abs() < 1e-4, "{more:?}");
/// ```
pub fn more<N: Number>(further: &[Run<N>], hold: &Hold) -> More<N> {
    let fold = |run: &Run<N>| {
        let heat = FoldingHeat::of(run.q_j_per_mm3, run.web_mm, run.leg_mm);
        cup_and_lost_rad(heat).map(|rad| run.folded * FURTHER_FOLD * rad)
    };
    let turn = |run: &Run<N>| run.folded * free_tilt_rad(run.heat_j_per_mm, run.web_mm, run.leg_mm);
    let tilt_rad = N::sum(further.iter().map(turn)) * hold.tilt_part();
    More {
        cup_rad: N::sum(further.iter().map(|run| fold(run)[0])),
        tilt_rad,
        cup_sigma_rad: N::sum(further.iter().map(|run| {
            let [cup, lost] = fold(run);
            sigma_rad(run.q_j_per_mm3, cup, lost)
        })),
        // as of one side alone
        tilt_sigma_rad: tilt_rad * TILT_SIGMA,
    }
}
