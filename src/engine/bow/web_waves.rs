//! Waves of a web that came wavy, as it is pressed.

use super::web_ripple::{HALF_WAVE, MEAN_SQUARE};
use crate::numerics::{Number, cube_root_above};

/// Steps of Newton's method for a wave: from above three leave 7e-5 and four 2e-9 wherever a web can be (a test).
const WAVE_STEPS: usize = 3;

/// Half-height of the waves of a web that came with waves of `came_mm`, mm: [hinged, clamped] along the flanges. The strains are those
/// at which it would buckle and of its edges, + compressive.
///
/// In parts of the wave that takes up the critical strain, W = w/u with u = (2λ/π)·√(ε_cr/mean(f²)), and r = ε_e/ε_cr:
/// r = D + (1 − W₀/W)·½(1 + √(1 + 4D)), D = W² − W₀². The factor in front is that of a plate with an initial bow in its buckling shape
/// (Timoshenko and Gere, Theory of Elastic Stability; memory, sure), the rest what [`amplitude_mm`] has of a flat one. So a web far from
/// buckling has W₀/(1 − r), and one that came flat has [`amplitude_mm`] (derived). One that is pulled goes straighter.
///
/// [`amplitude_mm`]: super::web_ripple::amplitude_mm
///
/// ```
/// use weldbow_engine::bow::{web_ripple::amplitude_mm, web_waves::waves_mm};
/// // 0.01 mm at half the critical strain: twice as much
/// assert!((waves_mm(600.0, 5e-4, 2.5e-4, 0.01)[0] - 0.02).abs() < 1e-5);
/// // as good as flat, far beyond it: √(1/r) works, r = 2.25
/// let flat = amplitude_mm(600.0, 11.25e-4, 2.0 / 3.0);
/// assert!((waves_mm(600.0, 5e-4, 11.25e-4, 1e-6)[1] / flat[1] - 1.0).abs() < 1e-4);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn waves_mm<N: Number>(depth_mm: N, critical_strain: N, edge_strain: N, came_mm: N) -> [N; 2] {
    let [hinged, clamped] = units_mm(depth_mm, critical_strain);
    let [over, under] = waves(edge_strain / critical_strain, [came_mm / hinged, came_mm / clamped]);
    [hinged * over, clamped * under]
}

/// The same for two webs held half-way between, at half the work: for what waves as delivered differ by.
///
/// ```
/// use weldbow_engine::bow::web_waves::waves_amid_mm;
/// // 0.01 mm at half the critical strain: twice as much, however it is held
/// assert!((waves_amid_mm(600.0, 5e-4, 2.5e-4, [0.01; 2])[0] - 0.02).abs() < 1e-5);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn waves_amid_mm<N: Number>(depth_mm: N, critical_strain: N, edge_strain: N, came_mm: [N; 2]) -> [N; 2] {
    let [hinged, clamped] = units_mm(depth_mm, critical_strain);
    let unit_mm = (hinged + clamped) * 0.5;
    let [one, other] = waves(edge_strain / critical_strain, [came_mm[0] / unit_mm, came_mm[1] / unit_mm]);
    [unit_mm * one, unit_mm * other]
}

/// u, mm.
#[cfg_attr(wide, inline(always))]
fn units_mm<N: Number>(depth_mm: N, critical_strain: N) -> [N; 2] {
    let mut held_mm = [N::default(); 2];
    for (held, mm) in held_mm.iter_mut().enumerate() {
        let half_mm = depth_mm * HALF_WAVE[held];
        *mm = half_mm * 2.0 / std::f64::consts::PI * (critical_strain / MEAN_SQUARE[held]).sqrt();
    }
    held_mm
}

/// W of r and W₀ > 0 as above, of two webs at once: each step waits for the one before it, so that one goes on while the other waits.
#[cfg_attr(wide, inline(always))]
fn waves<N: Number>(r: N, came: [N; 2]) -> [N; 2] {
    let (nothing, one) = (N::default(), N::all(1.0));
    let (mut linear, mut waves) = (came, came);
    for ((linear, w), came) in linear.iter_mut().zip(&mut waves).zip(came) {
        // far from buckling the plate goes with its bow; this is all of the answer where the web is pulled
        *linear = came / (-r + 1.0);
        // all lie above the answer; the last because D − W₀/W ≤ r − 1
        let bound = one.above(r, *linear, N::all(f64::INFINITY));
        let most = (r.max(nothing) + came * came).sqrt().min(bound);
        let near = (r - 1.0).max(nothing).sqrt() + cube_root_above(came * (came * most + 1.0));
        *w = most.min(near).max(came);
    }
    for _ in 0..WAVE_STEPS {
        for (w, came) in waves.iter_mut().zip(came) {
            let square = *w * *w;
            let d = (square - came * came).max(nothing);
            let (root, bent) = ((d * 4.0 + 1.0).sqrt(), came / *w);
            let (pressed, stiff) = (-bent + 1.0, (root + 1.0) * 0.5);
            let left = d + pressed * stiff - r;
            // both sides of the fraction times w·root: two divisions in place of four
            let slope = root * (square * 2.0 + bent * stiff) + pressed * square * 2.0;
            *w = (*w - left * root * *w / slope).max(came);
        }
    }
    [r.above(nothing, waves[0], linear[0]), r.above(nothing, waves[1], linear[1])]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against halving the interval a hundred times, from nearly flat to twice the thickness, from hardly pressed to far beyond buckling.
    #[test]
    fn a_wave_is_what_halving_finds_and_grows_with_load_and_with_what_came() {
        let mut worst = 0.0_f64;
        for came in [1e-4, 1e-3, 0.01, 0.05, 0.2, 0.5, 1.0, 2.0] {
            let mut before = came;
            for r in [0.01, 0.3, 0.7, 0.95, 1.0, 1.05, 1.5, 3.0, 10.0] {
                let f = |w: f64| {
                    let d = w * w - came * came;
                    d + (1.0 - came / w) * 0.5 * (1.0 + (1.0 + 4.0 * d).sqrt()) - r
                };
                let (mut low, mut high) = (came, 100.0);
                for _ in 0..100 {
                    let middle = 0.5 * (low + high);
                    if f(middle) < 0.0 { low = middle } else { high = middle }
                }
                let [got, other] = waves(r, [came, 1.01 * came]);
                worst = worst.max((got / low - 1.0).abs());
                assert!(got > before && other > got, "{r} {came}: {got} after {before}");
                before = got;
            }
        }
        println!("waves: at most {worst:.1e} from the root");
        assert!(worst < 1e-4, "{worst}");
        let pulled = |r: f64| waves(r, [0.2; 2])[0];
        assert!(pulled(-1.0) < 0.2 && (pulled(-1e-9) - 0.2).abs() < 1e-8, "pulled straighter");
    }
}
