//! A limit: a length, or a part of the member's length.

use super::text::written_as_text;
use crate::units::{Kind, Length, read};
use serde::{Serialize, Serializer};

/// "10 mm", or "L/500".
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LimitShape {
    /// A length.
    Length(Length),
    /// The member's length divided by this number.
    PartOfLength(f64),
}

impl LimitShape {
    /// Size for a member of that length, mm.
    pub(crate) fn size_mm(self, length_mm: f64) -> f64 {
        match self {
            Self::Length(length) => length.value(),
            Self::PartOfLength(divisor) => length_mm / divisor,
        }
    }

    /// Divisor of the member's length, if it is given as one.
    pub(crate) const fn part_of_length(self) -> Option<f64> {
        match self {
            Self::Length(_) => None,
            Self::PartOfLength(divisor) => Some(divisor),
        }
    }

    fn read(text: &str) -> Result<Self, String> {
        let Some(part) = text.trim().strip_prefix(['L', 'l']) else {
            let length = read(Kind::Length, text).map_err(|error| error.to_string());
            return length.map(|mm| Self::Length(Length::new(mm)));
        };
        let divisor = part.trim().strip_prefix('/').and_then(|d| d.trim().parse::<f64>().ok());
        match divisor {
            Some(divisor) if divisor.is_finite() && divisor > 0.0 => Ok(Self::PartOfLength(divisor)),
            _ => Err("after `L` comes `/` and a number above zero, as \"L/500\"".to_owned()),
        }
    }
}

impl Serialize for LimitShape {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Length(length) => length.serialize(serializer),
            Self::PartOfLength(divisor) => serializer.collect_str(&format_args!("L/{divisor}")),
        }
    }
}

written_as_text!(
    LimitShape,
    "Limit",
    ["10 mm", "L/500"],
    "a length with its unit, as \"10 mm\", or a part of the member's length, as \"L/500\""
);
