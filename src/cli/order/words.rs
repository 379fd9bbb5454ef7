//! Words and figures of an order.

use crate::member::Seam;
use crate::order::{FamilyResult, Fix, Measure};
use crate::units::{System, show};

/// Hours below which a measure is not worth a line (a choice).
const LEAST_H: f64 = 0.05;

/// Pieces below which none is told.
const LEAST_PIECES: f64 = 0.05;

/// Measures of a family that save something, the best first.
pub(crate) fn worthwhile(family: &FamilyResult) -> Vec<&Fix> {
    family.fixes.iter().filter(|fix| fix.worth_h() > LEAST_H).collect()
}

/// What to do, with its number.
pub(crate) fn what(fix: &Fix, system: System) -> String {
    let size = show::offset(fix.size_mm.abs(), system);
    let at = show::position(fix.at_mm, system);
    match fix.measure {
        Measure::PreCamber => {
            let toward = if fix.size_mm < 0.0 { "outer" } else { "inner" };
            format!(
                "cut the webs to the opposite bow: on {} {size} toward the {toward} flange at {at} (ordinates: `weldbow cut`)",
                fix.mark
            )
        }
        Measure::Balance => {
            let toward = if fix.size_mm < 0.0 { "far" } else { "near" };
            format!(
                "balance the passes, both sides of the web alike: on {} {size} of sweep toward the {toward} side at {at} has to go",
                fix.mark
            )
        }
        Measure::Preset => {
            let flange = match fix.flange {
                Some(Seam::Outer) => "outer flange",
                _ => "inner flange",
            };
            let (crown, lean) = fix.preset_rad.unwrap_or_default();
            let lean = if lean.abs() > 5e-4 {
                format!(" and pre-tilt it by {}", show::angle(lean.abs(), system))
            } else {
                String::new()
            };
            format!(
                "preset the flanges: pre-bend the {flange} of {} by {} each half{lean}, {size} of packing under the flange toe (`weldbow predict`)",
                fix.mark,
                show::angle(crown, system)
            )
        }
        Measure::NarrowScatter => {
            let left = 100.0 * fix.scatter_left.unwrap_or(1.0);
            format!(
                "narrow the scatter from piece to piece to {left:.0} % of today's: tacks, fit-up gap, legs, heat input"
            )
        }
    }
}

/// What it saves.
pub(crate) fn saves(fix: &Fix, hours: f64) -> String {
    let h = &fix.hours_saved;
    let hours = if h.expected > LEAST_H {
        format!(
            "saves {} of {} h ({}), ",
            figure(h.expected),
            figure(hours),
            range(h.low.max(0.0), h.high.max(0.0))
        )
    } else {
        String::new()
    };
    let blocked = fix.blocked_saved.expected;
    let blocked = if blocked > LEAST_PIECES {
        // two savings: a piece that was blocked may still need it, so that neither is a part of the other
        format!(" and {} fewer that this shop cannot straighten", figure(blocked))
    } else {
        String::new()
    };
    format!("{hours}{} pieces fewer to straighten{blocked}", figure(fix.pieces_saved.expected))
}

/// "12.4", "< 0.1", "0"; no decimals from 100 on.
pub(crate) fn figure(value: f64) -> String {
    match value {
        v if !v.is_finite() => "not known".to_owned(),
        v if v <= 0.0 => "0".to_owned(),
        v if v < 0.05 => "< 0.1".to_owned(),
        v if v < 99.95 => format!("{v:.1}"),
        v => format!("{v:.0}"),
    }
}

/// "2.0 … 31": where the model bias leaves it.
pub(super) fn range(low: f64, high: f64) -> String {
    format!("{} … {}", figure(low), figure(high))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_little_is_not_nothing() {
        let all = [0.0, -0.0, 0.02, 0.05, 3.21, 99.96, 1234.5, f64::NAN].map(figure);
        assert_eq!(all, ["0", "0", "< 0.1", "0.1", "3.2", "100", "1234", "not known"]);
        assert_eq!(range(0.0, 31.2), "0 … 31.2");
    }
}
