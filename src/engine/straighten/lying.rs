//! What a tape reads while the member lies somewhere: its own weight hangs it between two supports, a warm side makes it longer
//! there. Prediction and tape can then be compared as they are.

use super::shape::{OutOfStraight, ShapeError, Up, chord, own_weight_sag_mm};
use crate::bow::BowShape;
use crate::member::{Member, Seam, Span, spans};
use crate::numerics::{between, farthest};
use crate::prediction::Prediction;
use serde::Serialize;

/// Linear thermal expansion of steel near shop temperature, 1/K (EN 1993-1-1 3.2.6, memory).
pub(crate) const EXPANSION_PER_K: f64 = 12e-6;
/// Longest step of the integration over the length.
const STEPS: f64 = 64.0;

/// How a member lies while it is read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lying {
    /// Side that faces up, and the two supports, mm from the start end; None if gravity is not to count.
    pub on: Option<(Up, [f64; 2])>,
    /// A side that is warmer than the one across, by so many K.
    pub warmer: Option<(Up, f64)>,
}

/// One bow, as it is and as it reads.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LyingBow {
    /// Largest offset of the member itself, mm, with its sign.
    pub true_mm: f64,
    /// Largest that its own weight adds, mm.
    pub weight_mm: f64,
    /// Largest that the warm side adds, mm.
    pub warmth_mm: f64,
    /// Largest offset that a tape reads, mm.
    pub read_mm: f64,
    /// Offset that it reads at stations: [x, mm].
    pub profile: Vec<[f64; 2]>,
}

/// Both bows of a lying member, from the chord between its ends.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LyingReading {
    /// + toward the inner flange.
    pub camber: LyingBow,
    /// + toward the near side.
    pub sweep: LyingBow,
}

/// What a tape reads of the predicted member.
///
/// # Errors
/// [`ShapeError`] unless the supports lie on the member, a tenth of its length apart.
pub fn reading(member: &Member, prediction: &Prediction, lying: &Lying) -> Result<LyingReading, ShapeError> {
    let x: Vec<f64> = prediction.camber.profile.iter().map(|p| p[0]).collect();
    let mut weight = [vec![0.0; x.len()], vec![0.0; x.len()]];
    if let Some((up, supports_mm)) = lying.on {
        let sag = own_weight_sag_mm(member, supports_mm, up, &x)?;
        // down is away from the side that is up
        let hangs = &mut weight[usize::from(!up.strong())];
        *hangs = sag.iter().map(|s| -up.sign() * s).collect();
        chord(&x, hangs);
    }
    let mut warmth = [vec![0.0; x.len()], vec![0.0; x.len()]];
    if let Some((side, warmer_k)) = lying.warmer {
        warmth[usize::from(!side.strong())] = warm_bow_mm(member, side, warmer_k, &x);
    }
    let one = |bow: &crate::prediction::Bow, which: usize| {
        let all = bow.profile.iter().zip(&weight[which]).zip(&warmth[which]);
        let profile: Vec<[f64; 2]> = all.map(|(([x, own], hangs), warm)| [*x, own + hangs + warm]).collect();
        let offsets: Vec<f64> = profile.iter().map(|p| p[1]).collect();
        LyingBow {
            true_mm: bow.max_mm,
            weight_mm: farthest(&x, &weight[which]),
            warmth_mm: farthest(&x, &warmth[which]),
            read_mm: farthest(&x, &offsets),
            profile,
        }
    };
    Ok(LyingReading { camber: one(&prediction.camber, 0), sweep: one(&prediction.sweep, 1) })
}

/// Offsets (mm, from the chord, with their sign) at stations x of a member whose one side is warmer by `warmer_k` (K) than the one
/// across: it is longer there, so that its middle lies toward it. The temperature runs straight from flange to flange, or from
/// edge to edge of each flange: curvature α·ΔT over the depth or the width.
fn warm_bow_mm(member: &Member, side: Up, warmer_k: f64, x_mm: &[f64]) -> Vec<f64> {
    let pieces = spans(member, x_mm.iter().copied());
    let rise = EXPANSION_PER_K * warmer_k;
    let stiff = |(width, thickness): (f64, f64)| (width, thickness * width.powi(3));
    let across = |s: &Span, x: f64| {
        if side.strong() {
            // between the middles of the flanges
            let [outer, inner] = Seam::BOTH.map(|seam| s.plates.flange_mm(seam).1);
            return rise / (s.depth_mm(x) + 0.5 * (outer + inner));
        }
        let [outer, inner] = Seam::BOTH.map(|seam| stiff(s.plates.flange_mm(seam)));
        rise * (outer.1 / outer.0 + inner.1 / inner.0) / (outer.1 + inner.1)
    };
    let shape = BowShape::integrate(&pieces, member.length_mm / STEPS, |s, x| -side.sign() * across(s, x));
    let at = |x: &f64| between(&shape.x_mm, |i| shape.offset_mm[i], *x);
    let mut offsets: Vec<f64> = x_mm.iter().map(at).collect();
    chord(x_mm, &mut offsets);
    offsets
}

