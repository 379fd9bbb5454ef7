//! What a stitched seam folds: the flange is folded under each stitch and not between, and its own stiffness evens that out toward the toe.
//!
//! Half a flange is a strip of plate of width b that lies on the web at y = 0, free at its toe y = b, whose slope ∂w/∂y over the web is the fold θ under
//! a stitch and 0 between (by symmetry; the plate goes through). Each wave θₙ·cos kx of that bends it to w = f(y)·cos kx with
//! f⁗ − 2k²f″ + k⁴f = 0 (Kirchhoff plate without load), f(0) = 0, f′(0) = θₙ and at the free edge f″ = νk²f, f‴ = (2 − ν)k²f′; what
//! arrives is r = f(b)/(θₙb), 1 for waves much longer than b and 0 for short ones. Stitches ℓ long, p apart, welded part φ = ℓ/p:
//!
//! part = φ + Σₙ 2·sin(nπφ)/(nπ)·r(2πn·b/p)
//!
//! under the middle of a stitch, where the toe is farthest off: φ for stitches short beside b, 1 for long ones. Derived; that the fold under a stitch is
//! that of a continuous weld is assumed. A one-sided tilt is taken by the same part (choice: the limits are right, between them nothing was found).

use crate::steel::POISSON;
use std::f64::consts::PI;

/// Waves shorter than this part of 2πb arrive with less than 10⁻⁵.
const SHORTEST: f64 = 14.0;

/// Part of a fold that the toe shows under a stitch: stitches and gaps (mm), half a flange (mm).
///
/// 300 mm in 900 mm on half a flange of 90 mm show nearly all of their fold, 50 mm in 95 mm hardly more than their share of 0.526:
/// ```
/// use weldbow_engine::angular::stitched::folded_part;
/// assert!((folded_part([300.0, 600.0], 90.0) - 0.928).abs() < 5e-4);
/// assert!((folded_part([50.0, 45.0], 80.0) - 0.532).abs() < 5e-4);
/// ```
pub fn folded_part([weld_mm, gap_mm]: [f64; 2], half_mm: f64) -> f64 {
    let pitch_mm = weld_mm + gap_mm;
    let welded = weld_mm / pitch_mm;
    let waves = (1..).map(|n| (PI * f64::from(n), 2.0 * PI * f64::from(n) * half_mm / pitch_mm));
    let arrive = waves.take_while(|(_, k)| *k < SHORTEST);
    let part = arrive.map(|(n, k)| 2.0 * (n * welded).sin() / n * arrives(k)).sum::<f64>();
    (welded + part).clamp(welded, 1.0)
}

/// r(kb) of a wave, with b = 1: f = B·y·ch + C·sh + D·y·sh.
fn arrives(k: f64) -> f64 {
    let (sh, ch) = (k.sinh(), k.cosh());
    let (less, more) = (1.0 - POISSON, 1.0 + POISSON);
    // C = (1 − B)/k taken into moment and shear of the free edge, both over k
    let moment = [less * k * ch + more * sh, 2.0 * ch + less * k * sh, -less * sh];
    let shear = [2.0 * ch - less * k * sh, more * sh - less * k * ch, less * ch];
    let [b, d] = cramer(moment, shear);
    b * ch + (1.0 - b) / k * sh + d * sh
}

/// Solves a·x + b·y = c twice.
fn cramer([a, b, c]: [f64; 3], [e, f, g]: [f64; 3]) -> [f64; 2] {
    let all = a * f - b * e;
    [(c * f - b * g) / all, (a * g - c * e) / all]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::{GAUSS_4, backward, cholesky, forward};

    /// The same wave by the energy of the plate, D/2·∫[(f″ − k²f)² + 2(1 − ν)k²(f″f + f′²)]dy, least for f = y + c₂y² + … up to a power.
    fn by_energy(k: f64, powers: usize) -> f64 {
        let term = |j: usize, y: f64| {
            let (j, p) = (j as f64, j as i32);
            [y.powi(p), j * y.powi(p - 1), if p > 1 { j * (j - 1.0) * y.powi(p - 2) } else { 0.0 }]
        };
        let energy = |i: usize, j: usize| {
            let at = |y: f64| {
                let ([f, f1, f2], [g, g1, g2]) = (term(i, y), term(j, y));
                f2 * g2 + k.powi(4) * f * g - POISSON * k * k * (f2 * g + f * g2)
                    + 2.0 * (1.0 - POISSON) * k * k * f1 * g1
            };
            let steps = (0..16).flat_map(|step| {
                GAUSS_4.map(|(place, part)| part / 16.0 * at((f64::from(step) + place) / 16.0))
            });
            steps.sum::<f64>()
        };
        let n = powers - 1;
        let root = cholesky(n, |i, j| energy(i + 2, j + 2), |_, pivot| pivot > 0.0).unwrap();
        let mut c: Vec<f64> = (0..n).map(|i| -energy(i + 2, 1)).collect();
        forward(&root, &mut c);
        backward(&root, &mut c);
        1.0 + c.iter().sum::<f64>()
    }

    #[test]
    fn a_wave_arrives_as_the_least_energy_of_the_plate_says() {
        for k in [0.1, 0.5, 1.0, 2.0, 3.0] {
            let (closed, coarse, fine) = (arrives(k), by_energy(k, 4), by_energy(k, 8));
            println!("kb {k}: {closed:.8}, by energy to the 4th power {coarse:.8}, to the 8th {fine:.8}");
            assert!((fine - closed).abs() < 2e-9 && (fine - closed).abs() <= (coarse - closed).abs());
        }
    }

    #[test]
    fn short_stitches_show_their_share_and_long_ones_all() {
        for welded in [0.05, 0.3, 0.7, 0.95] {
            let of = |pitch: f64| folded_part([welded * pitch, (1.0 - welded) * pitch], 100.0);
            println!("{welded}: {:.6} of 20 mm, {:.6} of 50 m", of(20.0), of(50e3));
            assert!((of(20.0) - welded).abs() < 1e-9 && (of(50e3) - 1.0).abs() < 1e-6);
            let along: Vec<f64> = (1..60).map(|n| of(20.0 * f64::from(n))).collect();
            assert!(along.windows(2).all(|pair| pair[1] >= pair[0] - 1e-3), "{along:?}");
        }
        assert!((folded_part([300.0, 0.0], 100.0) - 1.0).abs() < 1e-12, "nothing is left out");
    }
}
