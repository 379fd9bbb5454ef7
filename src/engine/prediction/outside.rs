//! Where a prediction is outside what its model covers: its numbers are then none.

use super::{Bow, Code, Prediction};
use crate::units::Message;
use serde::Serialize;

/// Largest bow over the length: rotations are taken as small (choice: at a fiftieth a bow's ends turn by 5°, and tan differs from
/// the angle by 0.2 %; finished members lie within a five-hundredth).
pub const LARGEST_BOW: f64 = 1.0 / 50.0;

/// A result that is no number.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outside {
    /// Fields of the prediction that hold no number because of it.
    pub fields: &'static [&'static str],
    /// Why.
    pub reason: Message,
}

/// What of a prediction is outside the model; nothing, mostly.
pub fn outside(prediction: &Prediction) -> Vec<Outside> {
    const ALL: &[&str] = &[
        "shortening_mm",
        "shortening",
        "camber",
        "sweep",
        "passes",
        "build_up",
        "ripple",
        "allowance",
        "verdicts",
    ];
    let through = prediction.warnings.iter().filter(|w| w.code == Code::HeatedThrough);
    let mut all: Vec<Outside> = through.map(|w| Outside { fields: ALL, reason: w.text.clone() }).collect();
    let fields: [&[&str]; 2] = [&["camber", "build_up", "allowance"], &["sweep", "build_up"]];
    for ((name, bow), fields) in
        [("camber", &prediction.camber), ("sweep", &prediction.sweep)].into_iter().zip(fields)
    {
        let length_mm = bow.profile.last().map_or(0.0, |end| end[0]);
        if !within(bow, length_mm) {
            let reason = format!(
                "{name} would be more than a fiftieth of the length: the model takes rotations as small; check heat, legs, plates and \
                 factors of the job"
            );
            all.push(Outside { fields, reason: reason.into() });
        }
    }
    all
}

fn within(bow: &Bow, length_mm: f64) -> bool {
    // what is no number is not within either
    (bow.max_mm.abs() + bow.max_2s_mm.abs()).is_finite() && bow.max_mm.abs() <= LARGEST_BOW * length_mm
}
