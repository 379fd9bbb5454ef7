//! What stands in the way of a method, and what would help.

use crate::straighten::press::ForceCheck;
use crate::units::{Message, Part, System};
use serde::Serialize;

/// The limit that blocks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum BlockingLimit {
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
    /// Supports, rams or a jack do not fit on the member, or stand too near to each other.
    Span,
    /// Nothing keeps the member from going sideways while it is pushed.
    Sideways,
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
    pub limit: BlockingLimit,
    /// What was found, with numbers.
    pub found: Message,
    /// What would help.
    pub help: Message,
}

impl Block {
    /// A block.
    pub fn new(
        method: &'static str,
        limit: BlockingLimit,
        found: impl Into<Message>,
        help: impl Into<Message>,
    ) -> Self {
        Self { method, limit, found: found.into(), help: help.into() }
    }

    /// Work that the piece refuses.
    pub(super) fn refused(method: &'static str, work: &str) -> Self {
        Self::new(method, BlockingLimit::Refused, format!("{work} is refused"), "see the refusals")
    }

    /// Work that the shop has nothing for.
    pub(super) fn no_tool(method: &'static str, found: &'static str, help: &'static str) -> Self {
        Self::new(method, BlockingLimit::NoTool, found, help)
    }

    /// Heat on steel of which nobody knows how hot it may be made.
    pub(super) fn no_limit(method: &'static str) -> Self {
        Self::new(method, BlockingLimit::Refused, "no temperature limit is known", "the steel maker's limit")
    }

    /// What is found and what would help, in a sentence.
    pub fn sentence(&self, system: System) -> String {
        let (found, help) = (self.found.in_units(system), self.help.in_units(system));
        format!("{}: {found}. Would help: {help}.", self.method)
    }

    /// Plates that give under a ram or over a support; `span_mm`: the least that would help, if it fits member and press; `pairs`:
    /// whether the job has stiffener pairs, which only the shop knows to be fitted for a push.
    pub(super) fn of_plates(
        method: &'static str,
        c: &ForceCheck,
        span_mm: Option<f64>,
        two_rams: bool,
        pairs: bool,
    ) -> Self {
        let wider = span_mm.map_or("".into(), |span_mm| {
            Message::of("supports about {} apart or more, ", [Part::Position(span_mm)])
        });
        let other = if two_rams { "" } else { "two rams, " };
        let noted = if pairs {
            " (a pair of the job that is fitted to bear counts once noted: `stiffener at`)"
        } else {
            ""
        };
        let [what, place, clause] = [c.what, c.place, c.clause].map(Part::from);
        let [needed, allowed] = [c.force_n, c.resistance_n].map(Part::Force);
        let found = Message::of(
            "{} at the {} at {} ({}): {} needed, {} allowed",
            [what, place, Part::Position(c.at_mm), clause, needed, allowed],
        );
        let help =
            wider.and(format!("{other}a stiffener{noted} or spreader at the bearing, a longer pad, or heat"));
        Self::new(method, BlockingLimit::Plates, found, help)
    }
}
