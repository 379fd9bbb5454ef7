//! A ± by where it comes from, and the one sentence that says so.

use crate::units::{Message, Part};
use serde::Serialize;

/// The two standard deviations of a size, divided by where they come from; their squares add up.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize)]
pub struct Divided {
    /// All of it.
    #[serde(skip)]
    pub all_mm: f64,
    /// What the model may be wrong by, for all pieces alike, mm.
    pub shared_mm: f64,
    /// What differs from weld to weld, mm.
    pub welding_mm: f64,
    /// What plates and assembly bring, differing from piece to piece, mm.
    pub plates_mm: f64,
}

impl Divided {
    /// Divided in the same parts, of another size in all, mm.
    pub(super) fn scaled_to(&self, all_mm: f64) -> Self {
        let times = if self.all_mm > 0.0 { all_mm / self.all_mm } else { 0.0 };
        let [shared_mm, welding_mm, plates_mm] =
            [self.shared_mm, self.welding_mm, self.plates_mm].map(|part| part * times);
        Self { all_mm, shared_mm, welding_mm, plates_mm }
    }

    /// The one sentence that says so, the same wherever a ± is divided.
    ///
    /// ```
    /// use weldbow_engine::prediction::Divided;
    /// let d = Divided { all_mm: 9.5, shared_mm: 1.6, welding_mm: 0.9, plates_mm: 9.3 };
    /// let said = "± 9.5 mm: 1.6 mm all pieces share, 0.9 mm weld to weld, 9.3 mm plates";
    /// assert_eq!(d.sentence().to_string(), said);
    /// ```
    pub fn sentence(&self) -> Message {
        Message::of(
            "± {}: {} all pieces share, {} weld to weld, {} plates",
            [self.all_mm, self.shared_mm, self.welding_mm, self.plates_mm].map(Part::Offset),
        )
    }
}

/// The same of a turn.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize)]
pub struct DividedTurn {
    /// What the model may be wrong by, for all pieces alike, rad.
    pub shared_rad: f64,
    /// What differs from weld to weld, rad.
    pub welding_rad: f64,
    /// What flange strips bring that come bowed unlike, differing from piece to piece, rad.
    pub plates_rad: f64,
}

impl DividedTurn {
    /// All of it, rad.
    pub(crate) fn all_rad(&self) -> f64 {
        self.shared_rad.hypot(self.welding_rad).hypot(self.plates_rad)
    }

    /// The one sentence that says so.
    ///
    /// ```
    /// use weldbow_engine::prediction::DividedTurn;
    /// let d = DividedTurn { shared_rad: 1.6e-3, welding_rad: 0.9e-3, plates_rad: 9.3e-3 };
    /// let said = "± 0.54°: 0.09° all pieces share, 0.05° from weld to weld, 0.53° by plates";
    /// assert_eq!(d.sentence().to_string(), said);
    /// ```
    pub fn sentence(&self) -> Message {
        Message::of(
            "± {}: {} all pieces share, {} from weld to weld, {} by plates",
            [self.all_rad(), self.shared_rad, self.welding_rad, self.plates_rad].map(Part::Turn),
        )
    }
}
