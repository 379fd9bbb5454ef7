//! Words whose quantities are read in either system of units.

use super::{System, show};
use serde::{Serialize, Serializer};
use std::borrow::Cow;
use std::fmt;

/// Words, or a quantity in engine units.
#[derive(Debug, Clone, PartialEq)]
pub enum Part {
    /// Words.
    Words(Cow<'static, str>),
    /// A place or a length along the member, mm.
    Position(f64),
    /// An offset or a stroke, mm.
    Offset(f64),
    /// An ordinate to cut to, mm.
    Ordinate(f64),
    /// Size of a plate, a leg or a stitch, mm.
    Plate(f64),
    /// A force, N.
    Force(f64),
    /// An energy, J.
    Energy(f64),
    /// A stress, MPa.
    Stress(f64),
    /// A shear flow, N/mm.
    Flow(f64),
    /// A heat input, J/mm.
    Heat(f64),
    /// Heat over the square of a thickness, J/mm³.
    HeatDensity(f64),
    /// An angle, rad.
    Angle(f64),
    /// A turn of a whole member, rad.
    Turn(f64),
    /// A temperature not to pass, °C.
    Hottest(f64),
    /// A difference of temperature, K.
    Warmer(f64),
    /// A travel speed, mm/s.
    Speed(f64),
}

impl<W: Into<Cow<'static, str>>> From<W> for Part {
    fn from(words: W) -> Self {
        Self::Words(words.into())
    }
}

/// A sentence, or part of one, put together from words and quantities. Shown and written (JSON) in SI; [`Message::in_units`]
/// gives either system.
///
/// ```
/// use weldbow_engine::units::{Message, Part, System};
/// let said = Message::of("a ram at {}", [Part::Position(4250.0)]).and(" stands on a splice");
/// assert_eq!(said.to_string(), "a ram at 4.25 m stands on a splice");
/// assert_eq!(said.in_units(System::Us), "a ram at 13 ft 11 in stands on a splice");
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Message(Vec<Part>);

impl Message {
    /// A sentence with its parts in the places of `{}`.
    ///
    /// ```
    /// use weldbow_engine::units::{Part, Message, System};
    /// let said = Message::of("leg {} on a {} plate", [Part::Plate(6.35), Part::Plate(4.7625)]);
    /// assert_eq!(said.to_string(), "leg 6.3 mm on a 4.8 mm plate");
    /// assert_eq!(said.in_units(System::Us), "leg 1/4 in on a 3/16 in plate");
    /// ```
    pub fn of(sentence: &'static str, parts: impl IntoIterator<Item = Part>) -> Self {
        // a search for one letter has nothing to prepare; no sentence has a brace of its own
        let mut words = sentence.split('{').map(|words| words.strip_prefix('}').unwrap_or(words));
        let parts = parts.into_iter();
        let mut said = Vec::with_capacity(1 + 2 * parts.size_hint().0);
        said.extend(words.next().map(Part::from));
        for (part, words) in parts.zip(words) {
            said.extend([part, words.into()]);
        }
        Self(said)
    }

    /// More words.
    #[must_use]
    pub fn and(mut self, words: impl Into<Cow<'static, str>>) -> Self {
        self.0.push(Part::Words(words.into()));
        self
    }

    /// Another sentence behind it.
    #[must_use]
    pub fn then(mut self, other: Self) -> Self {
        self.0.extend(other.0);
        self
    }

    /// The words with their quantities in those units.
    pub fn in_units(&self, system: System) -> String {
        let one = |part: &Part| match part {
            Part::Words(words) => words.to_string(),
            Part::Position(mm) => show::position(*mm, system),
            Part::Offset(mm) => show::offset(*mm, system),
            Part::Ordinate(mm) => show::ordinate(*mm, system),
            Part::Plate(mm) => show::plate(*mm, system),
            Part::Stress(mpa) => show::stress(*mpa, system),
            Part::Flow(n_per_mm) => show::flow(*n_per_mm, system),
            Part::Heat(j_per_mm) => show::heat_input(*j_per_mm, system),
            Part::HeatDensity(j_per_mm3) => show::heat_density(*j_per_mm3, system),
            Part::Force(n) => show::force(*n, system),
            Part::Energy(j) => show::energy(*j, system),
            Part::Angle(rad) => show::angle(*rad, system),
            Part::Turn(rad) => show::turn(*rad, system),
            Part::Hottest(c) => show::hottest(*c, system),
            Part::Warmer(k) => show::warmer(*k, system),
            Part::Speed(mm_per_s) => show::speed(*mm_per_s, system),
        };
        self.0.iter().map(one).collect()
    }
}

impl<W: Into<Cow<'static, str>>> From<W> for Message {
    fn from(words: W) -> Self {
        Self(vec![Part::Words(words.into())])
    }
}

impl fmt::Display for Message {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.in_units(System::Si))
    }
}

impl Serialize for Message {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}
