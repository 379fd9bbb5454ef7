//! Twist of a member whose two flanges want to bend sideways by different amounts.
//!
//! Each flange bends sideways with its own stiffness, the section stays in shape and the plates resist by their torsion alone
//! (V. Z. Vlasov, Thin-walled elastic beams; memory, sure). With κ_o, κ_i the curvatures the flanges want, h between
//! them, φ the turn of the section and χ = h²·φ′ the energy left over when the mean curvature is free is
//!
//! U = ½∫ D·(χ′ − h·(κ_i − κ_o))² + G(J − J_i)·φ′² + G·J_i·(φ′ − s·w_i″)² dx,  D = E·I_o·I_i/((I_o + I_i)·h²)
//!
//! (derived; h linear in each stretch). The inner flange, of slope s, turns about its own axis when it bends sideways, by s·w_i″ with
//! w_i″ = κ + I_o/(I_o + I_i)·χ′/h, κ the curvature of the section as a whole: a tapered member that sweeps twists a little. An end is free to warp, or held: its flanges do not turn sideways against each other, χ = 0.
//! Prismatic, both ends free: φ_mid − φ_end = B/GJ·(1 − 1/cosh(kL/2)) with B = h·(M_i·I_o − M_o·I_i)/(I_o + I_i) and
//! k² = GJ/(E·I_w), M the moments that bend the flanges; one end held: the ends turn by B/GJ·(1 − 1/cosh(kL)) against each other.
//! Solid finite elements with plates on their ends turn within 3 % of it, or 0.4 mrad; with bare ends 6 % farther, tapered ones at a shallow end
//! much farther, as nothing keeps the section in shape there (`reference-cases/twist_elements.py`).

use crate::numerics::Number;
use crate::steel::POISSON;

/// A short stretch of the member.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwistStretch<N = f64> {
    /// Its length, mm.
    pub length_mm: N,
    /// Distance of the flanges at its middle, mm.
    pub height_mm: N,
    /// I of outer and inner flange about the web plane, mm⁴.
    pub flange_mm4: [N; 2],
    /// Torsion constant J, mm⁴.
    pub torsion_mm4: N,
    /// The part of it in the inner flange, mm⁴.
    pub inner_torsion_mm4: N,
    /// Slope of the inner flange, dd/dx.
    pub slope: N,
}

impl<N: Number> TwistStretch<N> {
    /// D/E, mm².
    #[cfg_attr(wide, inline(always))]
    fn warping(&self) -> N {
        let [outer, inner] = self.flange_mm4;
        outer * inner / ((outer + inner) * self.height_mm * self.height_mm)
    }

    /// J·G/E of the whole section and of the inner flange, mm⁴.
    #[cfg_attr(wide, inline(always))]
    fn torsion(&self) -> [N; 2] {
        let per_mm4 = 1.0 / (2.0 * (1.0 + POISSON));
        [self.torsion_mm4 * per_mm4, self.inner_torsion_mm4 * per_mm4]
    }

    /// What it does under any curvature, of its inner flange's torsion, its flanges' turns and its warping.
    #[cfg_attr(wide, inline(always))]
    fn answer(&self, inner_torsion: N, by_chi: N, by_slope: N, warping: N) -> Answer<N> {
        let [outer, inner] = self.flange_mm4;
        let (half, lean) = (by_chi * 0.5 * self.length_mm, inner_torsion * self.slope);
        Answer {
            pulls: warping * self.height_mm,
            leans: [lean * (half + by_slope), lean * (half - by_slope)],
            turns: self.length_mm * 0.5 * by_chi,
            bends: -inner / ((outer + inner) * self.length_mm * self.height_mm),
        }
    }

    /// Turn of the inner flange about its own axis per χ and, back, per χ′.
    #[cfg_attr(wide, inline(always))]
    fn flange_turns(&self) -> [N; 2] {
        let [outer, inner] = self.flange_mm4;
        let h = self.height_mm;
        [(h * h).inverse(), self.slope * outer / ((outer + inner) * h)]
    }
}

/// What a stretch does under any curvature that its flanges want.
#[derive(Debug, Clone, Copy)]
struct Answer<N> {
    /// What unequal wishes put on χ at its ends, ∓, mm³ over E.
    pulls: N,
    /// What the wish of the whole section puts on χ at its start and finish.
    leans: [N; 2],
    /// Turn per sum of χ at its ends, 1/mm.
    turns: N,
    /// Curvature of the outer flange per difference of χ, 1/mm².
    bends: N,
}

/// How a member can turn: its stretches, with what has to be solved once.
#[derive(Debug, Clone)]
pub struct Torsion<N = f64> {
    stretches: Vec<TwistStretch<N>>,
    answers: Vec<Answer<N>>,
    /// Length of all stretches, mm.
    length_mm: N,
    held: [bool; 2],
    /// Pivots and multipliers of the three diagonals.
    pivot: Vec<N>,
    factor: Vec<N>,
}

