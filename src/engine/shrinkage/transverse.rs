//! Shrinkage across a weld: splices shorten plates, fillets narrow flanges. 1σ about 40 %.

use crate::member::{Preparation, Splice};

/// Part of the mean weld width that a grooved butt loses (Spraragen and Ettinger, Welding Journal 1950,
/// S = 0.2·A/t + 0.05·d; memory high, formula also seen second-hand).
const GROOVE_AREA_FACTOR: f64 = 0.2;
/// Part of the root gap it loses (same source).
const GROOVE_GAP_FACTOR: f64 = 0.05;
/// Shrinkage of a square butt per heat over thickness, mm·mm/(J/mm): between 1.16e-3 (mean inherent shrinkage,
/// memory) and 2.9e-3 (Capel 1961, memory). Choice.
const SQUARE_MM2_PER_J_MM: f64 = 1.9e-3;
/// Net heat of a two-sided square butt in thin plate per thickness, J/mm per mm (common practice, no source).
const SQUARE_HEAT_PER_THICKNESS: f64 = 180.0;
/// Relative standard deviation of all values of this file (judgement; published forms differ by a factor 4).
pub const SIGMA: f64 = 0.40;

/// Root face of the V preparations, mm.
const ROOT_FACE_MM: f64 = 2.0;
/// tan 30°, half of the 60° included angle.
const TAN_HALF_ANGLE: f64 = 0.577_350_269_189_625_8;

/// Groove section, mm², of plate t (mm).
///
/// Single V, 12 mm, gap 2 mm: 2·12 + 10²·tan 30° = 81.7 mm².
pub fn groove_mm2(preparation: Preparation, plate_mm: f64, gap_mm: f64) -> f64 {
    let depth = (plate_mm - ROOT_FACE_MM).max(0.0);
    let flanks = match preparation {
        Preparation::Square => 0.0,
        Preparation::SingleV => depth * depth * TAN_HALF_ANGLE,
        Preparation::DoubleV => depth * depth * TAN_HALF_ANGLE / 2.0,
    };
    gap_mm * plate_mm + flanks
}

/// Loss of plate length at a splice in plate t (mm), mm.
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

/// Narrowing of a flange by one fillet, mm: Q/t·min(1.9e-3, 1.0e-3·(q/5)^0.65), own section calculation.
pub fn flange_narrowing_mm(heat_j_per_mm: f64, flange_mm: f64, q_j_per_mm3: f64) -> f64 {
    heat_j_per_mm / flange_mm * (1.0e-3 * (q_j_per_mm3 / 5.0).powf(0.65)).min(1.9e-3)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_twelve_millimetre_single_v_loses_about_one_and_a_half_millimetres() {
        let splice = Splice { preparation: Preparation::SingleV, gap_mm: 2.0, heat_j_per_mm: None };
        let lost = splice_mm(&splice, 12.0);
        assert!((groove_mm2(Preparation::SingleV, 12.0, 2.0) - 81.735).abs() < 1e-3);
        assert!((lost - 1.4623).abs() < 1e-3, "{lost}");
    }

    #[test]
    fn a_double_v_loses_less_than_a_single_v() {
        let lost = |preparation| splice_mm(&Splice { preparation, gap_mm: 2.0, heat_j_per_mm: None }, 20.0);
        assert!(lost(Preparation::DoubleV) < lost(Preparation::SingleV));
    }
}
