//! A flange bent back about the web line by press or rollers.
//!
//! Per mm of length, a strip of thickness t bent over a zone of width w: M_p = f_y·t²/4, κ_y = 2f_y/(E·t), and the angle that
//! stays is w·κ_y·(μ − 1.5 + 0.5/μ²) (own, from the rectangle's curve).

use crate::numerics::{RootError, root};
use crate::steel::Steel;
use serde::Serialize;
use thiserror::Error;

/// Largest strain at the weld toes, which lie in the bend (our choice: the upper end of the 1.0–1.5 %
/// that shops allow themselves; source not recorded).
pub const STRAIN_LIMIT: f64 = 0.015;
/// Largest κ/κ_y looked at.
const MOST_MU: f64 = 1e4;

/// A flange bent back.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Fold {
    /// Curvature under load over that at first yield.
    pub mu: f64,
    /// Outer strain under load.
    pub strain: f64,
    /// Whether the strain is within `STRAIN_LIMIT`.
    pub allowed: bool,
    /// Force on each flange half per mm of member, N/mm.
    pub line_force_n_per_mm: f64,
    /// Force of a roller or die that bears over the given length, N; rollers add drag: calibrate.
    pub force_n: f64,
}

/// Why a fold cannot be worked out.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum FoldError {
    /// A size that is not positive.
    #[error("angle, thickness, bend width, arm and contact must be positive numbers")]
    NotPositive,
    /// No curvature gives the angle.
    #[error("no bend gives that angle: {0}")]
    NoBend(#[from] RootError),
}

/// The bend that leaves `angle_rad` between both halves of a flange (2·cup), over a zone of width `bend_mm`, pushed at
/// `arm_mm` from the web face over `contact_mm` of length.
///
/// # Errors
/// [`FoldError`] if a size is not positive or the angle is out of reach.
///
/// 10 mm flange of 345 MPa at 80 mm: M_p = 8.63 kN·mm/mm and 108 N/mm.
/// ```
/// use weldbow_engine::{steel::Steel, straighten::flange::fold};
/// let steel = Steel { name: "own".into(), yield_mpa: 345.0, tensile_mpa: 450.0, e_mpa: 200e3 };
/// let f = fold(0.0175, 10.0, 20.0, 80.0, 100.0, &steel)?;
/// assert!((f.line_force_n_per_mm - 107.8).abs() < 0.1);
/// # Ok::<(), weldbow_engine::straighten::flange::FoldError>(())
/// ```
pub fn fold(
    angle_rad: f64,
    flange_mm: f64,
    bend_mm: f64,
    arm_mm: f64,
    contact_mm: f64,
    steel: &Steel,
) -> Result<Fold, FoldError> {
    let sizes = [angle_rad, flange_mm, bend_mm, arm_mm, contact_mm, steel.yield_mpa, steel.e_mpa];
    if !sizes.iter().all(|v| v.is_finite() && *v > 0.0) {
        return Err(FoldError::NotPositive);
    }
    let at_yield = 2.0 * steel.yield_mpa / (steel.e_mpa * flange_mm);
    let stays = |mu: f64| bend_mm * at_yield * (mu - 1.5 + 0.5 / (mu * mu));
    let mu = root(|mu| stays(mu) - angle_rad, 1.0, MOST_MU, 1e-9)?;
    let strain = mu * steel.yield_mpa / steel.e_mpa;
    let line_force_n_per_mm = steel.yield_mpa * flange_mm * flange_mm / 4.0 / arm_mm;
    Ok(Fold {
        mu,
        strain,
        allowed: strain <= STRAIN_LIMIT,
        line_force_n_per_mm,
        force_n: line_force_n_per_mm * contact_mm,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_degree_over_twenty_millimetres_strains_ten_by_half_a_percent_and_the_yield_strain() {
        let steel = Steel { name: "own".into(), yield_mpa: 345.0, tensile_mpa: 450.0, e_mpa: 200e3 };
        let found = fold(0.0175, 10.0, 20.0, 80.0, 100.0, &steel).unwrap();
        // tθ/(2w) and the springback of a nearly plastic rectangle, 1.5 yield strains less 0.5/μ² of one
        let wanted = 10.0 * 0.0175 / 40.0 + 1.5 * 345.0 / 200e3;
        assert!((found.strain - wanted).abs() < 6e-5, "{} against {wanted}", found.strain);
        assert!(found.allowed);
        assert!(!fold(0.06, 10.0, 20.0, 80.0, 100.0, &steel).unwrap().allowed);
        assert_eq!(fold(f64::NAN, 10.0, 20.0, 80.0, 100.0, &steel), Err(FoldError::NotPositive));
    }
}
