//! The fold of a flange at one fillet: its half on the weld side rises by φ, so the cup, the mean of both halves, is φ/2.
//!
//! κ = K·(1 − exp(−(x/x₀)^n)), x = q·√(t_w/z), q = Q_f/t_f² from
//! [`heat_parameter`](crate::shrinkage::tendon::heat_parameter). A shallow weld shrinks one face of a thick flange; the more heat,
//! the more of the thickness shrinks and the farther it folds, until all of it does. A thick web at a small fillet
//! backs the fold, up to the most that the table has, t_w/z = 1.5: beyond it (4 mm fillets on an 8 mm web, `studies/referee/5-fold.toml`) the section
//! has 8–19 % less than the law so held, and 20–45 % less than one that went on.
//!
//! K, x₀ and n are fitted to 19 one-sided joints with a moving arc in three dimensions (own script, `reference-cases/moving_arc.py`;
//! flange 6–16, web 4–8, leg 4–6 mm, 400–2000 J/mm, 6–20 mm/s, x 2–12 J/mm³, brought to 600 mm of length): rms 5 %, worst 11 %,
//! leaving each out 6 and 12 %. The section held only until the weld is solid agrees within 15 %; sections held
//! longer, on which an earlier law rested, fall off beyond q 8 and a moving arc does not. All lengths ×k and the heat ×k² leave it
//! as it is. Yield strength is left out: 235 MPa gave a fifth more than 355 in three dimensions, a sixth less in two.
//! No measured member was available. `studies/referee/5-fold.toml` sets the section beside it.

use crate::numerics::Number;
use crate::sources::{Constant, Trust};

/// Cup K of a flange that shrinks through its thickness, rad.
pub const MOST_CUP_RAD: f64 = 0.0207;
/// x₀, J/mm³: there a cup is 63 % of K.
pub const RISE_J_PER_MM3: f64 = 6.4;
/// Exponent n: the cup of a thick flange grows as the heat to this power.
pub const EXPONENT: f64 = 1.7;

/// Largest web over leg of the table, t_w/z: a thicker web backs a fold no more, as far as is known.
const MOST_WEB_OVER_LEG: f64 = 1.5;

/// x = q·√(t_w/z), J/mm³, of a heat parameter q (J/mm³), web t_w and leg z (mm).
///
/// ```
/// use weldbow_engine::angular::cup::folding_heat;
/// // 8 mm web, 4 mm leg: as 1.5; 6·√1.5
/// assert!((folding_heat(6.0, 8.0, 4.0) - 7.348).abs() < 1e-3);
/// ```
pub fn folding_heat<N: Number>(q_j_per_mm3: N, web_mm: N, leg_mm: N) -> N {
    q_j_per_mm3 * (web_mm / leg_mm).min(N::all(MOST_WEB_OVER_LEG)).sqrt()
}

/// Cup κ of a free flange by one fillet that cools alone, rad, of its x (J/mm³). It never falls with heat.
///
/// ```
/// use weldbow_engine::angular::cup::{MOST_CUP_RAD, cup_rad};
/// assert!((cup_rad(6.4) - MOST_CUP_RAD * 0.6321).abs() < 1e-6);
/// assert!(cup_rad(0.0) == 0.0 && cup_rad(1e6) <= MOST_CUP_RAD);
/// ```
pub fn cup_rad<N: Number>(folding_heat_j_per_mm3: N) -> N {
    -(-(folding_heat_j_per_mm3 / RISE_J_PER_MM3).powf(EXPONENT)).exp_m1() * MOST_CUP_RAD
}

/// Relative standard deviation inside the range of the table: residual 5 %, length and mesh 5 %, two against three dimensions 15 %,
/// tacks and gap 12 %, strength of the steel 15 %, phase change unknown (their sum 25 %; 30 % is a judgement, no measured member).
const SIGMA: f64 = 0.30;
/// What far outside of it adds in squares, to 50 % (judgement).
const SIGMA_OUTSIDE: f64 = 0.40;
/// Heat parameters at which half of that is added, J/mm³: below and above the table.
const OUTSIDE_Q: [f64; 2] = [1.2, 14.0];

