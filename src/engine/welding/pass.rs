//! One bead along a seam, and the order in which beads are laid.

use super::procedure::Process;
use crate::member::{Parts, Seam};
use crate::units::{System, show};
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// The side of the web a bead is laid on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Side {
    /// The side that faces up when the web lies flat in the line; z > 0.
    Near,
    /// The other side; z < 0.
    Far,
}

impl Side {
    /// +1 near, −1 far.
    pub const fn sign(self) -> f64 {
        match self {
            Self::Near => 1.0,
            Self::Far => -1.0,
        }
    }

    /// "near" or "far".
    pub const fn name(self) -> &'static str {
        match self {
            Self::Near => "near",
            Self::Far => "far",
        }
    }
}

/// How the heat of a pass is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum HeatSource {
    /// From current, voltage and travel speed.
    Procedure,
    /// From the leg alone, by the leg rule.
    Leg,
    /// Stated by the user.
    Stated,
}

impl HeatSource {
    /// In a column "heat from".
    pub const fn words(self) -> &'static str {
        match self {
            Self::Procedure => "procedure",
            Self::Leg => "leg",
            Self::Stated => "job file",
        }
    }
}

/// So much weld, so much gap, over and over.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Stitch {
    /// Length of each weld, mm.
    pub weld_mm: f64,
    /// Clear length between two, mm.
    pub gap_mm: f64,
}

impl Stitch {
    /// Over a column of them.
    pub const HEAD: &str = "weld / gap";

    /// "30 mm / 600 mm"; a dash for a continuous bead.
    pub fn said(of: Option<&Self>, system: System) -> String {
        let both = |s: &Self| [s.weld_mm, s.gap_mm].map(|mm| show::plate(mm, system)).join(" / ");
        of.map_or_else(|| "–".to_owned(), both)
    }

    /// Welded length over total length.
    pub fn welded_fraction(&self) -> f64 {
        self.weld_mm / (self.weld_mm + self.gap_mm)
    }
}

/// One bead: all the engine needs to know of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Pass {
    /// The seam it is laid on.
    pub seam: Seam,
    /// The side of the web.
    pub side: Side,
    /// Where it starts, mm from the start end.
    pub from_mm: f64,
    /// Where it ends, mm from the start end.
    pub to_mm: f64,
    /// Passes with the same order are laid together.
    pub order: u32,
    /// Leg z of the fillet that lies there with it, mm.
    pub leg_mm: f64,
    /// Runs of one fillet that lie in that leg, this one the last of them: 1 for a fillet of one run.
    pub layers: u32,
    /// Net heat input Q of this pass, J/mm of weld.
    pub heat_j_per_mm: f64,
    /// How that heat is known.
    pub heat_source: HeatSource,
    /// Deposited section A_w, mm².
    pub deposit_mm2: f64,
    /// Its stitches; none for a continuous bead.
    pub stitch: Option<Stitch>,
    /// Steel temperature above 20 °C when the arc arrives, K.
    pub preheat_k: f64,
    /// Force of this pass over the computed one: 1, unless it is known or made to differ.
    pub force_factor: f64,
    /// Process: submerged arc unless a procedure says otherwise.
    pub process: Process,
    /// Travel speed of the arc, mm/s, where a procedure says it.
    pub travel_speed_mm_s: Option<f64>,
    /// Number of its welding procedure specification, where one is named.
    pub wps: Option<Arc<str>>,
}

impl Pass {
    /// Welded length over total length: 1 for a continuous bead.
    pub fn welded_fraction(&self) -> f64 {
        self.stitch.map_or(1.0, |stitch| stitch.welded_fraction())
    }

    /// Leg of its own metal, mm: of a fillet built up in runs of the same metal each, the leg over the root of their number. Its heat
    /// goes with this one where the heat follows from the leg.
    pub fn own_leg_mm(&self) -> f64 {
        self.leg_mm / f64::from(self.layers).sqrt()
    }
}

/// How long after the order before it an order passes the same station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Wait {
    /// Long enough to be cold.
    Cold,
    /// Seconds between the two at one station.
    Seconds(f64),
}

/// What happens sideways to a flange that joins a member already swept by earlier welds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum FlangeFit {
    /// It is clamped straight, so the earlier sweep is shared out between old and new stiffness.
    Straight,
    /// It follows the swept web without stress, so the earlier sweep stays.
    Follows,
}

/// One step of the sequence.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeldingOrder {
    /// Its number; passes name it.
    pub number: u32,
    /// Parts that act together when its passes cool.
    pub joined: Parts,
    /// Time since the order before it, at one station.
    pub wait: Wait,
    /// How a flange newly joined at this order is fitted sideways.
    pub fit: FlangeFit,
}
