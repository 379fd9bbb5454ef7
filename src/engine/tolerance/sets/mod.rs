//! The sets of limits a job can name, one file a standard.

mod aws_d1_1;
mod en_1090_2;
mod iso_13920;
mod metal_building;
#[cfg(test)]
mod walk_tests;

use super::{Limit, Quantity};
use iso_13920::{FormClass, Linear};
use serde::{Serialize, Serializer};

/// A set of limits, as a job names it.
///
/// ```
/// use weldbow_engine::tolerance::{Quantity, Set};
/// let set = Set::parse("en-1090-2-class-1").unwrap();
/// assert_eq!(set.name(), "en-1090-2-class-1");
/// assert_eq!(set.limits_of(Quantity::Sweep).next().unwrap().words, "L/1000, at least 5 mm");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Set {
    /// AWS D1.1/D1.1M:2020, clause 7.22 (5.22 in 2015, 5.23 in 2010), columns and beams apart. Known from
    /// memory, but for flange and web flatness, read on a copy of an earlier edition. Not seen: the 2020 text.
    AwsD11,
    /// EN 1090-2:2018, Annex B, functional manufacturing tolerances, class 1 (the default class). Known from
    /// others' accounts (straightness, length) and from memory; the limit on a wanted camber is to be
    /// checked. Not seen: the standard, its figures, the 2024 amendment.
    En1090Class1,
    /// The same, class 2 (only where a specification asks for it); known in the same ways.
    En1090Class2,
    /// EN 1090-2:2018, Annex B, essential manufacturing tolerances, which bind beside either class. Recalled, none confirmed: they
    /// could govern. Not seen: the standard, its figures, the 2024 amendment.
    En1090Essential,
    /// ISO 13920:2023, tables 1, 2 and 3. Known from two accounts that agree. Not seen: the standard;
    /// how its tables meet a flange is inferred.
    Iso13920 {
        /// Class for lengths and angles.
        linear: Linear,
        /// Class for straightness and flatness.
        form: FormClass,
    },
    /// Common practice of the metal building trade, built-up members, table of 2012. The table was read on a
    /// copy. Not seen: the figures that explain its letters, so that flange tilt is inferred.
    MetalBuilding,
}

impl Set {
    /// Every set.
    pub fn all() -> impl Iterator<Item = Self> {
        let iso = Linear::ALL
            .into_iter()
            .flat_map(|linear| FormClass::ALL.into_iter().map(move |form| Self::Iso13920 { linear, form }));
        [Self::AwsD11, Self::En1090Class1, Self::En1090Class2, Self::En1090Essential, Self::MetalBuilding]
            .into_iter()
            .chain(iso)
    }

    /// The name of every set, as written in a job.
    pub fn names() -> impl Iterator<Item = &'static str> {
        Self::all().map(Self::name)
    }

    /// The set of that name; None if there is none.
    pub fn parse(name: &str) -> Option<Self> {
        Self::all().find(|set| set.name() == name)
    }

    /// Its name, as written in a job.
    pub fn name(self) -> &'static str {
        match self {
            Self::AwsD11 => "aws-d1.1",
            Self::En1090Class1 => "en-1090-2-class-1",
            Self::En1090Class2 => "en-1090-2-class-2",
            Self::En1090Essential => "en-1090-2-essential",
            Self::Iso13920 { linear, form } => iso_13920::name(linear, form),
            Self::MetalBuilding => "metal-building",
        }
    }

    /// Its full title, with the edition.
    pub fn title(self) -> &'static str {
        match self {
            Self::AwsD11 => "AWS D1.1/D1.1M:2020",
            Self::En1090Class1 => "EN 1090-2:2018, functional class 1",
            Self::En1090Class2 => "EN 1090-2:2018, functional class 2",
            Self::En1090Essential => "EN 1090-2:2018, essential",
            Self::Iso13920 { linear, form } => iso_13920::title(linear, form),
            Self::MetalBuilding => "metal building practice, 2012 table",
        }
    }

    /// Its limits.
    pub fn limits(self) -> &'static [Limit] {
        match self {
            Self::AwsD11 => aws_d1_1::LIMITS,
            Self::En1090Class1 => en_1090_2::CLASS_1,
            Self::En1090Class2 => en_1090_2::CLASS_2,
            Self::En1090Essential => en_1090_2::ESSENTIAL,
            Self::Iso13920 { linear, form } => iso_13920::limits(linear, form),
            Self::MetalBuilding => metal_building::LIMITS,
        }
    }

    /// What the standard limits and is not judged here, or does not limit at all.
    pub const fn not_covered(self) -> &'static str {
        match self {
            Self::AwsD11 => {
                "depth, web off centre, bearing stiffeners, length; twist of an I-member has no limit there (by agreement)"
            }
            Self::En1090Class1 | Self::En1090Class2 => {
                "depth, flange width, web off centre, squareness of ends and bearings; essential limits are a set of their own, \
                 en-1090-2-essential"
            }
            Self::En1090Essential => {
                "depth, flange width, squareness at bearings, straightness as erected (L/750, table B.25)"
            }
            Self::Iso13920 { .. } => {
                "depth and other lengths across; twist and the web have no limit of their own there"
            }
            Self::MetalBuilding => "depth, web off centre, end plates, holes; twist has no limit there",
        }
    }

    /// Its limits on one quantity; some of them may not apply to a given member.
    pub fn limits_of(self, quantity: Quantity) -> impl Iterator<Item = &'static Limit> {
        self.limits().iter().filter(move |limit| limit.quantity == quantity)
    }
}

impl Serialize for Set {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.name())
    }
}