/// Relative standard deviation of a fold: 30 % within the table, rising to 50 % on both sides without a jump.
///
/// ```
/// use weldbow_engine::angular::cup::sigma;
/// assert!((sigma(5.0) - 0.30).abs() < 0.01 && (sigma(200.0) - 0.50).abs() < 1e-3);
/// ```
pub fn sigma<N: Number>(q_j_per_mm3: N) -> N {
    let fourth = |x: N| x * x * (x * x);
    let below = (fourth(q_j_per_mm3 / OUTSIDE_Q[0]) + 1.0).inverse();
    let above = (fourth(N::all(OUTSIDE_Q[1]) / q_j_per_mm3.max(N::all(f64::MIN_POSITIVE))) + 1.0).inverse();
    N::all(SIGMA).beside((below + above) * SIGMA_OUTSIDE)
}

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    Constant::new(
        "cup of a flange that shrinks through its thickness",
        "angular::cup::MOST_CUP_RAD",
        MOST_CUP_RAD,
        "rad",
        "reference-cases/moving_arc.py: 19 joints, rms 5 %",
        Trust::OwnCalculation,
    )
    .within("flanges 6–16 mm, webs 4–8, legs 4–6, 0.4–2 kJ/mm")
    .moved_by("cup", SIGMA),
    Constant::new(
        "heat that cups at 63 % of it",
        "angular::cup::RISE_J_PER_MM3",
        RISE_J_PER_MM3,
        "J/mm³",
        "the same joints",
        Trust::OwnCalculation,
    ),
    Constant::new(
        "exponent of the rise",
        "angular::cup::EXPONENT",
        EXPONENT,
        "",
        "the same joints",
        Trust::OwnCalculation,
    ),
    Constant::new(
        "web over leg beyond which a web backs a flange no more",
        "angular::cup::MOST_WEB_OVER_LEG",
        MOST_WEB_OVER_LEG,
        "",
        "range of the same joints; studies/referee/5-fold.toml beyond it",
        Trust::OwnCalculation,
    ),
    Constant::new(
        "relative deviation of a cup inside the table",
        "angular::cup::SIGMA",
        SIGMA,
        "",
        "residual, length and mesh, two against three dimensions, tacks and gap, strength of the steel: 25 % together",
        Trust::Choice,
    )
    .moved_by("cup", SIGMA),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_spread_is_thirty_percent_where_the_table_is_and_half_far_outside_without_a_jump() {
        for q in [3.0, 5.0, 7.0, 9.0] {
            assert!((sigma(q) / 0.30 - 1.0).abs() < 0.03, "q {q}: {}", sigma(q));
        }
        assert!((sigma(0.0) - 0.5).abs() < 1e-3 && (sigma(200.0) - 0.5).abs() < 1e-3);
        let steps = || (0..4000).map(|k| 0.01 * f64::from(k));
        let largest = steps().map(|q| (sigma(q + 0.01) - sigma(q)).abs()).fold(0.0, f64::max);
        assert!(largest < 0.003, "largest step {largest}");
    }

    #[test]
    fn lengths_and_heat_grown_alike_leave_the_fold_alone() {
        use crate::shrinkage::tendon::heat_parameter;
        let cup = |k: f64| {
            let q = heat_parameter(1000.0 * k * k, 10.0 * k, 6.0 * k);
            cup_rad(folding_heat(q, 6.0 * k, 6.0 * k))
        };
        for k in [0.6, 1.3, 1.8] {
            assert!((cup(k) / cup(1.0) - 1.0).abs() < 1e-12, "k {k}: {} against {}", cup(k), cup(1.0));
        }
    }
}
