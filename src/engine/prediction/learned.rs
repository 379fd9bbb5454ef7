//! What a shop's own measured members say of a job: how far its factors are off, together, and what plates and assembly add.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Factors that are learned: the logs of force, heat from the leg, lateral arm, fold, tilt, and what both seams share that are
/// welded from both sides.
pub const FACTORS: usize = 6;
/// Factors, then the mean bow of plates and assembly in camber and in sweep, mm a metre of member.
pub const UNSURE: usize = FACTORS + 2;

/// What was learned, for one job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Learned {
    /// What it rests on, as in "34 pieces to 2026-05-12".
    pub from: String,
    /// Means: the logs of the factors, then the bows, mm/m.
    pub mean: [f64; UNSURE],
    /// How unsure they are, together.
    pub covariance: [[f64; UNSURE]; UNSURE],
    /// Standard deviations from piece to piece beside that of welding: camber, sweep and shortening in mm/m, cup and tilt of a
    /// flange in mm; 0 for what was never read, which is then as without a record (`Job::plates_sd`).
    pub scatter: [f64; 5],
    /// Whether the bows hold what the seams of this very member are off by.
    pub seams: bool,
}

/// Names of the factors, as the list of unsure inputs has them.
pub const NAMES: [&str; FACTORS] = ["force", "heat_from_leg", "arm", "cup", "tilt", "seam_both_sides"];
/// Places of the factors.
pub(super) mod at {
    pub(crate) const FORCE: usize = 0;
    pub(crate) const HEAT: usize = 1;
    pub(crate) const ARM: usize = 2;
    pub(crate) const FOLD: usize = 3;
    pub(crate) const TILT: usize = 4;
    pub(crate) const SECOND: usize = 5;
}

/// What plates and assembly add to what welding does.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Assembly {
    /// Camber and sweep, mm a metre of member at mid-length, with their signs; the shape is a parabola.
    pub(crate) bow_mm_per_m: [f64; 2],
    /// Shortening, mm a metre.
    pub(crate) shortening_mm_per_m: f64,
    /// Mean of both toes of each flange, mm, + toward the web.
    pub(crate) cup_mm: f64,
    /// Half of near toe less far toe of each flange, mm.
    pub(crate) tilt_mm: f64,
    /// Sweep that the inner flange strip wants less what the outer one wants, mm a metre of member at mid-length, + near.
    pub(crate) apart_mm_per_m: f64,
    /// Waves of the web as delivered, in standard deviations of theirs.
    pub(crate) waves: f64,
}

impl Assembly {
    /// Both together.
    #[must_use]
    pub(crate) fn plus(&self, other: &Self) -> Self {
        let ([camber, sweep], [more_camber, more_sweep]) = (self.bow_mm_per_m, other.bow_mm_per_m);
        Self {
            bow_mm_per_m: [camber + more_camber, sweep + more_sweep],
            shortening_mm_per_m: self.shortening_mm_per_m + other.shortening_mm_per_m,
            cup_mm: self.cup_mm + other.cup_mm,
            tilt_mm: self.tilt_mm + other.tilt_mm,
            apart_mm_per_m: self.apart_mm_per_m + other.apart_mm_per_m,
            waves: self.waves + other.waves,
        }
    }
}

impl Learned {
    /// The logs of the factors.
    pub fn logs(&self) -> [f64; FACTORS] {
        let mut logs = [0.0; FACTORS];
        logs.copy_from_slice(&self.mean[..FACTORS]);
        logs
    }

    /// Variance of a sum of the unsure numbers with these weights.
    pub(crate) fn variance(&self, weights: &[f64; UNSURE]) -> f64 {
        let row = |(w, row): (&f64, &[f64; UNSURE])| -> f64 {
            w * row.iter().zip(weights).map(|(c, w)| c * w).sum::<f64>()
        };
        weights.iter().zip(&self.covariance).map(row).sum::<f64>().max(0.0)
    }

    /// Root of the covariance, lower triangle; a number that others settle adds nothing of its own.
    pub fn root(&self) -> [[f64; UNSURE]; UNSURE] {
        let mut root = [[0.0; UNSURE]; UNSURE];
        for i in 0..UNSURE {
            for j in 0..=i {
                let sum: f64 = (0..j).map(|k| root[i][k] * root[j][k]).sum();
                let rest = self.covariance[i][j] - sum;
                root[i][j] = match (i == j, root[j][j] > 0.0) {
                    (true, _) => rest.max(0.0).sqrt(),
                    (false, true) => rest / root[j][j],
                    (false, false) => 0.0,
                };
            }
        }
        root
    }
}
