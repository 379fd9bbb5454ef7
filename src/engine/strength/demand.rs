//! What a seam must carry along the member.
//!
//! Beam stress σ = M·y/I makes the flange at a seam pull with H = M·Q/I along x, Q the first moment of the flange about
//! the centroid. What H gains per length the weld hands over:
//!
//! q(x) = dH/dx = V·Q/I + M·d(Q/I)/dx.
//!
//! On a prismatic member the second term is nothing. On a tapered one it takes shear off the weld where |M| grows with
//! the depth and adds to it where |M| falls with it (exact from the beam stress; derived). Along an inclined seam the
//! flange force is H/cos β over a length dx/cos β, so q is also the force per length of seam.

use crate::member::{Parts, Plates, Seam, Span, properties};
use crate::numerics::along;
use serde::Serialize;

/// How the bending moment is known.
#[derive(Debug, Clone, PartialEq)]
pub enum Moment {
    /// At the start end, N·mm; the shear adds the rest.
    FromStart(f64),
    /// Points (x mm, M N·mm), straight in between.
    Points(Vec<(f64, f64)>),
}

/// What the welds of a member must carry, as factored (or, for allowable stress design, as unfactored) by the engineer.
#[derive(Debug, Clone, PartialEq)]
pub enum Demand {
    /// Shear points (x mm, V N), straight in between, and the moment; dM/dx = V.
    Beam {
        /// Shear.
        shear: Vec<(f64, f64)>,
        /// Moment.
        moment: Moment,
    },
    /// Shear flow at either seam, points (x mm, N/mm), straight in between.
    Flow(Vec<(f64, f64)>),
}

/// Shear flow at one place of one seam, N/mm, without sign.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize)]
pub struct Flow {
    /// With the taper, to be carried.
    pub n_per_mm: f64,
    /// V·Q/I alone, to compare.
    pub prismatic_n_per_mm: f64,
    /// Shear of the web per length of depth, V/d: what the web itself carries beside the seam, N/mm.
    pub web_n_per_mm: f64,
}

impl Demand {
    /// Shear at x, N; nothing if the flow is given directly.
    pub fn shear_n(&self, x_mm: f64) -> f64 {
        match self {
            Self::Beam { shear, .. } => along(shear, x_mm),
            Self::Flow(_) => 0.0,
        }
    }

    /// Moment at x, N·mm; nothing if the flow is given directly.
    ///
    /// ```
    /// use weldbow_engine::strength::{Demand, Moment};
    /// // 8 kN/m over 9 m from 72 kN: 324 kN·m at the far end
    /// let demand = Demand::Beam { shear: vec![(0.0, 72e3), (9000.0, 0.0)], moment: Moment::FromStart(0.0) };
    /// assert!((demand.moment_n_mm(9000.0) - 324e6).abs() < 1.0);
    /// ```
    pub fn moment_n_mm(&self, x_mm: f64) -> f64 {
        match self {
            Self::Beam { moment: Moment::Points(points), .. } => along(points, x_mm),
            Self::Beam { shear, moment: Moment::FromStart(start) } => start + area_under(shear, x_mm),
            Self::Flow(_) => 0.0,
        }
    }

    /// Places where the demand has a kink, mm.
    pub(crate) fn breaks_mm(&self) -> Vec<f64> {
        let of = |points: &[(f64, f64)]| points.iter().map(|p| p.0).collect::<Vec<_>>();
        match self {
            Self::Beam { shear, moment } => {
                let mut out = of(shear);
                if let Moment::Points(points) = moment {
                    out.extend(of(points));
                }
                out
            }
            Self::Flow(points) => of(points),
        }
    }
}

/// Area under such points from 0 to x.
fn area_under(points: &[(f64, f64)], x: f64) -> f64 {
    let mut sum = points.first().map_or(0.0, |p| p.1 * p.0.min(x));
    for pair in points.windows(2) {
        let (from, to) = (pair[0].0, pair[1].0.min(x));
        if to > from {
            sum += 0.5 * (pair[0].1 + along(points, to)) * (to - from);
        }
    }
    sum + points.last().map_or(0.0, |p| p.1 * (x - p.0).max(0.0))
}

