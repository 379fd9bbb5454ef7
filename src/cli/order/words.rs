//! A measure of prevention as a sentence a foreman can act on.

use super::figures::{figure, range};
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
