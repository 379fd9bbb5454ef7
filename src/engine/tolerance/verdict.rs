//! A predicted size against a limit, with the prediction's uncertainty taken seriously.

use super::{Band, DrawnSize, Judgement, Likely, Quantity, Trust};
use serde::Serialize;

/// One line of the tolerance table.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Verdict {
    /// What is judged.
    pub quantity: Quantity,
    /// Predicted size, mm, with its sign.
    pub value: f64,
    /// Two standard deviations of it, mm.
    pub value_2s: f64,
    /// What the shop makes of it on the mean by ordinates, presets and lengths, mm: the camber that the web is cut for less the wanted one,
    /// else nothing.
    #[serde(skip)]
    pub made_up: f64,
    /// Allowed size on that side, mm, without sign.
    pub limit: f64,
    /// Allowed to either side, mm.
    #[serde(skip)]
    pub band: Band,
    /// Limit minus size, mm: what is left.
    pub margin: f64,
    /// Tolerance set as the job names it, or "own".
    pub set: &'static str,
    /// Standard, or "own limit".
    pub standard: &'static str,
    /// Its edition.
    pub edition: &'static str,
    /// Clause or table item.
    pub clause: &'static str,
    /// Rule in words, as "L/1000, at least 5 mm".
    pub rule: &'static str,
    /// How the limit is known.
    pub trust: Trust,
    /// Verdict on the predicted size.
    pub verdict: Judgement,
    /// How likely a piece is beyond the limit; absent unless pieces were drawn.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub likely: Option<Likely>,
    /// The size over those pieces, what they share and what differs apart.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub drawn: Option<DrawnSize>,
    /// "along the member", "outer flange", "inner flange", "web", "if plates are cut to the finished length", or, for the
    /// deviation from a wanted camber, "if the web is cut straight".
    pub place: &'static str,
    /// Where along the member, mm from the start end.
    pub at_mm: f64,
}

impl Verdict {
    /// Whether it is beyond its limit even at the near end of its uncertainty.
    pub(crate) fn surely_out(&self) -> bool {
        (self.value - self.band.middle_mm()).abs() - self.value_2s > self.band.half_mm()
    }
}
