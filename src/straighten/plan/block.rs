//! What stands in the way of a method, and what would help.

use serde::Serialize;

/// The limit that blocks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Limit {
    /// The shop has no such tool.
    NoTool,
    /// Advice is withheld.
    Refused,
    /// Strain of a push.
    Strain,
    /// Force of the press.
    Force,
    /// Stroke of the press.
    Stroke,
    /// Web, flange edge or shear under ram or support.
    Plates,
    /// A plate would buckle before it yields.
    Slender,
    /// Supports do not fit on the member.
    Span,
    /// No free places, or too many would be needed.
    Places,
    /// More heats or passes than advised.
    Heats,
    /// No method is offered for this.
    NoMethod,
}

/// A method that is blocked.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Block {
    /// Method in words.
    pub method: &'static str,
    /// Which limit.
    pub limit: Limit,
    /// What was found, with numbers.
    pub found: String,
    /// What would help.
    pub help: String,
}

impl Block {
    /// A block.
    pub fn new(
        method: &'static str,
        limit: Limit,
        found: impl Into<String>,
        help: impl Into<String>,
    ) -> Self {
        Self { method, limit, found: found.into(), help: help.into() }
    }
}
