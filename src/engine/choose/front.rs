//! Arc time against distortion: what nothing beats in both, and a sample of all that was looked at.

use super::known::Scored;
use super::score::Score;
use serde::Serialize;

/// Points of the front that are kept.
const MOST_FRONT: usize = 200;

/// A point of the front between arc time and distortion.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FrontPoint {
    /// Arc time, s.
    pub arc_s: f64,
    /// Share of the tightest tolerance.
    pub used: f64,
    /// Deposit, kg.
    pub deposit_kg: f64,
}

/// Points that nothing beats in both arc time and distortion, among those inside; all of them if none is.
pub(super) fn front(all: &[Scored], confidence: f64) -> Vec<FrontPoint> {
    let any = all.iter().any(|s| s.score.inside >= confidence);
    let mut points: Vec<&Score> =
        all.iter().map(|s| &s.score).filter(|s| !any || s.inside >= confidence).collect();
    points.sort_by(|a, b| a.effort.arc_s.total_cmp(&b.effort.arc_s).then(a.used.total_cmp(&b.used)));
    let mut out: Vec<FrontPoint> = Vec::new();
    for s in points {
        if out.last().is_none_or(|last| s.used < last.used - 1e-9) {
            out.push(FrontPoint { arc_s: s.effort.arc_s, used: s.used, deposit_kg: s.effort.deposit_kg });
        }
    }
    out.truncate(MOST_FRONT);
    out
}

/// A sample of everything screened: arc time, share used, inside by the quick law.
pub(crate) fn cloud(all: &[Scored], confidence: f64) -> Vec<(f64, f64, bool)> {
    const MOST: usize = 1500;
    let every = all.len().div_ceil(MOST).max(1);
    let of = |s: &Scored| (s.score.effort.arc_s, s.score.used, s.score.inside >= confidence);
    all.iter().step_by(every).map(of).collect()
}
