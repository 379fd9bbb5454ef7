//! How much an input matters for a result.

/// One input moved alone from low to high, everything else at its middle.
#[derive(Debug, Clone, PartialEq)]
pub struct OneAtATime {
    /// Name of the input.
    pub input: String,
    /// Its low and high value, worded with unit.
    pub ends: [String; 2],
    /// The result at the low and at the high value.
    pub results: [f64; 2],
    /// The result with every input at its middle.
    pub middle: f64,
}

/// Part of a result's variance that an input brings.
#[derive(Debug, Clone, PartialEq)]
pub struct Share {
    /// Name of the input.
    pub input: String,
    /// Alone (first order), with its standard error.
    pub alone: (f64, f64),
    /// Together with all others (total order), with its standard error.
    pub total: (f64, f64),
}
