//! Why a push cannot be worked out.

use crate::numerics::RootError;
use thiserror::Error;

/// A push that makes no sense, or that plain bending cannot give.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum PressError {
    /// Supports outside the member, or not one after the other.
    #[error(
        "supports at {from_mm} and {to_mm} mm do not both lie on a member of {length_mm} mm, in that order"
    )]
    Supports {
        /// First support, mm.
        from_mm: f64,
        /// Second support, mm.
        to_mm: f64,
        /// Length of the member, mm.
        length_mm: f64,
    },
    /// A ram that is not between the supports.
    #[error("the ram at {at_mm} mm is not between the supports at {from_mm} and {to_mm} mm")]
    Ram {
        /// Ram, mm.
        at_mm: f64,
        /// First support, mm.
        from_mm: f64,
        /// Second support, mm.
        to_mm: f64,
    },
    /// A plate, yield or modulus of no size.
    #[error("the member has a plate, yield or modulus without a positive finite size near {at_mm} mm")]
    NoSection {
        /// Where, mm.
        at_mm: f64,
    },
    /// A wanted value that is not a positive number.
    #[error("the wanted {what} must be a positive number, not {value}")]
    NotPositive {
        /// Name with unit.
        what: &'static str,
        /// Value given.
        value: f64,
    },
    /// More than bending gives before a plastic hinge forms: the member would kink.
    #[error("{wanted} wanted, but a plastic hinge forms at {largest}: the member would kink there")]
    BeyondHinge {
        /// Wanted, mm or rad.
        wanted: f64,
        /// Largest before the hinge, in the same unit.
        largest: f64,
    },
    /// The search came to no end.
    #[error("no load was found that gives {wanted}")]
    NotFound {
        /// Wanted, mm or rad.
        wanted: f64,
    },
    /// The search found no change of sign.
    #[error("no load gives it: {0}")]
    NoLoad(#[from] RootError),
}
