//! What can go wrong in a section calculation, as data.

use super::solve::SolveError;

/// Why there is no result.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SectionError {
    /// A size is zero, negative or not a number.
    #[error("{name} is {value}; it must be a positive number")]
    NotPositive {
        /// The size.
        name: &'static str,
        /// Its value.
        value: f64,
    },
    /// A value lies outside what it may be.
    #[error("{name} is {value}; it must lie between {least} and {most}")]
    OutOfRange {
        /// What it is.
        name: &'static str,
        /// Its value.
        value: f64,
        /// Smallest allowed.
        least: f64,
        /// Largest allowed.
        most: f64,
    },
    /// A fillet does not fit on a plate.
    #[error("a fillet with a leg of {leg_mm} mm does not fit {on}, which offers {room_mm} mm")]
    FilletTooLarge {
        /// Leg, mm.
        leg_mm: f64,
        /// The plate.
        on: &'static str,
        /// Width of plate that is free for it, mm.
        room_mm: f64,
    },
    /// Nothing is asked for.
    #[error("the sequence has no pass")]
    NoPass,
    /// A pass lays a fillet that the joint does not have.
    #[error("pass {pass} lays a fillet on the {side} side; the joint has none there")]
    NoSuchFillet {
        /// Number of the pass, from 1.
        pass: usize,
        /// "near" or "far".
        side: &'static str,
    },
    /// Two passes lay one fillet.
    #[error("pass {pass} lays the fillet on the {side} side again")]
    LaidTwice {
        /// Number of the pass, from 1.
        pass: usize,
        /// "near" or "far".
        side: &'static str,
    },
    /// The mesh has too many unknowns.
    #[error("the mesh would have about {unknowns:.0} unknowns; at most {most} are allowed")]
    TooLarge {
        /// Estimated unknowns.
        unknowns: f64,
        /// Limit.
        most: usize,
    },
    /// The temperatures of a time step could not be found.
    #[error(
        "pass {pass}, {time_s:.3} s: no temperatures after {iterations} iterations, {left:.1e} of the heat left over"
    )]
    HeatDiverged {
        /// Number of the pass, from 1.
        pass: usize,
        /// Time since its arc came, s.
        time_s: f64,
        /// Iterations made.
        iterations: usize,
        /// Unbalanced heat over the heat of the step.
        left: f64,
    },
    /// The displacements of a time step could not be found, whatever its size.
    #[error(
        "pass {pass}, {time_s:.3} s: no equilibrium after {cuts} halvings of the step, {left:.1e} of the forces left over"
    )]
    NoEquilibrium {
        /// Number of the pass, from 1.
        pass: usize,
        /// Time since its arc came, s.
        time_s: f64,
        /// Times the step was halved.
        cuts: u32,
        /// Unbalanced force over the norm of the element forces.
        left: f64,
    },
    /// Whoever asked wants no result any more.
    #[error("stopped before the end")]
    Stopped,
    /// A linear system could not be solved.
    #[error("pass {pass}, {time_s:.3} s: {cause}")]
    Linear {
        /// Number of the pass, from 1.
        pass: usize,
        /// Time since its arc came, s.
        time_s: f64,
        /// What the solver found.
        cause: SolveError,
    },
}

/// `NotPositive` unless the flange stands out beside the web, `FilletTooLarge` for a leg that it or the web cannot take; the web
/// with its name and room, mm.
pub(crate) fn fillets_fit(
    legs_mm: [Option<f64>; 2],
    overhang_mm: f64,
    web: (&'static str, f64),
) -> Result<(), SectionError> {
    positive(&[("overhang of the flange beside the web, mm", overhang_mm)])?;
    for leg_mm in legs_mm.into_iter().flatten() {
        positive(&[("leg, mm", leg_mm)])?;
        if let Some((on, room_mm)) =
            [("the flange", overhang_mm), web].into_iter().find(|room| leg_mm >= room.1)
        {
            return Err(SectionError::FilletTooLarge { leg_mm, on, room_mm });
        }
    }
    Ok(())
}

/// `NotPositive` unless every named size is a positive finite number.
pub(crate) fn positive(sizes: &[(&'static str, f64)]) -> Result<(), SectionError> {
    match sizes.iter().find(|(_, value)| !(value.is_finite() && *value > 0.0)) {
        Some(&(name, value)) => Err(SectionError::NotPositive { name, value }),
        None => Ok(()),
    }
}

/// `OutOfRange` unless the value lies between the two, ends included.
pub(crate) fn within(name: &'static str, value: f64, least: f64, most: f64) -> Result<(), SectionError> {
    if value >= least && value <= most {
        Ok(())
    } else {
        Err(SectionError::OutOfRange { name, value, least, most })
    }
}