/// How it turns, at the start of every stretch and at the end.
#[derive(Debug, Clone, PartialEq)]
pub struct Turned<N = f64> {
    /// Turn against the start end, rad; + from y toward z: the inner flange goes to the near side of the outer one.
    pub turn_rad: Vec<N>,
    /// Offset of the outer flange, mm, + near, by what keeps it from bending as it wants, from the line between the ends.
    pub outer_mm: Vec<N>,
}

impl<N: Number> Torsion<N> {
    /// Of stretches in order; `held` says for start and finish whether its flanges are kept from turning sideways
    /// against each other. Linear elements in χ, one a stretch: the error falls with the square of k times their length, over twelve.
    #[cfg_attr(wide, inline(always))]
    pub fn new(stretches: Vec<TwistStretch<N>>, held: [bool; 2]) -> Self {
        let n = stretches.len();
        let (mut pivot, mut beside) = (vec![N::default(); n + 1], vec![N::default(); n]);
        let mut answers = Vec::with_capacity(n);
        for (k, s) in stretches.iter().enumerate() {
            let ([all, inner], [by_chi, by_slope], warping) = (s.torsion(), s.flange_turns(), s.warping());
            answers.push(s.answer(inner, by_chi, by_slope, warping));
            let twists = all * by_chi * by_chi * s.length_mm;
            let (both, own) = (inner * by_chi * by_slope, inner * by_slope * by_slope / s.length_mm);
            let warps = warping / s.length_mm + own;
            pivot[k] += warps + twists / 3.0 + both;
            pivot[k + 1] += warps + twists / 3.0 - both;
            beside[k] += twists / 6.0 - warps;
        }
        if held[0] {
            pivot[0] = N::all(1.0);
            beside.iter_mut().take(1).for_each(|b| *b = N::default());
        }
        if held[1] {
            pivot[n] = N::all(1.0);
            beside.iter_mut().skip(n.saturating_sub(1)).for_each(|b| *b = N::default());
        }
        let mut factor = Vec::with_capacity(n);
        for (k, off) in beside.iter().enumerate() {
            let by = *off / pivot[k];
            pivot[k + 1] -= by * *off;
            factor.push(by);
        }
        let length_mm = N::sum(stretches.iter().map(|s| s.length_mm));
        Self { stretches, answers, length_mm, held, pivot, factor }
    }

    /// Its stretches.
    pub fn stretches(&self) -> &[TwistStretch<N>] {
        &self.stretches
    }

    /// By the wanted curvature w″ of the inner flange less that of the outer one, and that of the section as a whole, 1/mm, in
    /// each stretch; + bows the middle toward the far side.
    ///
    /// Without torsion (J nearly 0) flanges 700 mm apart that want 1e-6/mm apart over 8 m stand κL²/8 = 8 mm apart at
    /// mid-length, and turn by 8/700:
    /// ```
    /// use weldbow_engine::bow::twist::{TwistStretch, Torsion};
    /// let flange_mm4 = [4e6, 4e6];
    /// let (torsion_mm4, inner_torsion_mm4, slope) = (1e-3, 5e-4, 0.0);
    /// let stretch = TwistStretch { length_mm: 200.0, height_mm: 700.0, flange_mm4, torsion_mm4, inner_torsion_mm4, slope };
    /// let turned = Torsion::new(vec![stretch; 40], [false; 2]).turned(&[[1e-6, 0.0]; 40]);
    /// assert!((turned.turn_rad[20].abs() - 8.0 / 700.0).abs() < 1e-4);
    /// assert!((turned.outer_mm[20].abs() - 4.0).abs() < 0.05, "half of it is the outer flange's");
    /// ```
    #[cfg_attr(wide, inline(always))]
    pub fn turned(&self, curvature_per_mm: &[[N; 2]]) -> Turned<N> {
        let chi = self.solve(curvature_per_mm);
        let n = self.stretches.len();
        let (mut turn_rad, mut outer_mm) = (Vec::with_capacity(n + 1), Vec::with_capacity(n + 1));
        let (mut turn, mut slope, mut offset) = (N::default(), N::default(), N::default());
        turn_rad.push(turn);
        outer_mm.push(offset);
        for ((s, answer), ends) in self.stretches.iter().zip(&self.answers).zip(chi.windows(2)) {
            turn += answer.turns * (ends[0] + ends[1]);
            let bends = answer.bends * (ends[1] - ends[0]);
            offset += s.length_mm * (slope + s.length_mm * 0.5 * bends);
            slope += s.length_mm * bends;
            turn_rad.push(turn);
            outer_mm.push(offset);
        }
        self.refer_to_chord(&mut outer_mm);
        Turned { turn_rad, outer_mm }
    }

