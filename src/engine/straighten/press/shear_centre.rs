//! How a push on the edges of both flanges shares itself out, and the height at which it does not twist the member.

use super::sideways::middles_mm;
use crate::member::{Member, Seam};

/// Most that one flange may be asked for over its own plastic moment, if its share by stiffness is larger than its share by
/// strength (choice).
pub(crate) const UNEVEN: f64 = 1.10;

/// Stiffness of a flange in its own plane, mm⁴, and its plastic modulus, mm³.
fn flange(member: &Member, x_mm: f64, seam: Seam) -> (f64, f64) {
    let (b, t) = member.plates_at(x_mm).flange_mm(seam);
    (b * b * b * t / 12.0, b * b * t / 4.0)
}

/// Share of the outer and of the inner flange in a force at the shear centre, by their stiffness.
pub fn shares(member: &Member, x_mm: f64) -> [f64; 2] {
    let [outer, inner] = Seam::BOTH.map(|seam| flange(member, x_mm, seam).0);
    [outer / (outer + inner), inner / (outer + inner)]
}

/// Distance of the shear centre from the middle of the outer flange, mm: where a ram on the edges of both flanges pushes both
/// alike. The web is left out.
///
/// 180 × 8 outer, 180 × 14 inner: 14/22 of the way.
pub(crate) fn shear_centre_mm(member: &Member, x_mm: f64) -> f64 {
    shares(member, x_mm)[1] * middles_mm(member, x_mm)
}

/// Moment of a flange over its own plastic moment, the worse of both, while the member carries `moment_n_mm` about its weak axis.
pub(crate) fn flange_use(member: &Member, x_mm: f64, moment_n_mm: f64) -> f64 {
    let of = |(seam, share): (Seam, f64)| {
        share * moment_n_mm / (member.steel.yield_mpa * flange(member, x_mm, seam).1)
    };
    Seam::BOTH.into_iter().zip(shares(member, x_mm)).map(of).fold(0.0, f64::max)
}
