//! What holds the joint, in the words of the trade.

use crate::angular::hold::{Hold, Tacks};

/// What may be done about the tilt: "tacks along the seam (tilt × 0.90) or holding the flange square until cold (tilt × 0.58)".
pub(crate) fn remedies(hold: &Hold) -> Option<String> {
    let one = |firmer: &Hold| {
        let what = if firmer.square_until_cold {
            "flange held square until cold"
        } else if firmer.tacks == Tacks::Along && hold.tacks != Tacks::Along {
            "tacks along the seam"
        } else {
            "rolls that press flange and web together"
        };
        format!("{what} × {:.2}", firmer.tilt_part() / hold.tilt_part())
    };
    let all: Vec<String> = hold.firmer().iter().map(one).collect();
    (!all.is_empty()).then(|| all.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_told_of_tacks_and_of_holding_square() {
        assert_eq!(
            Hold::LINE.words(),
            "tacked at the leading end, pressed to the web by the rolls around the arc, free behind it"
        );
        let said = remedies(&Hold::LINE).unwrap();
        assert_eq!(said, "tacks along the seam × 0.90, flange held square until cold × 0.58");
        assert_eq!(remedies(&Hold::HELD_SQUARE), None);
        assert!(
            remedies(&Hold::NOTHING).unwrap().starts_with("rolls that press flange and web together × 0.60")
        );
    }
}
