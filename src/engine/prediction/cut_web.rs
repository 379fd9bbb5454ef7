//! The web as it must be before welding, at fine stations.

use super::Job;
use super::lay_formula::{ByFormula, LaidRoom};
use super::plan::WalkPlan;
use super::walk::{Keep, walk};

/// Substeps along the member: a bow lies within 1/65 000 of itself of the straight lines between so many.
const FINE: f64 = 256.0;

/// What the finished web is made from, at stations close enough to go straight between them. Kinks, splices and ends of passes
/// are stations.
#[derive(Debug, Clone, PartialEq)]
pub struct WebCurve {
    /// Place on the finished member, mm from the start end.
    pub x_mm: Vec<f64>,
    /// Outer edge to cut from the straight line through its ends, mm, + toward the inner flange: the wanted camber less the
    /// predicted one. The inner edge lies the clear depth beyond it.
    pub outer_mm: Vec<f64>,
    /// Weld shrinkage from the start end to here, mm: mean of both edges.
    pub shrinkage_mm: Vec<f64>,
}

/// The web of a checked job, by the formula level.
pub fn web_curve(job: &Job) -> WebCurve {
    let march =
        walk(job, &WalkPlan::of(job), FINE, Keep::Sums, &mut ByFormula::new(&mut LaidRoom::default()));
    let length = job.member.length_mm;
    let wanted = |x: f64| job.wanted_camber.map_or(0.0, |w| w.offset_mm(x, length));
    let outer = |(x, offset): (&f64, &f64)| wanted(*x) - offset + 0.0;
    WebCurve {
        outer_mm: march.x_mm.iter().zip(&march.camber_all.offset_mm).map(outer).collect(),
        shrinkage_mm: march.lines.iter().map(|line| 0.5 * (line[0] + line[1])).collect(),
        x_mm: march.x_mm,
    }
}
