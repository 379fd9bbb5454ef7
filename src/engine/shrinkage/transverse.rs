//! Shrinkage across a weld: splices shorten plates, fillets narrow flanges. 1σ about 40 %.

use crate::member::{Preparation, Splice};
use crate::numerics::Number;
use crate::sources::{Constant, Trust, record};

/// Part of the mean weld width that a grooved butt loses (Spraragen and Ettinger, Welding Journal 1950,
/// S = 0.2·A/t + 0.05·d; memory high, formula also seen second-hand).
const GROOVE_AREA_FACTOR: f64 = 0.2;
/// Part of the root gap it loses (same source).
const GROOVE_GAP_FACTOR: f64 = 0.05;
/// Shrinkage of a square butt per heat over thickness, mm·mm/(J/mm): between 1.16e-3 (mean inherent shrinkage,
/// memory) and 2.9e-3 (Capel 1961, memory). Choice.
const SQUARE_MM2_PER_J_MM: f64 = 1.9e-3;
/// Net heat of a two-sided square butt in thin plate per thickness, J/mm per mm (common practice, no source).
pub(crate) const SQUARE_HEAT_PER_THICKNESS: f64 = 180.0;
/// Relative standard deviation of all values of this file (judgement; published forms differ by a factor 4).
pub(crate) const SIGMA: f64 = 0.40;

/// Root face of the V preparations, mm (common practice, no source).
const ROOT_FACE_MM: f64 = 2.0;
/// tan 30°, half of the 60° included angle.
pub(crate) const TAN_HALF_ANGLE: f64 = 0.577_350_269_189_625_8;

/// Groove section, mm², of plate t (mm).
///
/// Single V, 12 mm, gap 2 mm: 2·12 + 10²·tan 30° = 81.7 mm².
///
/// ```
/// use weldbow_engine::{member::Preparation, shrinkage::transverse::groove_mm2};
/// assert!((groove_mm2(Preparation::SingleV, 12.0, 2.0) - 81.7).abs() < 0.1);
/// ```
pub fn groove_mm2(preparation: Preparation, plate_mm: f64, gap_mm: f64) -> f64 {
    let depth = groove_depth_mm(plate_mm);
    let flanks = match preparation {
        Preparation::Square | Preparation::SquareBacked => 0.0,
        Preparation::SingleV => depth * depth * TAN_HALF_ANGLE,
        Preparation::DoubleV => depth * depth * TAN_HALF_ANGLE / 2.0,
    };
    gap_mm * plate_mm + flanks
}

/// Depth of a V in plate t (mm), mm.
///
/// ```
/// assert!((weldbow_engine::shrinkage::transverse::groove_depth_mm(12.0) - 10.0).abs() < 1e-12);
/// ```
pub fn groove_depth_mm(plate_mm: f64) -> f64 {
    (plate_mm - ROOT_FACE_MM).max(0.0)
}

/// Loss of plate length at a splice in plate t (mm), mm. A gap filled over a backing is a groove without flanks: 6 mm wide it loses
/// 0.2·6 + 0.05·6 = 1.5 mm.
///
/// ```
/// use weldbow_engine::{member::{Made, Preparation, Splice}, shrinkage::transverse::splice_mm};
/// let single_v = Splice { preparation: Preparation::SingleV, gap_mm: 2.0, heat_j_per_mm: None, made: Made::Before };
/// // 0.2·81.7/12 + 0.05·2
/// assert!((splice_mm(&single_v, 12.0) - 1.462).abs() < 1e-3);
/// // 1.9e-3·1200/10
/// assert!((splice_mm(&Splice { heat_j_per_mm: Some(1200.0), ..single_v }, 10.0) - 0.228).abs() < 1e-9);
/// ```
pub fn splice_mm(splice: &Splice, plate_mm: f64) -> f64 {
    match (splice.preparation, splice.heat_j_per_mm) {
        (_, Some(heat)) => SQUARE_MM2_PER_J_MM * heat / plate_mm,
        (Preparation::Square, None) => SQUARE_MM2_PER_J_MM * SQUARE_HEAT_PER_THICKNESS,
        (groove, None) => {
            GROOVE_AREA_FACTOR * groove_mm2(groove, plate_mm, splice.gap_mm) / plate_mm
                + GROOVE_GAP_FACTOR * splice.gap_mm
        }
    }
}

