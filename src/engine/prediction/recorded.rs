//! A shop's record beside a job: for which jobs it speaks, and what it says for each procedure.

use super::factors::Factors;
use super::learned::Learned;
use crate::units::Message;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Name of what was not measured.
pub const ANY: &str = "any";

/// What pieces were like.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Scope {
    /// Shortest and longest, mm.
    pub length_mm: [f64; 2],
    /// Thinnest and thickest web, mm.
    pub web_mm: [f64; 2],
    /// Thinnest and thickest flange, mm.
    pub flange_mm: [f64; 2],
    /// Smallest and largest leg, mm.
    pub leg_mm: [f64; 2],
    /// Least and most net heat of a pass, J/mm.
    pub heat_j_per_mm: [f64; 2],
    /// Least and most yield strength, MPa.
    pub yield_mpa: [f64; 2],
    /// Whether seams welded from one side were among them.
    pub one_side: bool,
    /// Whether seams welded from both sides were among them.
    pub both_sides: bool,
    /// Whether stitches were among them.
    pub stitches: bool,
}

/// What a record says of members of one line and family.
#[derive(Debug, Clone, PartialEq)]
pub struct Recorded {
    /// What it rests on, as in "36 measured pieces to 2026-05-11".
    pub from: String,
    /// Days since the last of them.
    pub days_old: Option<i64>,
    /// What the pieces were like.
    pub scope: Scope,
    /// Why it says nothing of this line, if it does not.
    pub(crate) other_line: Option<Message>,
    /// Line and family of the pieces, in words.
    pub whose: String,
    /// Procedure by procedure; [`ANY`] for one that was not measured, empty for one without a name.
    pub ways: Vec<(String, Learned)>,
    /// Factors of the job without it.
    pub factors: Factors,
}