impl OutOfStraight {
    /// The same without what a warm side added while it was read.
    #[must_use]
    pub fn without_warmth(mut self, member: &Member, side: Up, warmer_k: f64) -> Self {
        let warm = warm_bow_mm(member, side, warmer_k, &self.x_mm);
        let offsets = if side.strong() { &mut self.camber_mm } else { &mut self.sweep_mm };
        offsets.iter_mut().zip(warm).for_each(|(offset, warm)| *offset -= warm);
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::member::{Delivered, FlangePiece, Profile, WebPiece};
    use crate::steel::Steel;

    /// 9 m level: flanges 180 × 10, web 600 × 6.
    fn level() -> Member {
        let (from_mm, to_mm, splice, comes) = (0.0, 9000.0, None, Delivered::STRAIGHT);
        let flange = vec![FlangePiece { from_mm, to_mm, width_mm: 180.0, thickness_mm: 10.0, splice, comes }];
        Member {
            length_mm: 9000.0,
            depth: Profile::level(9000.0, 600.0),
            web: vec![WebPiece { from_mm, to_mm, thickness_mm: 6.0, splice, comes }],
            outer_flange: flange.clone(),
            inner_flange: flange,
            steel: Steel { name: "own".into(), yield_mpa: 355.0, tensile_mpa: 470.0, e_mpa: 210e3 },
        }
    }

    /// By hand: q = 7850·9.81e-9·(2·1800 + 3600), I_y = (2·10·180³ + 600·6³)/12, I_z by parallel axes; sag 5qL⁴/384EI, bow
    /// αΔTL²/8h.
    #[test]
    fn a_level_member_hangs_and_bends_warm_as_by_hand() {
        let m = level();
        let x: Vec<f64> = (0..=32).map(|i| 9000.0 * f64::from(i) / 32.0).collect();
        let q = 7850e-9 * 9.806_65 * 7200.0;
        let i_y = (2.0 * 10.0 * 180.0_f64.powi(3) + 600.0 * 216.0) / 12.0;
        let i_z = 6.0 * 600.0_f64.powi(3) / 12.0 + 2.0 * (1800.0 * 305.0 * 305.0 + 180.0 * 1000.0 / 12.0);
        for (up, i) in [(Up::Near, i_y), (Up::Inner, i_z)] {
            let want = 5.0 * q * 9000.0_f64.powi(4) / (384.0 * 210e3 * i);
            let got = own_weight_sag_mm(&m, [0.0, 9000.0], up, &x).unwrap()[16];
            println!("{up:?} up: sag {got:.4} mm, by hand {want:.4}");
            assert!((got / want - 1.0).abs() < 2e-3, "{got} against {want}");
        }
        for (side, across) in [(Up::Inner, 610.0), (Up::Outer, 610.0), (Up::Near, 180.0), (Up::Far, 180.0)] {
            let want = side.sign() * 12e-6 * 10.0 * 81e6 / (8.0 * across);
            let got = warm_bow_mm(&m, side, 10.0, &x)[16];
            println!("{side:?} warmer by 10 K: {got:.3} mm, by hand {want:.3}");
            assert!((got / want - 1.0).abs() < 1e-9, "{got} against {want}");
        }
    }

    #[test]
    fn what_is_added_for_the_tape_is_what_is_taken_off_its_readings() {
        let mut m = level();
        m.depth = Profile::new(vec![(0.0, 400.0), (6000.0, 760.0), (9000.0, 760.0)]);
        let x: Vec<f64> = (0..=9).map(|i| 1000.0 * f64::from(i)).collect();
        let warm = warm_bow_mm(&m, Up::Far, 7.0, &x);
        let shape = OutOfStraight::new(9000.0, x, vec![0.0; 10], warm, Vec::new()).unwrap();
        assert!(shape.without_warmth(&m, Up::Far, 7.0).sweep_mm.iter().all(|o| o.abs() < 1e-9));
    }
}
