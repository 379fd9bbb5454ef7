//! Where a size ± its uncertainty stands against a limit.

use serde::Serialize;

/// Where a predicted size stands against its limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Judgement {
    /// Inside, even at the far end of its uncertainty.
    Within,
    /// Inside, but the limit lies within the uncertainty.
    Near,
    /// Outside: the size that is predicted is beyond the limit.
    Out,
}

/// Judges |value| ± spread (two standard deviations) against a limit, all mm. A value beyond the limit is out, however
/// unsure it is.
///
/// ```
/// use weldbow_engine::tolerance::{Judgement, judge};
/// assert_eq!(judge(5.0, 2.0, 9.0), Judgement::Within);
/// assert_eq!(judge(-8.0, 2.0, 9.0), Judgement::Near);
/// assert_eq!(judge(9.5, 2.0, 9.0), Judgement::Out);
/// ```
pub fn judge(value: f64, spread: f64, limit: f64) -> Judgement {
    let size = value.abs();
    if size + spread <= limit {
        Judgement::Within
    } else if size <= limit {
        Judgement::Near
    } else {
        Judgement::Out
    }
}
