//! Why a text is not a quantity.

use super::Kind;
use thiserror::Error;

/// What is wrong with a text that should be a quantity; the message ends with the forms that are accepted.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("{}; {}", why.said(*kind, text), accepted(*kind))]
pub struct ReadError {
    /// Kind wanted.
    pub(super) kind: Kind,
    /// The part of it that is at fault, as written.
    pub(super) text: String,
    /// One cause.
    pub(super) why: Fault,
}

/// Why there is no quantity, or no number at its start.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Fault {
    /// Nothing but blanks.
    Empty,
    /// A number stands alone.
    NoUnit,
    /// A unit nobody knows; the accepted spelling that comes nearest, if one is near.
    UnknownUnit(Option<&'static str>),
    /// A unit of something else, with its article: "a heat input".
    OtherKind(String),
    /// No number where one should be, or one in a form not accepted.
    NotANumber,
    /// A comma in a number.
    Comma,
    /// Infinite, not a number, or too large to hold.
    NotFinite,
    /// A fraction over zero.
    DividesByZero,
    /// Several parts where only one makes sense.
    SeveralParts,
    /// Parts of a sum that do not go from large to small units.
    PartsOutOfOrder,
}

impl Fault {
    fn said(&self, kind: Kind, text: &str) -> String {
        let (a, noun) = (kind.article(), kind.noun());
        match self {
            Self::Empty => "nothing is written".to_owned(),
            Self::NoUnit => format!("`{text}` has no unit"),
            Self::UnknownUnit(near) => format!("`{text}` is not a unit of {noun}{}", meant(*near)),
            Self::OtherKind(is) => format!("{text} is {is}, here {a} {noun} is wanted"),
            Self::NotANumber => format!("`{text}` does not read as a number and a unit"),
            Self::Comma => format!(
                "`{text}` has a comma; write decimals with a point (9.5) and thousands unmarked (9500)"
            ),
            Self::NotFinite => format!("`{text}` is not a finite number"),
            Self::DividesByZero => format!("`{text}` divides by zero"),
            Self::SeveralParts => {
                format!("`{text}` has several parts, but {a} {noun} is one number and one unit")
            }
            Self::PartsOutOfOrder => format!("`{text}` does not go from the larger unit to the smaller"),
        }
    }
}

fn meant(nearest: Option<&str>) -> String {
    nearest.map(|n| format!(" (did you mean `{n}`?)")).unwrap_or_default()
}

fn accepted(kind: Kind) -> String {
    let [one, two] = kind.examples();
    let units: Vec<&str> = kind.units().iter().map(|u| u.spelling).collect();
    format!(
        "write {} {} such as \"{one}\" or \"{two}\" (units: {})",
        kind.article(),
        kind.noun(),
        units.join(", ")
    )
}
