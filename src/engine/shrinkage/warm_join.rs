//! A flange that joins a T whose welds are still warm: what the T shrinks as it goes on cooling, it shrinks together with the new flange.
//!
//! Q of heat that is still in the plates stretches them like a push of E·α/ρc·Q where it lies. Joined then, the flange is free of stress on a T that
//! is longer and bent by that; once cold, the same is a pull on the whole section:
//!
//! ε = R_T(F − N) + R_all(N),  N = E·α/ρc·Q·exp(−t/τ)·(1 − m·exp(−t/t_s))
//!
//! with R the strain of a section under a pull at that place. Heat spreads from the joint along each leg of plate, L = √(π·a·t) far by a Gaussian, less where
//! the faces of the leg take it: ℓ = L/√(1 + k·(L/s)²) with the length s = √(λ·t/2h) that a fin of that thickness is warm over, at most half the flange and
//! the depth of the web. The web has t_w·ℓ of t_w·ℓ + 2·t_f·ℓ_f of the heat, its middle 2ℓ/π from the joint at first and ℓ in the end (derived), and both
//! faces of what is warm give off h: 1/τ = 2h·Σℓ/(ρc·Σtℓ). Metal that is too soft to push is not yet part of it, m at first, until the joint is no
//! warmer than ΔT: t_s = (Q/(ρc·Σt·ΔT))²/(4π·a), a line of heat in a plate as thick as all legs together.
//!
//! h, k, m and ΔT are fitted (`reference-cases/warm_join.py`) to 90 random Ts solved by the strip model, half a minute to an hour before their second
//! flange joins (webs 4–12 mm, 250–1300 deep, flanges 6–32 mm): the bend locked in is met within 7 % rms of the larger bend of one weld, sooner
//! within a third. In a beam of equal flanges a T that waits a minute is bent back by four fifths of what its weld bends it, three times what is
//! left of that in the end; ten minutes leave two fifths of it (`tests/laws/warm_join.rs`, `studies/25-warm-tee.toml`).

use super::tendon::ALPHA;
use crate::numerics::Number;
use crate::sources::{Constant, Trust, record};
use std::f64::consts::{FRAC_2_PI, PI};

/// Heat that a face of a warm plate loses, W/mm²K.
const WARM_FACE_W_PER_MM2_K: f64 = 28e-6;
/// Volumetric heat of steel at 20 to 200 °C, J/mm³K.
const WARM_RHO_C: f64 = 7.85e-6 * 510.0;
/// Its conductivity, W/mmK.
const WARM_LAMBDA: f64 = 0.050;
/// How much of the reach of a heat its faces take, k.
const TAKEN: f64 = 0.5;
/// Part of the push that is missing just behind the arc.
const SOFT: f64 = 0.60;
/// Temperature of the joint at which most of it has come, K.
const SOFT_K: f64 = 175.0;

/// What cools at a seam.
#[derive(Debug, Clone, Copy)]
pub struct WarmSeam<N = f64> {
    /// Net heat of its fillets, J/mm.
    pub heat_j_per_mm: N,
    /// Width and thickness of its flange, mm.
    pub flange_mm: (N, N),
    /// Thickness and clear depth of the web, mm.
    pub web_mm: (N, N),
    /// Young's modulus, MPa.
    pub e_mpa: N,
}

impl<N: Number> WarmSeam<N> {
    /// What it has still to pull `after_s` after its arc, N, and how far from the seam into the web, mm.
    ///
    /// 1 kJ/mm on 200 × 10 and a web 600 × 6, ten minutes later: ℓ = 85.8 mm along the web, its middle at 76.1; of 617.5 kN once exp(−0.954) are
    /// left, 20 % of it in the web.
    /// ```
    /// use weldbow_engine::shrinkage::warm_join::WarmSeam;
    /// let (flange_mm, web_mm) = ((200.0, 10.0), (6.0, 600.0));
    /// let seam = WarmSeam { heat_j_per_mm: 1000.0, flange_mm, web_mm, e_mpa: 206e3 };
    /// let (force_n, up_mm) = seam.pull(600.0);
    /// assert!((force_n / 617.5e3 - 0.3853).abs() < 1e-3 && (up_mm - 11.59).abs() < 0.05, "{force_n} {up_mm}");
    /// ```
    pub fn pull(&self, after_s: N) -> (N, N) {
        let ((width, flange), (web, depth)) = (self.flange_mm, self.web_mm);
        let (along_flange, _) = reach_mm(after_s, flange);
        let (along_web, middle) = reach_mm(after_s, web);
        let (along_flange, along_web) = (along_flange.min(width * 0.5), along_web.min(depth));
        let (in_flange, in_web) = (flange * 2.0 * along_flange, web * along_web);
        let warm_mm2 = (in_flange + in_web).max(N::all(f64::MIN_POSITIVE));
        let faces_mm = (along_flange * 2.0 + along_web) * 2.0;
        let lost = after_s * faces_mm * (WARM_FACE_W_PER_MM2_K / WARM_RHO_C) / warm_mm2;
        let joint = self.heat_j_per_mm / ((flange * 2.0 + web) * (WARM_RHO_C * SOFT_K));
        let soft_s = (joint * joint * (WARM_RHO_C / (4.0 * PI * WARM_LAMBDA))).max(N::all(f64::MIN_POSITIVE));
        let soft = (-after_s / soft_s).exp() * SOFT;
        let force_n = self.e_mpa * (ALPHA / WARM_RHO_C) * self.heat_j_per_mm * (-lost).exp() * (-soft + 1.0);
        let middle = middle.min(depth * 0.5);
        (force_n, (in_web * middle - in_flange * flange * 0.5) / warm_mm2)
    }
}

/// How far heat reaches along a leg of that thickness (mm) in a time, and how far from the joint the middle of it lies, mm.
fn reach_mm<N: Number>(after_s: N, plate_mm: N) -> (N, N) {
    let square = after_s * (PI * WARM_LAMBDA / WARM_RHO_C);
    let taken = square * (2.0 * WARM_FACE_W_PER_MM2_K * TAKEN / WARM_LAMBDA) / plate_mm;
    let reach = (square / (taken + 1.0)).sqrt();
    // k·(ℓ/s)²: nothing at first, 1 in the end
    (reach, reach * (taken / (taken + 1.0) * (1.0 - FRAC_2_PI) + FRAC_2_PI))
}

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    record!(WARM_FACE_W_PER_MM2_K, "W/mm²K", "heat that a face of a warm plate loses").known(
        Trust::Choice,
        "the strip level's 25 W/m²K and a little radiation; in still air hardly 10 in all, so that plates stay warm longer",
    ),
    record!(WARM_RHO_C, "J/mm³K", "volumetric heat of warm steel")
        .known(Trust::MemorySure, "EN 1993-1-2:2005 3.4.1.2: 440 to 530 J/kgK up to 200 °C"),
    record!(WARM_LAMBDA, "W/mmK", "conductivity of warm steel")
        .known(Trust::MemorySure, "EN 1993-1-2:2005 3.4.1.3: 53 to 47 W/mK up to 200 °C"),
    record!(TAKEN, "", "how much of the reach of a heat the faces of a plate take")
        .known(Trust::OwnCalculation, "reference-cases/warm_join.py: 90 random Ts by the strip model"),
    record!(SOFT, "", "part of the push of a hot seam that is missing just behind the arc")
        .known(Trust::OwnCalculation, "the same Ts, 2 to 30 s after their weld"),
    record!(SOFT_K, "K", "temperature of the joint at which most of that has come")
        .known(Trust::OwnCalculation, "the same Ts, 2 to 30 s after their weld"),
];
