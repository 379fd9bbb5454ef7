//! Why a text is not a quantity.

use super::Kind;
use thiserror::Error;

/// One cause each; every message ends with the forms that are accepted.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum ReadError {
    /// Nothing but blanks.
    #[error("nothing is written; {}", accepted(*kind))]
    Empty {
        /// Kind wanted.
        kind: Kind,
    },
    /// A number stands alone.
    #[error("`{number}` has no unit; {}", accepted(*kind))]
    NoUnit {
        /// Kind wanted.
        kind: Kind,
        /// The number.
        number: String,
    },
    /// A unit nobody knows.
    #[error("`{unit}` is not a unit of {}{}; {}", kind.noun(), meant(*nearest), accepted(*kind))]
    UnknownUnit {
        /// Kind wanted.
        kind: Kind,
        /// As written.
        unit: String,
        /// The accepted spelling that comes nearest, if one is near.
        nearest: Option<&'static str>,
    },
    /// A unit of something else.
    #[error("{unit} is {is}, here {} {} is wanted; {}", kind.article(), kind.noun(), accepted(*kind))]
    OtherKind {
        /// Kind wanted.
        kind: Kind,
        /// As written.
        unit: String,
        /// What it is a unit of, with its article: "a heat input".
        is: String,
    },
    /// No number where one should be, or one in a form not accepted.
    #[error("`{text}` does not read as a number and a unit; {}", accepted(*kind))]
    NotANumber {
        /// Kind wanted.
        kind: Kind,
        /// As written.
        text: String,
    },
    /// A comma in a number.
    #[error(
        "`{text}` has a comma; write decimals with a point (9.5) and thousands unmarked (9500); {}",
        accepted(*kind)
    )]
    Comma {
        /// Kind wanted.
        kind: Kind,
        /// As written.
        text: String,
    },
    /// Infinite, not a number, or too large to hold.
    #[error("`{text}` is not a finite number; {}", accepted(*kind))]
    NotFinite {
        /// Kind wanted.
        kind: Kind,
        /// As written.
        text: String,
    },
    /// A fraction over zero.
    #[error("`{text}` divides by zero; {}", accepted(*kind))]
    DividesByZero {
        /// Kind wanted.
        kind: Kind,
        /// As written.
        text: String,
    },
    /// Several parts where only one makes sense.
    #[error(
        "`{text}` has several parts, but {} {} is one number and one unit; {}",
        kind.article(),
        kind.noun(),
        accepted(*kind)
    )]
    SeveralParts {
        /// Kind wanted.
        kind: Kind,
        /// As written.
        text: String,
    },
    /// Parts of a sum that do not go from large to small units.
    #[error("`{text}` does not go from the larger unit to the smaller; {}", accepted(*kind))]
    PartsOutOfOrder {
        /// Kind wanted.
        kind: Kind,
        /// As written.
        text: String,
    },
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
