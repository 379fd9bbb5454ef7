//! The range a push may turn out in: yield strength unknown by 10 %, seams with or without their locked-in stress.
//!
//! With stress locked in at yield everything scales with f_y at a fixed κ/κ_y: force, stroke, set and kink of λ·f_y
//! are λ times those of f_y. So two press spans, one stress-free and one with weld stress, give every corner.

use super::points::Grading;
use super::{Bent, PressError, PressSpan, WeldStress};
use crate::member::Member;
use serde::Serialize;

/// Yield strength assumed unknown by this part to either side (choice).
pub(crate) const YIELD_SPREAD: f64 = 0.10;
/// Part of its hinge load from which a search in a member with weld stress begins at most.
const NEAR_HINGE: f64 = 0.9999;

/// Lowest and highest of what may be met.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Range {
    /// Lowest.
    pub low: f64,
    /// Highest.
    pub high: f64,
}

impl Range {
    fn around(values: [f64; 3]) -> Self {
        Self {
            low: values.iter().copied().fold(f64::INFINITY, f64::min),
            high: values.iter().copied().fold(f64::NEG_INFINITY, f64::max),
        }
    }

    /// Half of the way from low to high.
    pub fn half(&self) -> f64 {
        0.5 * (self.high - self.low)
    }
}

/// A push for a wanted kink, with what may be met.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Ranged {
    /// With the given yield and no locked-in stress.
    pub nominal: Bent,
    /// Force of each ram that leaves the wanted kink, N.
    pub force_n: Range,
    /// Stroke by bending that leaves it, mm.
    pub stroke_mm: Range,
    /// Set that the nominal stroke leaves, mm.
    pub set_mm: Range,
}

impl Ranged {
    /// A push of which only the highest possible force of a ram is known; stroke and set are the nominal ones.
    pub(in crate::straighten) fn at_most(nominal: Bent, most_n: f64) -> Self {
        let only = |v: f64| Range { low: v, high: v };
        Self {
            force_n: Range { low: nominal.force_n, high: most_n },
            stroke_mm: only(nominal.stroke_mm),
            set_mm: only(nominal.set_mm),
            nominal,
        }
    }
}

/// A nominal push of a stress-free `clean` span, with its range.
///
/// # Errors
/// [`PressError`] if the member cannot be set up with weld stress; it can if `clean` could.
pub fn ranged(
    member: &Member,
    clean: PressSpan,
    nominal: Bent,
    weld: WeldStress,
) -> Result<Ranged, PressError> {
    // to about one part in 10³ only, three times as fast
    let welded = PressSpan::graded(member, *clean.layout(), Some(weld), Grading::ROUGH)?.rough();
    let clean = clean.rough();
    let known =
        welded.under(nominal.force_n.min(NEAR_HINGE * welded.hinge_n())).unwrap_or_else(|| nominal.clone());
    let soft = corner(&welded, 1.0 - YIELD_SPREAD, &nominal, &known);
    let stiff = corner(&clean, 1.0 + YIELD_SPREAD, &nominal, &nominal);
    let middle = [nominal.force_n, nominal.stroke_mm, nominal.set_mm];
    let [force_n, stroke_mm, set_mm] = [0, 1, 2].map(|i| Range::around([soft[i], middle[i], stiff[i]]));
    Ok(Ranged { force_n, stroke_mm, set_mm, nominal })
}

/// Force (N), stroke and set (mm) there; `known`: what the span itself does under about that load.
fn corner(span: &PressSpan, yields: f64, nominal: &Bent, known: &Bent) -> [f64; 3] {
    let hinge = yields * span.hinge_n();
    let (force_n, stroke_mm) = match span.for_kink_near(nominal.kink_rad / yields, known.force_n, Some(known))
    {
        Ok(b) => (yields * b.force_n, yields * b.stroke_mm),
        // a weaker member forms its hinge first: the load stays and the rest of the set follows the stroke
        Err(_) => (hinge, nominal.set_mm + hinge * span.springback_mm_per_n()),
    };
    let after = span.set_after_stroke_from_mm(nominal.stroke_mm / yields, known);
    [force_n, stroke_mm, yields * after]
}
