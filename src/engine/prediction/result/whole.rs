//! Results of the member as a whole beside its bows: how it turns, and whether its web waves.

use crate::prediction::{Divided, DividedTurn};
use serde::Serialize;

/// How the member turns about its axis, because its flanges want to sweep by different amounts. An estimate: flanges that
/// bend, plates that twist, a section that stays in shape.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Twist {
    /// Turn against the start end where it may offset the section most, ± and all, rad, + by the right hand about x: from y toward z,
    /// the inner flange goes to the near side of the outer one.
    pub max_rad: f64,
    /// Where that is, mm from the start end.
    pub at_mm: f64,
    /// Two standard deviations of it, rad.
    pub max_2s_rad: f64,
    /// Where they come from.
    pub max_2s_of: DividedTurn,
    /// Part of `max_rad` that flange strips bring which come bowed unlike, rad.
    pub by_plates_rad: f64,
    /// Turn of the finish end against the start end, rad.
    pub end_to_end_rad: f64,
    /// Two standard deviations of it, rad.
    pub end_to_end_2s_rad: f64,
    /// How far the flanges sweep apart at most, mm, each from the line between its own ends, + when the inner flange lies
    /// nearer.
    pub apart_mm: f64,
    /// Largest sweep of outer and inner flange, mm, each from the line between its own ends, + toward the near side; `sweep`
    /// is that of the section as a whole.
    pub flange_sweep_mm: [f64; 2],
    /// Sweep of outer and inner flange at the stations of the bows, mm.
    pub flange_profile_mm: [Vec<f64>; 2],
    /// Turn against the start end at the stations of the bows: [x, rad].
    pub profile: Vec<[f64; 2]>,
    /// Two standard deviations at the same stations, rad: of the turn against the start end, and of that against the finish end.
    #[serde(skip)]
    pub profile_2s_rad: [Vec<f64>; 2],
    /// What to know before somebody straightens it.
    pub caution: &'static str,
}

/// Whether the web ripples.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RippleVerdict {
    /// Compression below the critical stress of a web hinged at the flanges.
    Flat,
    /// Between hinged and clamped edges.
    Possible,
    /// Above the critical stress of a web clamped at the flanges.
    Likely,
}

impl Ripple {
    /// Where the web is pressed hardest for what it takes; of places alike the first.
    pub fn worst(all: &[Self]) -> Option<&Self> {
        let over = |r: &Self| r.compression_mpa / r.critical_low_mpa;
        let most = all.iter().map(over).reduce(f64::max)?;
        all.iter().find(|r| over(r) >= most - SAME * most.abs())
    }
}

/// Parts of a critical stress that are the same.
const SAME: f64 = 1e-9;

/// Web compression by weld shrinkage against its critical stress.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Ripple {
    /// Station, mm.
    pub x_mm: f64,
    /// Mean web compression while it is flat, + compressive, MPa.
    pub compression_mpa: f64,
    /// Critical stress with hinged edges, k = 4, MPa.
    pub critical_low_mpa: f64,
    /// Critical stress with clamped edges, k = 6.97, MPa.
    pub critical_high_mpa: f64,
    /// Part of the web that still works, 1 while it is flat.
    pub working: f64,
    /// Offset of the waves from the web plane, mm: of a web that was flat before welding, unless the job says how it came.
    pub wave_mm: f64,
    /// Two standard deviations of it, mm.
    pub wave_2s_mm: f64,
    /// Where they come from.
    pub wave_2s_of: Divided,
    /// Verdict.
    pub verdict: RippleVerdict,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{STARTER, read_text};
    use crate::prediction::predict;

    /// Either end of a web that is alike all along is as near to rippling: one of the two is named, by everybody.
    #[test]
    fn of_places_alike_the_first_is_the_worst() {
        let all = predict(&read_text("starter", STARTER).unwrap()).ripple;
        let dust = Ripple { x_mm: 1e6, compression_mpa: all[0].compression_mpa * (1.0 + 1e-14), ..all[0] };
        assert_eq!(Ripple::worst(&[all[0], dust]), Some(&all[0]));
        let more = Ripple { compression_mpa: 1.1 * all[0].compression_mpa, ..dust };
        assert_eq!(Ripple::worst(&[all[0], more]), Some(&more));
        assert_eq!(Ripple::worst(&[]), None);
    }
}
