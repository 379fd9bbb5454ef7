//! What a push must keep to: plates, force, slenderness, strain, stroke.

use super::pushes::Setup;
use super::{Block, BlockingLimit};
use crate::straighten::press::{
    ForceCheck, PressError, PressLayout, Slender, Stability, UNEVEN, Unstable, checks, flange_use,
    held_straight, not_compact, shear_centre_mm,
};
use crate::units::{Message, Part};
use crate::welding::AttachmentKind;

/// Least set at the gauge that is pushed for, mm: below, what dial and travel are read to leaves less than nine of ten trials of
/// `tests/laws/push_log.rs` inside the band (computed; no measurement).
const LEAST_SET_MM: f64 = 2.5;
/// Largest curvature ratio whatever the press says (choice).
const NEVER_ABOVE_MU: f64 = 10.0;

/// What helps against a kink too sharp for its place.
const MORE_PLACES: &str = "more places, supports further apart, two rams, or heat";

impl Setup<'_> {
    /// The bearing nearest to its resistance under that force in each ram.
    pub(super) fn bearings(&self, layout: &PressLayout, force_n: f64) -> Result<Option<ForceCheck>, Block> {
        let checks = checks(self.task.member, layout, &self.task.bears_on(self.press), force_n);
        let worst = checks.into_iter().max_by(|a, b| a.ratio.total_cmp(&b.ratio));
        if let Some(c) = worst.filter(|c| c.ratio.is_nan() || c.ratio > 1.0) {
            // force goes with one over the span, about a ram that stays where it is
            let gauge = layout.rams.gauge_mm();
            let fits = (2.0 * gauge.min(self.task.member.length_mm - gauge)).min(self.press.spans_mm.1);
            let span_mm = Some(self.span_mm * c.ratio).filter(|mm| *mm <= fits);
            let pairs = self.task.attachments.iter().any(|a| a.kind == AttachmentKind::StiffenerPair);
            return Err(Block::of_plates(self.name, &c, span_mm, self.two, pairs));
        }
        if force_n > self.press.most_n {
            let forces = [force_n, self.press.most_n].map(Part::Force);
            let found = Message::of("{} needed in a ram, the press has {}", forces);
            let help = "supports further apart, two rams, a stronger press, or heat";
            return Err(self.block(BlockingLimit::Force, found, help));
        }
        Ok(worst)
    }

    pub(super) fn compact_enough(&self, layout: &PressLayout) -> Result<Vec<Slender>, Block> {
        let not_compact = not_compact(self.task.member, layout);
        match not_compact.iter().find(|s| s.ratio > s.slender) {
            None => Ok(not_compact),
            Some(s) => {
                let found = format!(
                    "{}: slenderness {:.1} above {:.1} (AISC 360-22 Table B4.1b, memory), it buckles before it yields",
                    s.plate, s.ratio, s.slender
                );
                let help = "stiffen or clamp the plate between ram and supports, or heat";
                Err(self.block(BlockingLimit::Slender, found, help))
            }
        }
    }

    pub(super) fn strain(&self, angle: f64, mu: f64) -> Result<(), Block> {
        let limit = self.press.most_mu.min(NEVER_ABOVE_MU);
        if mu <= limit {
            return Ok(());
        }
        let needed = format!("{mu:.1} times the curvature at first yield, {limit:.0} allowed (our limit)");
        let found = Message::of("a kink of {} needs {}", [Part::Angle(angle), needed.into()]);
        Err(self.block(BlockingLimit::Strain, found, MORE_PLACES))
    }

    /// A set too small to be told from what gauges are off by is not pushed for.
    pub(super) fn told(&self, set_mm: f64) -> Result<(), Block> {
        if set_mm >= LEAST_SET_MM {
            return Ok(());
        }
        let found = Message::of(
            "a set of {} would be wanted, three pushes hold one of {} or more (our limit, by trials on paper)",
            [set_mm, LEAST_SET_MM].map(Part::Offset),
        );
        let help = "supports further apart, fewer and larger kinks, or heat";
        Err(self.block(BlockingLimit::Span, found, help))
    }

    pub(super) fn stroke(&self, travel_mm: f64) -> Result<(), Block> {
        if travel_mm <= self.press.most_stroke_mm {
            return Ok(());
        }
        let strokes = [travel_mm, self.press.most_stroke_mm].map(Part::Offset);
        let found = Message::of("a stroke of {} is needed, the ram has {}", strokes);
        Err(self.block(BlockingLimit::Stroke, found, "supports closer together, or packing"))
    }

    /// A press that holds nothing upright pushes nothing about its strong axis.
    pub(super) fn upright(&self) -> Result<(), Block> {
        if self.strong && !self.press.guides.at_supports {
            return Err(self.unstable(&Unstable::NoSupportGuides));
        }
        Ok(())
    }

    /// Where side guides stand for a push of at most that force in each ram.
    pub(super) fn straight(&self, layout: &PressLayout, force_n: f64) -> Result<Stability, Block> {
        held_straight(self.task.member, layout, &self.press.guides, force_n).map_err(|e| self.unstable(&e))
    }

    fn unstable(&self, e: &Unstable) -> Block {
        let (found, help) = match e {
            Unstable::NoSupportGuides => (
                Message::from(
                    "nothing is known to hold the member upright and sideways at the supports: pushed about its strong axis it \
                     would roll out",
                ),
                Message::from(
                    "side guides at supports and rams, told in the shop file (guides_at_supports, guides_at_rams), or heat",
                ),
            ),
            Unstable::Sideways { found, between_mm: [a, b], wanted_mm } => {
                let used = format!("{:.2} of what is allowed ({})", found.ratio, found.clause);
                let found = Message::of(
                    "between {} and {} the member would go sideways before it takes its set: {}",
                    [Part::Position(*a), Part::Position(*b), used.into()],
                );
                let help = Message::of(
                    "side guides about {} apart there, at each ram too (guides_at_rams, side_guides in the shop file), or heat",
                    [Part::Position(*wanted_mm)],
                );
                (found, help)
            }
            Unstable::Guide { needed_n, holds_n } => (
                Message::of(
                    "each side guide must hold {} (2 % of the flange force), it holds {}",
                    [*needed_n, *holds_n].map(Part::Force),
                ),
                "stronger side guides, or heat".into(),
            ),
        };
        self.block(BlockingLimit::Sideways, found, help)
    }

    /// Flanges pushed together from the side must bend together.
    pub(super) fn even_flanges(&self, layout: &PressLayout, force_n: f64) -> Result<(), Block> {
        if self.strong {
            return Ok(());
        }
        let at = layout.rams.gauge_mm();
        let moment = layout.rams.places_mm().map(|x| force_n * layout.moment_of_rams(x)).fold(0.0, f64::max);
        let used = flange_use(self.task.member, at, moment);
        if used <= UNEVEN {
            return Ok(());
        }
        let found = Message::of(
            "pushed at the height of its shear centre, one flange at {} would be asked for {} of its plastic moment: it would fold \
             before the other one yields, and the member would twist",
            [Part::Position(at), format!("{used:.2}").into()],
        );
        let help = "each flange by itself, by the engineer's procedure, or heat";
        Err(self.block(BlockingLimit::Strain, found, help))
    }

    /// Height of the rams from the middle of the outer flange, mm; None if they push on a flange.
    pub(super) fn ram_height_mm(&self, layout: &PressLayout) -> Option<f64> {
        (!self.strong).then(|| shear_centre_mm(self.task.member, layout.rams.gauge_mm()))
    }

    pub(super) fn no_push(&self, e: &PressError) -> Block {
        let (limit, found) = match *e {
            PressError::BeyondHinge { wanted, largest } => {
                let found = Message::of(
                    "a kink of {} is wanted, but at {} a plastic hinge forms and the member would fold there",
                    [wanted, largest].map(Part::Angle),
                );
                (BlockingLimit::Strain, found)
            }
            _ => (BlockingLimit::Span, Message::from(e.to_string())),
        };
        self.block(limit, found, MORE_PLACES)
    }

    /// This way of pushing, blocked.
    pub(super) fn block(
        &self,
        limit: BlockingLimit,
        found: impl Into<Message>,
        help: impl Into<Message>,
    ) -> Block {
        Block::new(self.name, limit, found, help)
    }
}
