//! Arguments that are one of the words of an enum of the engine: the words are those it is written with in files, and what
//! each means is said here.

use crate::choose::{Objective, Sides, Waits};
use crate::joint_solver::{Lengthwise, Root};
use crate::member::Seam;
use crate::units::System;
use clap::builder::{PossibleValue, PossibleValuesParser, TypedValueParser};

/// A word, its value, and what it means.
pub(crate) type Word<T> = (&'static str, T, &'static str);

/// Units to show results in.
pub(crate) const UNITS: &[Word<System>] = &[
    ("si", System::Si, "Millimetres, kilonewtons, megapascals"),
    ("us", System::Us, "Feet, inches, kips, ksi"),
];
/// What to make small.
pub(crate) const OBJECTIVES: &[Word<Objective>] = &[
    (
        "least-time",
        Objective::LeastTime,
        "Time in all: arc, handling, waiting, changes of setting and procedure",
    ),
    (
        "least-cost",
        Objective::LeastCost,
        "Money in all: crew and place, waiting, wire and flux, by the rates of the shop file",
    ),
    ("least-distortion", Objective::LeastDistortion, "The share of the tightest tolerance that is used up"),
    ("least-arc-time", Objective::LeastArcTime, "Time the arc burns"),
    ("least-metal", Objective::LeastMetal, "Deposited metal"),
    ("balanced-camber", Objective::BalancedCamber, "Camber off the wanted one"),
];
/// Sides to weld.
pub(crate) const SIDES: &[Word<Sides>] = &[
    ("any", Sides::Any, "Whatever works"),
    ("one", Sides::One, "The near side only"),
    ("both", Sides::Both, "Both sides all along"),
];
/// Waits between runs.
pub(crate) const WAITS: &[Word<Waits>] = &[
    ("any", Waits::Any, "Whatever works"),
    ("straight-on", Waits::StraightOn, "Only what handling takes"),
    ("cold", Waits::Cold, "Until it is cold"),
];
/// How the web foot meets the flange.
pub(crate) const ROOTS: &[Word<Root>] = &[
    ("tied", Root::Tied, "Web foot and flange are one"),
    ("slit", Root::Slit, "They touch but may part between the roots of the fillets"),
];

/// How a slice is held lengthwise.
pub(crate) const LENGTHWISE: &[Word<Lengthwise>] = &[
    ("free", Lengthwise::Free, "Free at every instant: a member welded alone"),
    (
        "held",
        Lengthwise::Held,
        "Held, and read while held: the tendon force of a section much larger than its hot strip",
    ),
];
/// Seams; none for each that is welded there.
pub(crate) const SEAMS: &[Word<Option<Seam>>] = &[
    ("outer", Some(Seam::Outer), "The straight side"),
    ("inner", Some(Seam::Inner), "The tapered side"),
    ("both", None, "Each seam that is welded there"),
];

/// Reads one of these words; what is least may be named alone.
pub(crate) fn one_of<T: Copy + Send + Sync + 'static>(
    words: &'static [Word<T>],
) -> impl TypedValueParser<Value = T> {
    fn short(word: &'static str) -> Option<&'static str> {
        word.strip_prefix("least-")
    }
    let all =
        words.iter().map(|(word, _, means)| PossibleValue::new(*word).help(*means).aliases(short(word)));
    PossibleValuesParser::new(all).try_map(|found| {
        let known = words.iter().find(|(word, ..)| *word == found || short(word) == Some(found.as_str()));
        known.map(|(_, value, _)| *value).ok_or("no such word")
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde::Serialize;

    fn written<T: Serialize + Copy + std::fmt::Debug>(words: &[Word<T>]) {
        for (word, value, means) in words {
            assert_eq!(serde_json::to_value(value).unwrap(), *word, "{value:?}");
            assert!(!means.is_empty());
        }
    }

    #[test]
    fn words_of_arguments_are_those_the_engine_writes() {
        written(UNITS);
        written(OBJECTIVES);
        written(SIDES);
        written(WAITS);
        written(ROOTS);
        written(LENGTHWISE);
        written(&SEAMS[..2]);
    }
}