/// Q/I of the flange at a seam, 1/mm, and its change along x, 1/mm², at clear depth d (mm) and slope dd/dx; Q is the first
/// moment of the flange about the centroid.
///
/// Closed form of the derivative: with the area A, its first moment and I about the outer web edge each differentiated
/// by the depth, then moved to the centroid.
///
/// ```
/// use weldbow_engine::{member::{Plates, Seam}, strength::q_over_i};
/// let plates = Plates { web_mm: 6.0, outer_mm: (200.0, 10.0), inner_mm: (200.0, 10.0) };
/// // 200 · 10 · 305 over 2 · (2000 · 305² + 200 · 10³/12) + 6 · 600³/12
/// let (q_over_i, rise) = q_over_i(&plates, Seam::Outer, 600.0, 0.0);
/// assert!((q_over_i - 610_000.0 / 480_133_333.3).abs() < 1e-12 && rise == 0.0);
/// ```
pub fn q_over_i(plates: &Plates, seam: Seam, depth_mm: f64, slope: f64) -> (f64, f64) {
    let section = properties(plates, depth_mm, slope, Parts::ALL);
    let cos = 1.0 / (1.0 + slope * slope).sqrt();
    let ((outer_b, outer_t), (inner_b, inner_t)) = (plates.outer_mm, plates.inner_mm);
    let (outer, inner) = (outer_b * outer_t, inner_b * inner_t * cos * cos * cos);
    let inner_y = depth_mm + 0.5 * inner_t / cos;
    let (area, y, i) = (section.area_mm2, section.centroid_mm, section.i_z_mm4);
    let area_rise = plates.web_mm * slope;
    let y_rise = (plates.web_mm * depth_mm * slope + inner * slope - y * area_rise) / area;
    let about_edge_rise = plates.web_mm * depth_mm * depth_mm * slope + 2.0 * inner * inner_y * slope;
    let i_rise = about_edge_rise - area_rise * y * y - 2.0 * area * y * y_rise;
    let (q, q_rise) = match seam {
        Seam::Outer => (outer * (y + 0.5 * outer_t), outer * y_rise),
        Seam::Inner => (inner * (inner_y - y), inner * (slope - y_rise)),
    };
    (q / i, q_rise / i - q * i_rise / (i * i))
}

/// Shear flow at x of a seam; x lies in that span of the member.
pub fn flow_at(demand: &Demand, span: &Span, seam: Seam, x_mm: f64) -> Flow {
    match demand {
        Demand::Flow(points) => {
            let given = along(points, x_mm).abs();
            Flow { n_per_mm: given, prismatic_n_per_mm: given, web_n_per_mm: given }
        }
        Demand::Beam { .. } => {
            let depth = span.depth_mm(x_mm);
            let (ratio, rise) = q_over_i(&span.plates, seam, depth, span.slope);
            let (shear, moment) = (demand.shear_n(x_mm), demand.moment_n_mm(x_mm));
            Flow {
                n_per_mm: (shear * ratio + moment * rise).abs(),
                prismatic_n_per_mm: (shear * ratio).abs(),
                web_n_per_mm: (shear / depth).abs(),
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_moment_is_what_the_shear_adds_up_to() {
        let demand = Demand::Beam { shear: vec![(0.0, 10.0), (4.0, -10.0)], moment: Moment::FromStart(3.0) };
        for (x, expected) in [(0.0, 3.0), (2.0, 13.0), (4.0, 3.0), (5.0, -7.0)] {
            let got = demand.moment_n_mm(x);
            assert!((got - expected).abs() < 1e-12, "at {x}: {got}, expected {expected}");
        }
    }

    #[test]
    fn a_given_flow_is_taken_as_it_is_without_sign() {
        let plates = Plates { web_mm: 5.0, outer_mm: (150.0, 6.0), inner_mm: (150.0, 10.0) };
        let span = Span { from_mm: 0.0, to_mm: 100.0, plates, depth_from_mm: 500.0, slope: 0.1 };
        let demand = Demand::Flow(vec![(0.0, -200.0), (100.0, 0.0)]);
        let flow = flow_at(&demand, &span, Seam::Inner, 50.0);
        assert!((flow.n_per_mm - 100.0).abs() < 1e-12, "{flow:?}");
    }
}
