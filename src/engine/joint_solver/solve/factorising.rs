//! What a factor is asked for, and why it may be refused.

/// Most right-hand sides solved at once: the loads and the three of the plane section.
pub(crate) const MOST_SIDES: usize = 4;

/// Why a system could not be solved.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum SolveError {
    /// The matrix is not positive definite: something is not held, or a value is not a number.
    #[error("the matrix is not positive definite")]
    NotPositiveDefinite,
    /// The pattern could not be analysed, for want of memory.
    #[error("no memory for a system of {unknowns} unknowns")]
    NoMemory {
        /// Size of the system.
        unknowns: usize,
    },
    /// The solution holds an infinity or a NaN.
    #[error("the solution of the linear system is not finite")]
    NotFinite,
}

/// How rows of the factor are grouped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Grouping {
    /// One by one: quicker with one unknown a node.
    Single,
    /// In dense blocks: quicker with two unknowns a node.
    Blocks,
}
