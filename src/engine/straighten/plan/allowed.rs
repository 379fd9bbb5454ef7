//! What a push must keep to: plates, force, slenderness, strain, stroke.

use super::pushes::Setup;
use super::{Block, Limit};
use crate::straighten::press::{Check, Layout, PressError, Slender, checks, not_compact};
use crate::units::Said;

/// Largest curvature ratio whatever the press says (choice).
const NEVER_ABOVE_MU: f64 = 10.0;

impl Setup<'_> {
    /// The bearing nearest to its resistance under that force in each ram.
    pub(super) fn bearings(&self, layout: &Layout, force_n: f64) -> Result<Option<Check>, Block> {
        let checks = checks(self.task.member, layout, self.press.pads, force_n, self.press.patch);
        let worst = checks.into_iter().max_by(|a, b| a.ratio.total_cmp(&b.ratio));
        if let Some(c) = worst.filter(|c| c.ratio.is_nan() || c.ratio > 1.0) {
            return Err(self.weak_plates(&c));
        }
        if force_n > self.press.most_n {
            return Err(Block::new(
                self.name,
                Limit::Force,
                Said::from("")
                    .force(force_n)
                    .and(" needed in a ram, the press has ")
                    .force(self.press.most_n),
                "supports further apart, two rams, a stronger press, or heat",
            ));
        }
        Ok(worst)
    }

    pub(super) fn compact_enough(&self, layout: &Layout) -> Result<Vec<Slender>, Block> {
        let not_compact = not_compact(self.task.member, layout);
        match not_compact.iter().find(|s| s.ratio > s.slender) {
            None => Ok(not_compact),
            Some(s) => Err(Block::new(
                self.name,
                Limit::Slender,
                format!(
                    "{}: slenderness {:.0} above {:.0}, it buckles before it yields",
                    s.plate, s.ratio, s.slender
                ),
                "stiffen or clamp the plate between ram and supports, or heat",
            )),
        }
    }

    pub(super) fn strain(&self, angle: f64, mu: f64) -> Result<(), Block> {
        let limit = self.press.most_mu.min(NEVER_ABOVE_MU);
        if mu <= limit {
            return Ok(());
        }
        Err(Block::new(
            self.name,
            Limit::Strain,
            Said::from("a kink of ")
                .angle(angle)
                .and(format!(" needs {mu:.1} times the curvature at first yield, {limit:.0} allowed")),
            "more places, supports further apart, two rams, or heat",
        ))
    }

    pub(super) fn stroke(&self, travel_mm: f64) -> Result<(), Block> {
        if travel_mm <= self.press.most_stroke_mm {
            return Ok(());
        }
        Err(Block::new(
            self.name,
            Limit::Stroke,
            Said::from("a stroke of ")
                .offset(travel_mm)
                .and(" is needed, the ram has ")
                .offset(self.press.most_stroke_mm),
            "supports closer together, or packing",
        ))
    }

    pub(super) fn weak_plates(&self, c: &Check) -> Block {
        // force goes with one over the span
        Block::of_plates(self.name, c, self.span_mm * c.ratio, self.task.member.length_mm, self.two)
    }

    pub(super) fn no_push(&self, e: &PressError) -> Block {
        let (limit, found) = match *e {
            PressError::BeyondHinge { wanted, largest } => {
                let found = Said::from("a kink of ").angle(wanted).and(" is wanted, but at ").angle(largest);
                (Limit::Strain, found.and(" a plastic hinge forms and the member would fold there"))
            }
            _ => (Limit::Span, Said::from(e.to_string())),
        };
        Block::new(self.name, limit, found, "more places, supports further apart, two rams, or heat")
    }
}
