//! What a weld across a plate folds it by, where nothing holds it: in a member web and flange hold each other straight, and the fold
//! stays a dip at the weld. An estimate: 1σ about 40 % (`SIGMA`).

use super::cup::{FoldingHeat, cup_rad};
use crate::member::{Preparation, Splice};
use crate::shrinkage::tendon::heat_parameter;
use crate::shrinkage::transverse::{SQUARE_HEAT_PER_THICKNESS, TAN_HALF_ANGLE, groove_depth_mm};
use crate::sources::{Constant, Trust, record};

/// Angle that a groove leaves per (width on the face − width at the root)/t, rad: fitted to "3 to 5° for a 12 mm single V"
/// (a workshop article, second hand; choice).
const GROOVE_FOLD_RAD: f64 = 0.073;

/// Angle that a butt leaves in a plate t (mm) that nothing holds, rad, + closes toward the face. A V: 0.073·(w_face − w_root)/t.
/// Square on a backing: as two fillets fold a flange of its heat over thickness (choice). From both sides: none.
///
/// ```
/// use weldbow_engine::{member::{Made, Preparation, Splice}, angular::cross::groove_fold_rad};
/// let preparation = Preparation::SingleV;
/// let splice = Splice { preparation, gap_mm: 2.0, heat_j_per_mm: None, made: Made::Before };
/// // 12 mm: (2·10·tan 30°)/12 · 0.073 = 0.0702 rad = 4.0°
/// assert!((groove_fold_rad(&splice, 12.0) - 0.0702).abs() < 1e-4);
/// ```
pub fn groove_fold_rad(splice: &Splice, plate_mm: f64) -> f64 {
    match splice.preparation {
        Preparation::SingleV => GROOVE_FOLD_RAD * 2.0 * TAN_HALF_ANGLE * groove_depth_mm(plate_mm) / plate_mm,
        Preparation::SquareBacked => {
            let heat = splice.heat_j_per_mm.unwrap_or(SQUARE_HEAT_PER_THICKNESS * plate_mm);
            // what a plate hot through loses of it is known of fillets alone
            2.0 * cup_rad(FoldingHeat { x_j_per_mm3: heat / (plate_mm * plate_mm), y_j_per_mm3: 0.0 })
        }
        Preparation::Square | Preparation::DoubleV => 0.0,
    }
}

/// Angle by which `count` fillets across a plate t (mm) fold it where nothing holds it, rad, toward the attached plate t_a (mm):
/// twice the cup of each ([`cup_rad`]).
///
/// ```
/// use weldbow_engine::angular::cross::fillet_fold_rad;
/// let one = fillet_fold_rad(800.0, 8.0, 10.0, 5.0, 1);
/// assert!(one > 0.0 && (fillet_fold_rad(800.0, 8.0, 10.0, 5.0, 2) - 2.0 * one).abs() < 1e-15);
/// ```
pub fn fillet_fold_rad(heat_j_per_mm: f64, plate_mm: f64, attached_mm: f64, leg_mm: f64, count: u32) -> f64 {
    f64::from(2 * count)
        * cup_rad(FoldingHeat::of(heat_parameter(heat_j_per_mm, plate_mm, attached_mm), attached_mm, leg_mm))
}

/// Records of the constant above.
pub(crate) const CONSTANTS: &[Constant] = &[record!(GROOVE_FOLD_RAD, "rad", "angle that a groove leaves")
    .known(Trust::SecondHand, "a workshop article: 3 to 5° for a single V in 12 mm")];
