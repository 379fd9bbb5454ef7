//! Words whose quantities are read in either system of units.

use super::{System, show};
use serde::{Serialize, Serializer};
use std::borrow::Cow;
use std::fmt;

#[derive(Debug, Clone, PartialEq)]
enum Part {
    Words(Cow<'static, str>),
    Position(f64),
    Offset(f64),
    Force(f64),
    Angle(f64),
    Hottest(f64),
}

/// A sentence, or part of one, put together from words and quantities. Shown and written (JSON) in SI; [`Said::in_units`]
/// gives either system.
///
/// ```
/// use weldbow_engine::units::{Said, System};
/// let said = Said::from("a ram at ").position(4250.0).and(" stands on a splice");
/// assert_eq!(said.to_string(), "a ram at 4.25 m stands on a splice");
/// assert_eq!(said.in_units(System::Us), "a ram at 13 ft 11 in stands on a splice");
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Said(Vec<Part>);

impl Said {
    fn with(mut self, part: Part) -> Self {
        self.0.push(part);
        self
    }

    /// More words.
    #[must_use]
    pub fn and(self, words: impl Into<Cow<'static, str>>) -> Self {
        self.with(Part::Words(words.into()))
    }

    /// A place or a length along the member, mm.
    #[must_use]
    pub fn position(self, mm: f64) -> Self {
        self.with(Part::Position(mm))
    }

    /// An offset or a stroke, mm.
    #[must_use]
    pub fn offset(self, mm: f64) -> Self {
        self.with(Part::Offset(mm))
    }

    /// A force, N.
    #[must_use]
    pub fn force(self, n: f64) -> Self {
        self.with(Part::Force(n))
    }

    /// An angle, rad.
    #[must_use]
    pub fn angle(self, rad: f64) -> Self {
        self.with(Part::Angle(rad))
    }

    /// A temperature not to pass, °C.
    #[must_use]
    pub fn hottest(self, c: f64) -> Self {
        self.with(Part::Hottest(c))
    }

    /// The words with their quantities in those units.
    pub fn in_units(&self, system: System) -> String {
        let one = |part: &Part| match part {
            Part::Words(words) => words.to_string(),
            Part::Position(mm) => show::position(*mm, system),
            Part::Offset(mm) => show::offset(*mm, system),
            Part::Force(n) => show::force(*n, system),
            Part::Angle(rad) => show::angle(*rad, system),
            Part::Hottest(c) => show::hottest(*c, system),
        };
        self.0.iter().map(one).collect()
    }
}

impl From<&'static str> for Said {
    fn from(words: &'static str) -> Self {
        Self(vec![Part::Words(words.into())])
    }
}

impl From<String> for Said {
    fn from(words: String) -> Self {
        Self(vec![Part::Words(words.into())])
    }
}

impl fmt::Display for Said {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.in_units(System::Si))
    }
}

impl Serialize for Said {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}
