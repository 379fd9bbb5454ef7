//! What is welded across the finished member: stiffeners, cleats, plates on its ends.

use super::{HeatSource, Side};
use crate::member::{Parts, Seam};
use crate::units::{Message, Part};
use serde::{Deserialize, Serialize};

/// Kind of attachment.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum AttachmentKind {
    /// Two stiffeners, one on each side of the web.
    StiffenerPair,
    /// One stiffener on one side of the web.
    Stiffener,
    /// A plate or angle on the outside of a flange, welded across it.
    Cleat,
    /// A plate across an end.
    EndPlate,
    /// The same at the foot of a column.
    BasePlate,
}

impl AttachmentKind {
    /// "stiffener pair".
    pub const fn name(self) -> &'static str {
        match self {
            Self::StiffenerPair => "stiffener pair",
            Self::Stiffener => "stiffener",
            Self::Cleat => "cleat",
            Self::EndPlate => "end plate",
            Self::BasePlate => "base plate",
        }
    }

    /// Whether it lies on the outside of a flange; stiffeners stand between both.
    pub const fn lies_outside(self) -> bool {
        !matches!(self, Self::Stiffener | Self::StiffenerPair)
    }

    /// Whether the member ends on it.
    pub const fn ends_member(self) -> bool {
        matches!(self, Self::EndPlate | Self::BasePlate)
    }
}

/// One attachment.
#[derive(Debug, Clone, PartialEq)]
pub struct Attachment {
    /// Kind.
    pub kind: AttachmentKind,
    /// Where, mm from the start end.
    pub at_mm: f64,
    /// Side of the web; none for both, or for the middle of a flange.
    pub side: Option<Side>,
    /// Parts it is welded to.
    pub to: Parts,
    /// Fillet leg, mm.
    pub leg_mm: f64,
    /// Net heat of one fillet, J/mm.
    pub heat_j_per_mm: f64,
    /// How that heat is known.
    pub heat_source: HeatSource,
    /// Fillets along each welded edge: one, or one on each of its faces.
    pub fillets: u32,
    /// Length of weld across a flange of one stiffener or cleat, mm; as wide as there is flange without it.
    pub width_mm: Option<f64>,
    /// Thickness of the attached plate, mm.
    pub thickness_mm: f64,
}

/// Foot of a cleat along the member to each side of its place, mm: it may be an angle or a folded plate, and a job does not say (choice).
const FOOT_MM: f64 = 100.0;

impl Attachment {
    /// In words: "a cleat at 3.00 m".
    pub(crate) fn told(&self) -> Message {
        let article = if self.kind == AttachmentKind::EndPlate { "an" } else { "a" };
        Message::of("{} {} at {}", [article.into(), self.kind.name().into(), Part::Position(self.at_mm)])
    }

    /// How far from its place it and its welds lie along the member, mm.
    pub(crate) fn reach_mm(&self) -> f64 {
        let foot_mm = if self.kind == AttachmentKind::Cleat { FOOT_MM } else { 0.0 };
        self.leg_mm + foot_mm.max(self.thickness_mm)
    }

    /// The same on the outside of a flange; None if nothing lies there. Stiffeners stand inside.
    pub(crate) fn outside_mm(&self, seam: Seam) -> Option<f64> {
        let there = self.kind.lies_outside() && self.to.contains(Parts::flange(seam));
        there.then(|| self.reach_mm())
    }

    /// Length across a flange of width b (mm) that is welded, and the middle of it from the web plane, mm, + near.
    pub(crate) fn across_flange_mm(&self, seam: Seam, flange_mm: f64, web_mm: f64) -> (f64, f64) {
        if !self.to.contains(Parts::flange(seam)) {
            return (0.0, 0.0);
        }
        let half = 0.5 * (flange_mm - web_mm).max(0.0);
        let of_half = self.width_mm.map_or(half, |w| w.min(half));
        match (self.kind, self.side) {
            (AttachmentKind::StiffenerPair, _) => (2.0 * of_half, 0.0),
            (AttachmentKind::Stiffener, side) => {
                (of_half, side.map_or(0.0, Side::sign) * 0.5 * (web_mm + of_half))
            }
            (AttachmentKind::Cleat, side) => {
                let width = self.width_mm.map_or(flange_mm, |w| w.min(flange_mm));
                (width, side.map_or(0.0, Side::sign) * 0.5 * (flange_mm - width))
            }
            (AttachmentKind::EndPlate | AttachmentKind::BasePlate, _) => (flange_mm, 0.0),
        }
    }

    /// Welded edges along the web: as often its depth is welded.
    pub(crate) const fn along_web(&self) -> f64 {
        match (self.to.contains(Parts::WEB), self.kind) {
            (false, _) | (true, AttachmentKind::Cleat) => 0.0,
            (true, AttachmentKind::StiffenerPair) => 2.0,
            (true, _) => 1.0,
        }
    }
}