/// Factor c of a flange's narrowing, mm⁶/J²: fitted to 19 joints with a moving arc in three dimensions (own script,
/// `reference-cases/moving_arc.py`), rms 12 %, worst 25 %, leaving each out 13 and 26 %; 44 others by slices, in no fit: rms 15 %, worst 35 %.
const NARROWING_MM6_PER_J2: f64 = 4.5e-5;
/// Narrowing over Q/t_f at most, mm²·mm/J: a flange hot through its thickness (section calculation; the table ends at 1.6e-3).
const NARROWING_MOST: f64 = 1.9e-3;

/// Narrowing of a flange t_f (mm) by one fillet of net heat Q (J/mm) and leg z (mm), mm: c·Q²/(t_f²·z), at most 1.9e-3·Q/t_f. All
/// lengths ×k and the heat ×k² make it k times as large.
///
/// ```
/// use weldbow_engine::shrinkage::transverse::flange_narrowing_mm;
/// // 4.5e-5 · 1000²/(100 · 6) = 0.075 mm; in three dimensions 0.073
/// assert!((flange_narrowing_mm(1000.0, 10.0, 6.0) - 0.075).abs() < 1e-12);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn flange_narrowing_mm<N: Number>(heat_j_per_mm: N, flange_mm: N, leg_mm: N) -> N {
    let per_thickness = heat_j_per_mm / flange_mm;
    (per_thickness * NARROWING_MM6_PER_J2 * per_thickness / leg_mm).min(per_thickness * NARROWING_MOST)
}

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    record!(GROOVE_AREA_FACTOR, "", "part of the mean weld width that a grooved butt loses")
        .known(Trust::MemorySure, "Spraragen and Ettinger, Welding Journal 1950: S = 0.2·A/t + 0.05·d"),
    record!(GROOVE_GAP_FACTOR, "", "part of the root gap that it loses")
        .known(Trust::MemorySure, "Spraragen and Ettinger, as above"),
    record!(SQUARE_MM2_PER_J_MM, "mm²/(J/mm)", "shrinkage of a square butt per heat over thickness")
        .known(Trust::Choice, "between 1.16e-3 (mean inherent shrinkage) and 2.9e-3 (Capel 1961)"),
    record!(SQUARE_HEAT_PER_THICKNESS, "J/mm²", "heat of a two-sided square butt per thickness")
        .known(Trust::Practice, "shop practice"),
    record!(SIGMA, "", "relative deviation of crosswise shrinkage")
        .known(Trust::Choice, "published forms differ by a factor of 4")
        .moved_by("cross_weld", SIGMA),
    record!(ROOT_FACE_MM, "mm", "root face of V preparations").known(Trust::Practice, "shop practice"),
    record!(NARROWING_MM6_PER_J2, "mm⁶/J²", "narrowing of a flange")
        .known(Trust::OwnCalculation, "reference-cases/moving_arc.py: 19 joints, rms 12 %"),
    record!(NARROWING_MOST, "mm²/(J/mm)", "most narrowing per heat over thickness")
        .known(Trust::OwnCalculation, "section calculation"),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::member::Made;

    #[test]
    fn a_twelve_millimetre_single_v_loses_about_one_and_a_half_millimetres() {
        let splice = Splice {
            preparation: Preparation::SingleV,
            gap_mm: 2.0,
            heat_j_per_mm: None,
            made: Made::Before,
        };
        let lost = splice_mm(&splice, 12.0);
        assert!((groove_mm2(Preparation::SingleV, 12.0, 2.0) - 81.735).abs() < 1e-3);
        assert!((lost - 1.4623).abs() < 1e-3, "{lost}");
    }

    #[test]
    fn a_double_v_loses_less_than_a_single_v() {
        let lost = |preparation| {
            splice_mm(&Splice { preparation, gap_mm: 2.0, heat_j_per_mm: None, made: Made::Before }, 20.0)
        };
        assert!(lost(Preparation::DoubleV) < lost(Preparation::SingleV));
    }
}
