//! A predicted size against a limit, with the prediction's uncertainty taken seriously.

use super::{Band, Quantity, Trust};
use serde::Serialize;

/// Where a predicted size stands against its limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Judgement {
    /// Inside, even at the far end of its uncertainty.
    Within,
    /// The limit lies inside the uncertainty.
    Near,
    /// Outside, even at the near end of its uncertainty.
    Out,
}

/// One line of the tolerance table.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Verdict {
    /// What is judged.
    pub quantity: Quantity,
    /// Predicted size, mm, with its sign.
    pub value: f64,
    /// Two standard deviations of it, mm.
    pub value_2s: f64,
    /// Allowed size on that side, mm, without sign.
    pub limit: f64,
    /// Allowed to either side, mm.
    #[serde(skip)]
    pub band: Band,
    /// Limit minus size, mm: what is left.
    pub margin: f64,
    /// Tolerance set as the job names it, or "own".
    pub set: &'static str,
    /// Standard, or "own limit".
    pub standard: &'static str,
    /// Its edition.
    pub edition: &'static str,
    /// Clause or table item.
    pub clause: &'static str,
    /// Rule in words, as "L/1000, at least 5 mm".
    pub rule: &'static str,
    /// How the limit is known.
    pub trust: Trust,
    /// Verdict.
    pub verdict: Judgement,
    /// "along the member", "outer flange", "inner flange", "if plates are cut to the finished length", or, for the
    /// deviation from a wanted camber, "if the web is cut straight".
    pub place: &'static str,
    /// Where along the member, mm from the start end.
    pub at_mm: f64,
}

/// Judges |value| ± spread (two standard deviations) against a limit, all mm.
///
/// ```
/// use weldbow_engine::tolerance::{Judgement, judge};
/// assert_eq!(judge(5.0, 2.0, 9.0), Judgement::Within);
/// assert_eq!(judge(-8.0, 2.0, 9.0), Judgement::Near);
/// assert_eq!(judge(12.0, 2.0, 9.0), Judgement::Out);
/// ```
pub fn judge(value: f64, spread: f64, limit: f64) -> Judgement {
    let size = value.abs();
    if size + spread <= limit {
        Judgement::Within
    } else if size - spread > limit {
        Judgement::Out
    } else {
        Judgement::Near
    }
}
