//! What a weld across the member takes out of its plates: a volume S·t·w, where the plate of thickness t shrinks by S over the
//! length w of the weld.
//!
//! A plate that would shrink by S alone is held by the rest of the section. By Betti's theorem the member shortens and turns there
//! as if the volume V = S·t·w were pressed out of it at y, z: shortening V/A, kink V·(y − y_c)/I_z in its plane and V·z/I_y sideways
//! (derived; exact in beam theory, whatever the spread along x). S is that of a free plate, as far as steel can be stretched
//! that much: [`kept_mm`]. Fillets shrink the plate they lie on as they narrow a flange ([`flange_narrowing_mm`]); a plate that stands on
//! another by its end takes the smaller part of the heat ([`end_mm`]); butts shrink as splices do
//! ([`splice_mm`](super::transverse::splice_mm)).

use super::transverse::flange_narrowing_mm;
use crate::sources::{Constant, Trust, record};

/// Seam left open to each side of a splice made after assembly where the job does not say, mm (common practice, no source).
pub(crate) const OPEN_MM: f64 = 300.0;
/// Scatter of what cross welds shrink from piece to piece, relative: gaps and runs differ. Choice.
pub(crate) const SCATTER: f64 = 0.20;
/// Part of the heat in the through plate, in the joints that the law of narrowing is fitted to
/// (`reference-cases/moving_arc.csv`, mean).
const THROUGH_SHARE: f64 = 0.765;

/// Free shrinkage of a plate t (mm) by `count` fillets of net heat Q (J/mm) and leg z (mm) that lie across it, mm.
///
/// ```
/// use weldbow_engine::shrinkage::cross::through_mm;
/// // both fillets of a stiffener, 800 J/mm, 5 mm, on 8 mm: 2 · 4.5e-5 · 800²/(64 · 5) = 0.18 mm
/// assert!((through_mm(800.0, 8.0, 5.0, 2) - 0.18).abs() < 1e-12);
/// ```
pub fn through_mm(heat_j_per_mm: f64, plate_mm: f64, leg_mm: f64, count: u32) -> f64 {
    f64::from(count) * flange_narrowing_mm(heat_j_per_mm, plate_mm, leg_mm)
}

/// Free shrinkage of a plate t (mm) that stands with its end on one of t_p (mm), by `count` fillets, mm: as [`through_mm`] with the
/// heat that enters it, Q·t/(2·t_p + t), over the share that the law was found with, 0.765 (derived; plates in one flow of heat).
///
/// ```
/// use weldbow_engine::shrinkage::cross::end_mm;
/// // 8 mm flange on a 20 mm plate, two fillets, 1000 J/mm, 6 mm: 8/48 of the heat, 218 J/mm of the law's
/// let heat: f64 = 1000.0 * 8.0 / 48.0 / 0.765;
/// assert!((end_mm(1000.0, 8.0, 20.0, 6.0, 2) - 2.0 * 4.5e-5 * heat * heat / (64.0 * 6.0)).abs() < 1e-12);
/// ```
pub fn end_mm(heat_j_per_mm: f64, plate_mm: f64, onto_mm: f64, leg_mm: f64, count: u32) -> f64 {
    let share = plate_mm / (2.0 * onto_mm + plate_mm) / THROUGH_SHARE;
    through_mm(share * heat_j_per_mm, plate_mm, leg_mm, count)
}

/// What of a free shrinkage (mm) stays in a plate of width w (mm) that the rest of the member holds, mm: at most the stretch at yield
/// of what can stretch, the seam left open to both sides and about the width of the plate, ε_y·(2·open + w) (derived, with
/// Saint-Venant's reach taken as the width; choice).
///
/// ```
/// use weldbow_engine::shrinkage::cross::kept_mm;
/// // 1.5 mm in a 180 mm flange of S355: all of it with 400 mm open to each side, 0.31 mm with the seams closed
/// let yields = 355.0 / 206e3;
/// assert!((kept_mm(1.5, 400.0, 180.0, yields) - 1.5).abs() < 1e-12);
/// assert!((kept_mm(1.5, 0.0, 180.0, yields) - 0.3102).abs() < 1e-4);
/// ```
pub fn kept_mm(free_mm: f64, open_mm: f64, width_mm: f64, yield_strain: f64) -> f64 {
    free_mm.min(yield_strain * (2.0 * open_mm + width_mm))
}

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    record!(OPEN_MM, "mm", "seam left open beside a splice made after assembly")
        .known(Trust::Practice, "shop practice"),
    record!(SCATTER, "", "scatter of cross welds from piece to piece")
        .known(Trust::Choice, "gaps and runs differ")
        .moved_by("cross_weld_each", SCATTER),
    record!(THROUGH_SHARE, "", "part of a fillet's heat in the through plate")
        .known(Trust::OwnCalculation, "mean of the joints in reference-cases/moving_arc.csv"),
];
