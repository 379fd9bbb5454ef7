//! The turn of a whole flange about its joint by a fillet on one side.
//!
//! τ = T·exp(−ln²(Q/Q_p)), Q_p = h_p·t_w·z: a fillet that heats the block of web beside it, t_w by z, with some 18 J/mm³ turns the
//! flange most. With less heat little of the web foot softens, with more the web follows or is heated through and turns back. The
//! flange and the web turn against each other as whole plates, ahead of the arc and behind it, so no single section
//! shows it: two-dimensional sections give about half.
//!
//! T and h_p are fitted to 19 joints with a moving arc in three dimensions (own script, `reference-cases/moving_arc.py`; flange 6–16,
//! web 4–8, leg 4–6 mm, 400–2000 J/mm, 6–20 mm/s): rms 7 %, worst 14 %, leaving each out 8 and 17 %. 44 others over the whole range by slices with a
//! travelling arc (`reference-cases/moving_range.csv`; flange 6–25, web 4–10, leg 4–8 mm), in no fit: rms 15 %, worst 52 % on a flange that melts through.
//! Nothing was tacked or clamped there, web foot and flange were one. All lengths ×k and the heat ×k² leave it as it is.

use crate::numerics::Number;
use crate::sources::{Constant, Trust, record};

/// Relative standard deviation of the tilt that all joints share: the judgement on the part of the free tilt (see `hold`).
pub(crate) const TILT_SHARED: f64 = 0.40;
/// And of the tilt of each side beside it; with the first 50 % for one side, 7–9 mrad for what two cold sides leave.
pub(crate) const TILT_OWN: f64 = 0.30;
/// Largest free tilt T, rad.
pub const PEAK_RAD: f64 = 0.038;
/// Heat h_p over t_w·z at which a flange turns most, J/mm³.
pub const PEAK_J_PER_MM3: f64 = 17.8;

/// Free tilt of a flange by one fillet of net heat Q (J/mm) and leg z (mm) on a web t_w (mm), rad, toward the weld.
///
/// ```
/// use weldbow_engine::angular::tilt::{PEAK_RAD, free_tilt_rad};
/// // 1000/(17.8 · 6 · 6) = 1.561, ln² = 0.198: 38.0 · 0.820 = 31.2 mrad
/// assert!((free_tilt_rad(1000.0, 6.0, 6.0) - 0.0312).abs() < 5e-5);
/// assert!(free_tilt_rad(1e-9, 6.0, 6.0) < 1e-12 && (free_tilt_rad(640.8, 6.0, 6.0) - PEAK_RAD).abs() < 1e-12);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn free_tilt_rad<N: Number>(heat_j_per_mm: N, web_mm: N, leg_mm: N) -> N {
    let over_peak = heat_j_per_mm / (web_mm * PEAK_J_PER_MM3 * leg_mm);
    let log = over_peak.ln();
    over_peak.above(N::default(), (-(log * log)).exp() * PEAK_RAD, N::default())
}

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    record!(PEAK_RAD, "rad", "largest free tilt")
        .known(Trust::OwnCalculation, "reference-cases/moving_arc.py: 19 joints, rms 7 %")
        .within("flanges 6–16 mm, webs 4–8, legs 4–6, 0.4–2 kJ/mm")
        .moved_by("tilt", TILT_SHARED),
    record!(PEAK_J_PER_MM3, "J/mm³", "heat at which a flange turns most")
        .known(Trust::OwnCalculation, "the same joints"),
    record!(TILT_SHARED, "", "deviation of the tilt that all joints share")
        .known(
            Trust::Choice,
            "judgement on the part of the free tilt: reference-cases/moving_arc.csv and measured_fillet.toml",
        )
        .moved_by("tilt", TILT_SHARED),
    record!(TILT_OWN, "", "deviation of each side's own tilt beside it")
        .known(Trust::Choice, "own script: what two cold sides leave in reference-cases/moving_arc.csv")
        .moved_by("tilt_each_side", TILT_OWN),
];
