//! What keeps a flange square to the web while its fillets are laid and cool, and how much of the free tilt is left with it.
//!
//! Parts of the free tilt of [`tilt`](super::tilt). Calculated with a moving arc in three dimensions (own script,
//! `reference-cases/moving_arc.csv`): tacks take off 0–15 %, a flange held square until cold 34 and 48 %, the far edge of the
//! web guided nothing. Measured: six tacked one-sided joints closed by 25.2 mrad ± 12 % on the weld side
//! (`reference-cases/measured_fillet.toml`), 0.32 of the free tilt if that angle holds the cup, 0.50 if cup and tilt are less
//! alike, 0.67 if it is the tilt alone; their thickness is not known. 0.60 lies under what tacks do in the calculation and
//! inside what was measured: a judgement with σ 50 %. Slices joined by their plates (`reference-cases/moving_slices.md`) have 0.67 and 0.72 for
//! plates that touch, tacked at the leading end and pressed by rolls 60 mm before and behind the arc (600 and 1000 J/mm on 10 mm): that is the
//! pull-through line of [`Hold::LINE`], and its band, 0.30 to 0.90, holds calculated and measured joints alike. They have 0.64 and 0.48 held
//! square, where 0.58 of what the hold is without it is taken.
//!
//! The fold is left whole by every hold. In slices rolls take a quarter of it (0.71 and 0.75 left), holding square −2 to +6 %, in the
//! table of three dimensions 5 and 9 %; no measured joint and no second calculation has rolls, and the ± of a fold, 30 %, holds all of these. So no
//! constant stands here for what rolls take off a fold: a quarter by one own calculation would take cups out of verdicts that nobody has confirmed.

use super::tilt::TILT_SHARED;
use crate::sources::{Constant, Trust, record};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Where web and flange are tacked before welding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Tacks {
    /// Nowhere.
    None,
    /// At the end that enters the line first.
    #[default]
    LeadingEnd,
    /// Every few hundred millimetres along the seam.
    Along,
}

/// How the joint is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Hold {
    /// Tacks.
    pub tacks: Tacks,
    /// Whether rolls press flange and web together around the arc.
    pub rolls: bool,
    /// Whether the flange is held square to the web until it is cold.
    pub square_until_cold: bool,
}

/// Part of the free tilt in a line that presses the joint together around the arc (judgement, see above; nobody has measured this
/// hold: it is taken as that of tacked joints, a little under what was calculated since).
pub const PRESSED: f64 = 0.60;
/// Tacks along the seam take off a tenth (calculated 0–15 %).
const TACKED: f64 = 0.9 * PRESSED;
/// Held square until cold: 0.58 of the tilt without (calculated 0.66 at 600 and 0.52 at 1000 J/mm).
const SQUARE: f64 = 0.58 * PRESSED;
/// Neither tacked along the seam nor pressed: the calculated tilt as it is, an upper estimate.
pub(crate) const FREE: f64 = 1.0;
/// An open root gap lets the flange turn on until the faces meet, by this part of its tilt at most (calculated: 0.75 more where
/// nothing touches).
pub(crate) const GAP_PART: f64 = 0.75;

impl Hold {
    /// A pull-through line: plates fitted and tacked at the leading end only, flanges pressed to the web by the rolls around
    /// the arc, free behind it (common practice, no source).
    pub const LINE: Self = Self { tacks: Tacks::LeadingEnd, rolls: true, square_until_cold: false };
    /// The same line with tacks along the seam.
    pub const TACKED_ALONG: Self = Self { tacks: Tacks::Along, ..Self::LINE };
    /// The same line with the flange held square until cold.
    pub const HELD_SQUARE: Self = Self { square_until_cold: true, ..Self::LINE };
    /// Fitted, and left to itself.
    pub const NOTHING: Self = Self { tacks: Tacks::None, rolls: false, square_until_cold: false };

    /// Part of the free tilt that is left.
    ///
    /// ```
    /// use weldbow_engine::angular::hold::Hold;
    /// assert_eq!(Hold::LINE.tilt_part(), 0.60);
    /// assert!(Hold::HELD_SQUARE.tilt_part() < Hold::TACKED_ALONG.tilt_part());
    /// ```
    pub const fn tilt_part(&self) -> f64 {
        match self {
            Self { square_until_cold: true, .. } => SQUARE,
            Self { tacks: Tacks::Along, .. } => TACKED,
            Self { rolls: true, .. } => PRESSED,
            Self { .. } => FREE,
        }
    }

    /// "tacked at the leading end, pressed to the web by the rolls around the arc, free behind it".
    pub fn words(&self) -> String {
        let tacks = match self.tacks {
            Tacks::None => "not tacked",
            Tacks::LeadingEnd => "tacked at the leading end",
            Tacks::Along => "tacked along the seam",
        };
        let rolls = if self.rolls {
            "pressed to the web by the rolls around the arc"
        } else {
            "not pressed to the web"
        };
        let after = if self.square_until_cold { "held square until cold" } else { "free behind it" };
        format!("{tacks}, {rolls}, {after}")
    }

    /// Whether a root gap is still open behind the arc and can close as the flange turns: rolls close it before, tacks and a clamp keep
    /// it.
    pub const fn gap_can_close(&self) -> bool {
        !self.rolls && !self.square_until_cold && !matches!(self.tacks, Tacks::Along)
    }

    /// Holds that leave less tilt than this one, least tilt last: what a shop may do about it.
    pub fn firmer(&self) -> Vec<Self> {
        let along = Self { tacks: Tacks::Along, ..*self };
        let square = Self { square_until_cold: true, ..*self };
        let pressed = Self { rolls: true, ..*self };
        [pressed, along, square].into_iter().filter(|h| h.tilt_part() < self.tilt_part()).collect()
    }
}

impl Default for Hold {
    fn default() -> Self {
        Self::LINE
    }
}

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    record!(PRESSED, "", "part of the free tilt left by the rolls of the line")
        .known(
            Trust::Choice,
            "reference-cases/moving_arc.csv and measured_fillet.toml: between 0.32 and 0.67 measured",
        )
        .moved_by("tilt", TILT_SHARED),
    record!(TACKED, "", "part left with tacks along the seam")
        .known(Trust::Choice, "the same: tacks take off 0–15 %"),
    record!(SQUARE, "", "part left by a flange held square until cold")
        .known(Trust::Choice, "the same: 0.66 at 600 and 0.52 at 1000 J/mm"),
    record!(GAP_PART, "", "more tilt by an open gap, at most")
        .known(Trust::OwnCalculation, "the same: 0.75 more where nothing touches"),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_firmer_the_hold_the_less_tilt_and_each_firmer_hold_is_firmer() {
        let parts = [Hold::NOTHING, Hold::LINE, Hold::TACKED_ALONG, Hold::HELD_SQUARE].map(|h| h.tilt_part());
        assert!(parts.windows(2).all(|p| p[1] < p[0]), "{parts:?}");
        assert_eq!(Hold::LINE.firmer(), [Hold::TACKED_ALONG, Hold::HELD_SQUARE]);
        assert_eq!(Hold::NOTHING.firmer().len(), 3);
        assert!(Hold::HELD_SQUARE.firmer().is_empty());
    }

    /// The readings of the six measured joints are in `tests/published/measured_fillet.rs`; 0.32, 0.50 and 0.67.
    #[test]
    fn the_default_lies_between_the_readings_of_the_measured_joints() {
        assert!((0.32..=0.67).contains(&PRESSED) && (0.32..=0.67).contains(&TACKED));
    }
}
