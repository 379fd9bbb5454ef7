//! Prevention, with what it saves and the number that goes with it.

use super::tally::ExpectedRange;
use super::what_if::{Measure, NARROWED};
use crate::member::Seam;
use crate::prediction::Prediction;
use serde::Serialize;

/// One measure of prevention for a mark or a family.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Fix {
    /// What is done.
    pub measure: Measure,
    /// Hours it saves; below 0 it costs some.
    pub hours_saved: ExpectedRange,
    /// Pieces that then need no straightening.
    pub pieces_saved: ExpectedRange,
    /// Pieces among these that no method mends today.
    pub blocked_saved: ExpectedRange,
    /// The mark whose number is told.
    pub mark: String,
    /// Size of it, mm, with its sign: web ordinate, sweep to be balanced, packing under a toe; 0 for scatter.
    pub size_mm: f64,
    /// Where along the member, mm from the start end.
    pub at_mm: f64,
    /// The flange to be preset.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub flange: Option<Seam>,
    /// Angle to crown each flange half away from the web, rad, and to lean the flange.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub preset_rad: Option<(f64, f64)>,
    /// Part of the scatter left.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub scatter_left: Option<f64>,
}

/// Hours that a piece which no method mends counts for in the order of what to fix (choice: it costs more than any press).
pub(crate) const BLOCKED_H: f64 = 1.0;

impl Fix {
    /// Hours saved, with an hour for each piece that no method mends today: what measures are put in order by.
    pub fn worth_h(&self) -> f64 {
        self.hours_saved.expected + BLOCKED_H * self.blocked_saved.expected
    }
}

/// A measure with the number of one mark, from its allowance; `saved`: hours, pieces, pieces that no method mends.
pub(super) fn fix(
    measure: Measure,
    mark: &str,
    p: &Prediction,
    [hours_saved, pieces_saved, blocked_saved]: [ExpectedRange; 3],
) -> Fix {
    let mut fix = Fix {
        measure,
        hours_saved,
        pieces_saved,
        blocked_saved,
        mark: mark.to_owned(),
        size_mm: 0.0,
        at_mm: 0.0,
        flange: None,
        preset_rad: None,
        scatter_left: None,
    };
    match measure {
        Measure::PreCamber => (fix.size_mm, fix.at_mm) = p.allowance.web.largest(),
        Measure::Balance => (fix.size_mm, fix.at_mm) = (p.sweep.max_mm, p.sweep.at_mm),
        Measure::Preset => {
            let size = |near: f64, far: f64| if near.abs() > far.abs() { near } else { far };
            let presets = p.allowance.presets.iter();
            let most = presets.max_by(|a, b| {
                let of =
                    |f: &crate::prediction::FlangePreset| size(f.near_packing_mm, f.far_packing_mm).abs();
                of(a).total_cmp(&of(b))
            });
            if let Some(f) = most {
                fix.size_mm = size(f.near_packing_mm, f.far_packing_mm);
                fix.at_mm = 0.5 * (f.from_mm + f.to_mm);
                fix.flange = Some(f.flange);
                fix.preset_rad = Some((f.crown_rad, f.lean_rad));
            }
        }
        Measure::NarrowScatter => fix.scatter_left = Some(NARROWED),
    }
    fix
}
