//! A stitch weld: so much weld, so much gap, over and over.

use super::text::written_as_text;
use crate::units::{Kind, Length, read};
use crate::welding::Stitch;
use serde::{Serialize, Serializer};

/// "200 mm weld, 100 mm gap".
#[derive(Debug, Clone, PartialEq)]
pub struct StitchShape {
    text: String,
    weld: Length,
    gap: Length,
}

impl StitchShape {
    /// Length of each stitch, mm.
    pub(crate) fn weld_mm(&self) -> f64 {
        self.weld.value()
    }

    /// Clear length between stitches, mm.
    pub(crate) fn gap_mm(&self) -> f64 {
        self.gap.value()
    }

    /// Both.
    pub(crate) fn stitch(&self) -> Stitch {
        Stitch { weld_mm: self.weld_mm(), gap_mm: self.gap_mm() }
    }

    fn read(text: &str) -> Result<Self, String> {
        let parts = text.split_once(',').and_then(|(weld, gap)| {
            Some((weld.trim().strip_suffix("weld")?.trim(), gap.trim().strip_suffix("gap")?.trim()))
        });
        let Some((weld, gap)) = parts else {
            return Err("write it as \"200 mm weld, 100 mm gap\"".to_owned());
        };
        let length = |text| read(Kind::Length, text).map(Length::new).map_err(|error| error.to_string());
        Ok(Self { text: text.to_owned(), weld: length(weld)?, gap: length(gap)? })
    }
}

impl Serialize for StitchShape {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text)
    }
}

written_as_text!(
    StitchShape,
    "Stitch",
    ["200 mm weld, 100 mm gap"],
    "the length of weld and of gap, as \"200 mm weld, 100 mm gap\""
);
