//! A fillet's leg, throat, deposit and the heat that goes with it.

use crate::sources::{Constant, Trust, record};
use crate::units::IN_MM;

/// Real fillets carry more metal than the flat triangle z²/2: convexity and oversize. The middle of the
/// shop's 1.10–1.20 (memory).
const OVERSIZE: f64 = 1.15;

/// Root gap above which the leg is made larger by the gap, mm (AWS D1.1, 7.21.1 of 2020, 5.21.1 of 2015, 5.22.1 of 2010:
/// over 1/16 in, 2 mm in its metric edition; second hand).
pub(crate) const GAP_FREE_MM: f64 = 1.6;

/// Part of a leg by which real fillets scatter about it: one that differs by more is another leg (choice).
const OTHER_LEG: f64 = 0.15;

/// The leg rule ω = √(H/500), ω in inches and H in kJ/in (handbook rule for single-electrode submerged arc;
/// memory, form sure): 500 kJ/in³ is 30.512 J/mm³ on z², that is 61.02 J per mm³ of flat fillet.
const LEG_RULE_J_PER_MM3: f64 = 500_000.0 / (IN_MM * IN_MM * IN_MM);

/// Throat a = z/√2 of an equal-legged fillet of leg z, mm (geometry).
///
/// ```
/// // 6 mm leg: 4.24 mm
/// assert!((weldbow_engine::welding::fillet::throat_mm(6.0) - 4.243).abs() < 1e-3);
/// ```
pub fn throat_mm(leg_mm: f64) -> f64 {
    leg_mm / std::f64::consts::SQRT_2
}

/// Leg the shop really lays for a wanted leg z over a root gap g, mm: z up to a gap of `GAP_FREE_MM`, z + g beyond.
///
/// ```
/// use weldbow_engine::welding::fillet::laid_leg_mm;
/// assert_eq!(laid_leg_mm(6.0, 1.0), 6.0);
/// assert_eq!(laid_leg_mm(6.0, 2.0), 8.0);
/// ```
pub fn laid_leg_mm(leg_mm: f64, gap_mm: f64) -> f64 {
    if gap_mm > GAP_FREE_MM { leg_mm + gap_mm } else { leg_mm }
}

/// Leg z that is left to carry of a leg really laid over a root gap g, mm: the way back from [`laid_leg_mm`]. None is left where the gap
/// takes it all.
///
/// ```
/// use weldbow_engine::welding::fillet::leg_left_mm;
/// assert_eq!(leg_left_mm(6.0, 1.0), 6.0);
/// assert_eq!(leg_left_mm(8.0, 2.0), 6.0);
/// assert_eq!(leg_left_mm(4.0, 5.0), 0.0);
/// ```
pub fn leg_left_mm(laid_mm: f64, gap_mm: f64) -> f64 {
    if gap_mm > GAP_FREE_MM { (laid_mm - gap_mm).max(0.0) } else { laid_mm }
}

/// Weld metal of a fillet of leg z over a root gap, mm²: 1.15·z²/2 with the leg that is really laid.
///
/// ```
/// // a 6 mm leg without gap: 1.15 · 36/2
/// assert!((weldbow_engine::welding::fillet::deposit_mm2(6.0, 0.0) - 20.7).abs() < 1e-12);
/// ```
pub fn deposit_mm2(leg_mm: f64, gap_mm: f64) -> f64 {
    let laid = laid_leg_mm(leg_mm, gap_mm);
    OVERSIZE * laid * laid / 2.0
}

/// Leg z = √(2A/1.15) that a deposit A (mm²) fills without a gap, mm.
///
/// ```
/// assert!((weldbow_engine::welding::fillet::leg_of_deposit_mm(20.7) - 6.0).abs() < 1e-12);
/// ```
pub fn leg_of_deposit_mm(deposit_mm2: f64) -> f64 {
    (2.0 * deposit_mm2 / OVERSIZE).sqrt()
}

/// Whether a leg differs from the one wanted, both in mm, by more than real fillets scatter.
pub(crate) fn is_other_leg(leg_mm: f64, wanted_mm: f64) -> bool {
    (leg_mm / wanted_mm - 1.0).abs() > OTHER_LEG
}

/// Arc energy that goes with a leg by the leg rule, J/mm, before arc efficiency.
///
/// ```
/// use weldbow_engine::welding::fillet::leg_rule_gross_heat_j_per_mm;
/// // 1/4 in: 500 · 0.25² = 31.25 kJ/in
/// let kj_per_in = leg_rule_gross_heat_j_per_mm(6.35) * 25.4 / 1000.0;
/// assert!((kj_per_in - 31.25).abs() < 1e-9);
/// ```
pub fn leg_rule_gross_heat_j_per_mm(leg_mm: f64) -> f64 {
    LEG_RULE_J_PER_MM3 * leg_mm * leg_mm
}

/// Heat into the steel that goes with a leg by the leg rule, J/mm: η times the arc energy, η the arc efficiency.
///
/// ```
/// // 0.9 · 30.512 · 36
/// let net = weldbow_engine::welding::fillet::leg_rule_net_heat_j_per_mm(6.0, 0.9);
/// assert!((net - 988.6).abs() < 0.05);
/// ```
pub fn leg_rule_net_heat_j_per_mm(leg_mm: f64, efficiency: f64) -> f64 {
    efficiency * leg_rule_gross_heat_j_per_mm(leg_mm)
}

/// Leg that goes with an arc energy (J/mm, before arc efficiency) by the leg rule, mm.
///
/// ```
/// // √(1098.4/30.512)
/// assert!((weldbow_engine::welding::fillet::leg_of_gross_heat_mm(1098.4) - 6.0).abs() < 1e-3);
/// ```
pub fn leg_of_gross_heat_mm(gross_j_per_mm: f64) -> f64 {
    (gross_j_per_mm / LEG_RULE_J_PER_MM3).sqrt()
}

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    record!(OVERSIZE, "", "metal of a real fillet over the flat triangle")
        .known(Trust::Practice, "shops quote 1.10–1.20; source not recorded"),
    record!(GAP_FREE_MM, "mm", "root gap from which the leg grows by the gap")
        .known(Trust::SecondHand, "AWS D1.1:2020 7.21.1 (1/16 in)"),
    record!(OTHER_LEG, "", "part of a leg from which on another is another leg")
        .known(Trust::Choice, "three times what a leg scatters by"),
    record!(LEG_RULE_J_PER_MM3, "J/mm³", "leg rule, arc energy per leg squared")
        .known(
            Trust::MemoryCheck,
            "handbook rule ω = √(H/500), single-electrode submerged arc; 31 measured beads agree within 2 % in the mean",
        )
        .moved_by("heat_from_leg", 0.23),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn leg_and_deposit_and_heat_go_both_ways() {
        for leg in [3.0, 4.0, 6.35, 8.0, 12.0] {
            assert!((leg_of_deposit_mm(deposit_mm2(leg, 0.0)) - leg).abs() < 1e-12);
            assert!((leg_of_gross_heat_mm(leg_rule_gross_heat_j_per_mm(leg)) - leg).abs() < 1e-12);
        }
    }

    #[test]
    fn only_a_gap_beyond_the_free_one_asks_for_more_metal() {
        assert!((deposit_mm2(6.0, 1.5) - deposit_mm2(6.0, 0.0)).abs() < 1e-12);
        assert!(deposit_mm2(6.0, 2.0) > 1.7 * deposit_mm2(6.0, 0.0));
    }
}