    /// Measures offsets at the ends of the stretches from the line between the first and the last.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn refer_to_chord(&self, offset_mm: &mut [N]) {
        let (Some(&first), Some(&last)) = (offset_mm.first(), offset_mm.last()) else { return };
        let rises = (last - first) / self.length_mm;
        let mut x = N::default();
        for (offset, next) in offset_mm.iter_mut().zip(self.stretches.iter().map(|s| s.length_mm).chain([x]))
        {
            *offset -= first + rises * x;
            x += next;
        }
    }

    /// χ at the ends of the stretches.
    #[cfg_attr(wide, inline(always))]
    fn solve(&self, curvature_per_mm: &[[N; 2]]) -> Vec<N> {
        let n = self.stretches.len();
        let mut chi = vec![N::default(); n + 1];
        for (k, (answer, &[apart, whole])) in self.answers.iter().zip(curvature_per_mm).enumerate() {
            chi[k] += answer.leans[0] * whole - answer.pulls * apart;
            chi[k + 1] += answer.leans[1] * whole + answer.pulls * apart;
        }
        for (end, held) in [0, n].into_iter().zip(self.held) {
            chi[end] *= N::all(f64::from(u8::from(!held)));
        }
        for (k, by) in self.factor.iter().enumerate() {
            let taken = *by * chi[k];
            chi[k + 1] -= taken;
        }
        chi[n] = chi[n] / self.pivot[n];
        for k in (0..n).rev() {
            chi[k] = chi[k] / self.pivot[k] - self.factor[k] * chi[k + 1];
        }
        chi
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const E: f64 = 206e3;

    /// 9 m, flanges 180 × 8 and 180 × 14 at 700 mm, web 5 mm.
    fn rafter(count: usize) -> Vec<TwistStretch> {
        let flange = |t: f64| t * 180.0_f64.powi(3) / 12.0;
        let torsion_mm4 = (180.0 * (8.0_f64.powi(3) + 14.0_f64.powi(3)) + 700.0 * 125.0) / 3.0;
        let stretch = TwistStretch {
            length_mm: 9000.0 / count as f64,
            height_mm: 700.0,
            flange_mm4: [flange(8.0), flange(14.0)],
            torsion_mm4,
            inner_torsion_mm4: 180.0 * 14.0_f64.powi(3) / 3.0,
            slope: 0.0,
        };
        vec![stretch; count]
    }

    fn turn(count: usize, held: [bool; 2], apart_per_mm: f64) -> Vec<f64> {
        Torsion::new(rafter(count), held).turned(&vec![[apart_per_mm, 0.0]; count]).turn_rad
    }

    /// B/GJ and k of the prismatic member.
    fn closed_form(moments: [f64; 2]) -> (f64, f64) {
        let s = rafter(1)[0];
        let [o, i] = s.flange_mm4;
        let gj = E / 2.6 * s.torsion_mm4;
        let b = s.height_mm * (moments[1] * o - moments[0] * i) / (o + i);
        (b / gj, (gj / (E * s.height_mm * s.height_mm * o * i / (o + i))).sqrt())
    }

    #[test]
    fn a_level_member_turns_as_the_closed_form_says_and_the_error_falls_by_four() {
        let [o, i] = rafter(1)[0].flange_mm4;
        for moments in [[360e3, -360e3], [360e3, 360e3]] {
            let apart = moments[1] / (E * i) - moments[0] / (E * o);
            let (b, k) = closed_form(moments);
            for (held, at, want) in [
                ([false; 2], 2, -b * (1.0 - 1.0 / (k * 4500.0).cosh())),
                // the free end turns against the held one
                ([true, false], 1, b * (1.0 - 1.0 / (k * 9000.0).cosh())),
            ] {
                // an inner flange pulled at its near side bows away from it
                let [coarse, fine] = [10, 20].map(|n| (turn(n, held, apart)[n / at] / want).abs() - 1.0);
                println!("moments {moments:?}, {held:?}: {want:.3e} rad, errors {coarse:.1e} and {fine:.1e}");
                assert!(coarse.abs() < 2e-2 && (coarse / fine - 4.0).abs() < 0.3, "{coarse} and {fine}");
                assert!(turn(20, held, apart)[20 / at] * want > 0.0, "its sign");
            }
        }
    }

    #[test]
    fn equal_wishes_turn_nothing_held_ends_hold_a_level_member_and_a_taper_turns_end_to_end() {
        assert!(turn(12, [false; 2], 0.0).iter().all(|t| t.abs() < 1e-15));
        assert!(turn(12, [true; 2], 1e-6).iter().all(|t| t.abs() < 1e-15));
        let mut tapered = rafter(12);
        for (k, s) in tapered.iter_mut().enumerate() {
            (s.height_mm, s.slope) = (300.0 + 40.0 * k as f64, 40.0 / s.length_mm);
        }
        let turned = Torsion::new(tapered, [false; 2]).turned(&[[1e-6, 0.0]; 12]);
        let turn = &turned.turn_rad;
        assert!(turn[0].abs() < 1e-15 && turn[12].abs() > 1e-4 && turn[6].abs() > 1e-4, "{turn:?}");
        assert!(turned.outer_mm[0].abs() < 1e-15 && turned.outer_mm[12].abs() < 1e-12);
    }
}
