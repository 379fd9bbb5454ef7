//! What is taken to be so before the first piece is measured. The factors have the engine's own bias; what plates and assembly
//! bring is a choice, wide enough that thirty pieces overrule it.

use crate::Kind;
use weldbow_engine::angular::both_sides::TILT_SIGMA;
use weldbow_engine::angular::cup::SIGMA as FOLD_BIAS;
pub use weldbow_engine::prediction::learned::{FACTORS, NAMES};
use weldbow_engine::prediction::uncertainty::{
    ARM_BIAS, FORCE_BIAS, HEAT_FROM_LEG_BIAS, SEAM_BIAS, SEAM_BIAS_BOTH,
};

/// Place of the force.
pub const FORCE: usize = 0;
/// Place of the heat deduced from a leg.
pub(crate) const HEAT: usize = 1;
/// Place of the lateral arm.
pub const ARM: usize = 2;
/// Place of the fold.
pub(crate) const FOLD: usize = 3;
/// Place of the tilt.
pub(crate) const TILT: usize = 4;
/// Place of what both seams welded from both sides share.
pub(crate) const SECOND: usize = 5;

/// Part of the variance of a two-sided seam's own bias that both seams share: half (choice).
const SHARED: f64 = 0.5;

/// Standard deviation of the log of each factor: for a lognormal of relative deviation c it is √ln(1 + c²).
pub fn factor_sd() -> [f64; FACTORS] {
    let shared = SEAM_BIAS_BOTH * SHARED.sqrt();
    [FORCE_BIAS, HEAT_FROM_LEG_BIAS, ARM_BIAS, FOLD_BIAS, TILT_SIGMA, shared]
        .map(|cov: f64| cov.powi(2).ln_1p().sqrt())
}

/// Standard deviation of the log of one seam's own factor, welded from both sides or not; what both share is a factor.
pub(crate) fn own_seam_sd(both: bool) -> f64 {
    if both { SEAM_BIAS_BOTH * (1.0 - SHARED).sqrt() } else { SEAM_BIAS }
}

/// Standard deviation of the mean bow of plates and assembly, mm a metre of member: a tenth of the L/1000 that members are
/// usually held to (choice).
pub(crate) const MEAN_BOW_MM_PER_M: f64 = 0.1;

/// A positive size that is known by its order of magnitude: median and deviation of its log.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Size {
    /// Median.
    pub median: f64,
    /// Standard deviation of the natural log.
    pub log_sd: f64,
}

impl Size {
    /// Its value at a standard normal score.
    pub fn at(self, z: f64) -> f64 {
        self.median * (self.log_sd * z).exp()
    }
}

/// Scatter from piece to piece beside that of welding: plates as delivered, cutting, assembly. mm a metre for bows and
/// shortening, mm for flanges. Choices: the medians are a sixth of usual limits, and a factor of five either way is open.
pub const fn scatter(kind: Kind) -> Size {
    let median = match kind {
        Kind::Camber => 0.15,
        Kind::Sweep => 0.2,
        Kind::Shortening => 0.05,
        Kind::Cup | Kind::Tilt => 0.3,
    };
    Size { median, log_sd: 0.8 }
}

/// How far families lie apart in their bow, mm a metre (choice).
pub(crate) const FAMILIES_APART: Size = Size { median: 0.1, log_sd: 0.8 };
/// How far procedures, or lines, lie apart in their force, relative (choice: a third of the bias of the force).
pub(crate) const FORCES_APART: Size = Size { median: 0.05, log_sd: 0.7 };

/// Share of readings that are not what they seem: misread, knocked, mixed up (choice). Such a reading has a deviation [`ODD_WIDTH`] times as
/// large (a second law beside the normal: Box and Tiao 1968, Biometrika 55, 119; memory) and Student's law of three degrees of freedom, whose
/// tails are heavy: however far off, a slip of the pen widens the scatter of the others by no more than a reading at two deviations (Lange, Little and
/// Taylor 1989, Journal of the American Statistical Association 84, 881; memory).
pub(crate) const ODD_SHARE: f64 = 0.05;
/// How much wider an odd reading is than an ordinary one (choice).
pub(crate) const ODD_WIDTH: f64 = 5.0;
