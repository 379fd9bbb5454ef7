//! Twist of a member whose two flanges want to bend sideways by different amounts.
//!
//! Each flange bends sideways with its own stiffness, the section stays in shape and the plates resist by their torsion alone
//! (V. Z. Vlasov, Thin-walled elastic beams; memory, sure). With κ_o, κ_i the curvatures the flanges want, h between
//! them, φ the turn of the section and χ = h²·φ′ the energy left over when the mean curvature is free is
//!
//! U = ½∫ D·(χ′ − h·(κ_i − κ_o))² + GJ/h⁴·χ² dx,  D = E·I_o·I_i/((I_o + I_i)·h²)
//!
//! (derived; h linear in each stretch). Both ends are free to warp. Prismatic: φ_mid − φ_end = B/GJ·(1 − 1/cosh(kL/2)) with
//! B = h·(M_i·I_o − M_o·I_i)/(I_o + I_i) and k² = GJ/(E·I_w), M the moments that bend the flanges.

/// A short stretch in which the wanted curvature is constant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// Its length, mm.
    pub length_mm: f64,
    /// Distance of the flanges at its middle, mm.
    pub height_mm: f64,
    /// I of outer and inner flange about the web plane, mm⁴.
    pub flange_mm4: [f64; 2],
    /// Torsion constant J, mm⁴.
    pub torsion_mm4: f64,
    /// Wanted curvature w″ of the inner flange less that of the outer one, 1/mm; + bows the middle toward the far side.
    pub apart_per_mm: f64,
}

/// Poisson's ratio of steel (EN 1993-1-1 3.2.6).
const POISSON: f64 = 0.3;

/// Turn of the section, rad, at the start of every stretch and at the end, from the line between the ends; + moves the
/// inner flange toward the near side against the outer one.
///
/// Linear elements in χ, one a stretch: the error falls with the square of k times their length, over twelve.
///
/// Without torsion (J nearly 0) flanges 700 mm apart that want 1e-6/mm apart over 8 m stand κL²/8 = 8 mm apart at mid-length, and
/// turn by 8/700:
/// ```
/// use weldbow_engine::bow::twist::{Stretch, turn_rad};
/// let flange_mm4 = [4e6, 4e6];
/// let stretch = Stretch { length_mm: 200.0, height_mm: 700.0, flange_mm4, torsion_mm4: 1e-3, apart_per_mm: 1e-6 };
/// let turn = turn_rad(&[stretch; 40]);
/// assert!((turn[20].abs() - 8.0 / 700.0).abs() < 1e-4);
/// ```
pub fn turn_rad(stretches: &[Stretch]) -> Vec<f64> {
    let n = stretches.len();
    let (mut diagonal, mut beside, mut load) = (vec![0.0; n + 1], vec![0.0; n], vec![0.0; n + 1]);
    for (k, s) in stretches.iter().enumerate() {
        let [outer, inner] = s.flange_mm4;
        let h2 = s.height_mm * s.height_mm;
        let warps = outer * inner / ((outer + inner) * h2) / s.length_mm;
        let twists = s.torsion_mm4 / (2.0 * (1.0 + POISSON)) / (h2 * h2) * s.length_mm;
        let pulls = warps * s.length_mm * s.height_mm * s.apart_per_mm;
        diagonal[k] += warps + twists / 3.0;
        diagonal[k + 1] += warps + twists / 3.0;
        beside[k] += twists / 6.0 - warps;
        load[k] -= pulls;
        load[k + 1] += pulls;
    }
    solve_tridiagonal(&mut diagonal, &beside, &mut load);
    let mut turn = Vec::with_capacity(n + 1);
    let mut sum = 0.0;
    turn.push(0.0);
    for (s, ends) in stretches.iter().zip(load.windows(2)) {
        sum += 0.5 * s.length_mm * (ends[0] + ends[1]) / (s.height_mm * s.height_mm);
        turn.push(sum);
    }
    let length: f64 = stretches.iter().map(|s| s.length_mm).sum();
    let mut x = 0.0;
    for (turn, next) in turn.iter_mut().zip(stretches.iter().map(|s| s.length_mm).chain([0.0])) {
        *turn -= sum * x / length;
        x += next;
    }
    turn
}

/// Solves a symmetric positive system of three diagonals in place; the answer stands in `load`.
fn solve_tridiagonal(diagonal: &mut [f64], beside: &[f64], load: &mut [f64]) {
    for (k, off) in beside.iter().enumerate() {
        let factor = off / diagonal[k];
        diagonal[k + 1] -= factor * off;
        load[k + 1] -= factor * load[k];
    }
    for k in (0..load.len()).rev() {
        let known = beside.get(k).map_or(0.0, |off| off * load[k + 1]);
        load[k] = (load[k] - known) / diagonal[k];
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const E: f64 = 206e3;

    /// 9 m, flanges 180 × 8 and 180 × 14 at 700 mm, web 5 mm.
    fn rafter(count: usize, apart_per_mm: f64) -> Vec<Stretch> {
        let flange = |t: f64| t * 180.0_f64.powi(3) / 12.0;
        let torsion_mm4 = (180.0 * (8.0_f64.powi(3) + 14.0_f64.powi(3)) + 700.0 * 125.0) / 3.0;
        let stretch = Stretch {
            length_mm: 9000.0 / count as f64,
            height_mm: 700.0,
            flange_mm4: [flange(8.0), flange(14.0)],
            torsion_mm4,
            apart_per_mm,
        };
        vec![stretch; count]
    }

    fn closed_form(moments: [f64; 2]) -> f64 {
        let s = rafter(1, 0.0)[0];
        let [o, i] = s.flange_mm4;
        let gj = E / 2.6 * s.torsion_mm4;
        let b = s.height_mm * (moments[1] * o - moments[0] * i) / (o + i);
        let k = (gj / (E * s.height_mm * s.height_mm * o * i / (o + i))).sqrt();
        b / gj * (1.0 - 1.0 / (k * 9000.0 / 2.0).cosh())
    }

    #[test]
    fn a_level_member_turns_as_the_closed_form_says_and_the_error_falls_by_four() {
        let [o, i] = rafter(1, 0.0)[0].flange_mm4;
        for moments in [[360e3, -360e3], [360e3, 360e3]] {
            let apart = moments[1] / (E * i) - moments[0] / (E * o);
            let mid = |count: usize| turn_rad(&rafter(count, apart))[count / 2];
            // an inner flange pulled at its near side bows away from it
            let want = -closed_form(moments);
            let [coarse, fine] = [mid(10), mid(20)].map(|got| (got / want - 1.0).abs());
            println!("moments {moments:?}: {want:.3e} rad, errors {coarse:.1e} and {fine:.1e}");
            assert!(coarse < 1e-2 && (coarse / fine - 4.0).abs() < 0.3, "{coarse} and {fine}");
        }
    }

    #[test]
    fn equal_wishes_turn_nothing_and_ends_stay_on_their_line() {
        assert!(turn_rad(&rafter(12, 0.0)).iter().all(|t| t.abs() < 1e-15));
        let mut tapered = rafter(12, 1e-6);
        for (k, s) in tapered.iter_mut().enumerate() {
            s.height_mm = 300.0 + 40.0 * k as f64;
        }
        let turn = turn_rad(&tapered);
        assert!(turn[0].abs() < 1e-15 && turn[12].abs() < 1e-12 && turn[6].abs() > 1e-4, "{turn:?}");
    }
}
