//! What the user asks of the search, and bounds that make no sense.

use crate::prediction::field::ranges;
use crate::scatter::Draws;
use crate::tolerance::{Quantity, Verdict};
use crate::units::{IN_MM, System};
use crate::welding::Stitch;
use serde::Serialize;
use thiserror::Error;

/// What to make small.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Objective {
    /// Time in all: arc, loading, turning over, waiting, changes of setting and of procedure.
    LeastTime,
    /// Money: crew and place, waiting, wire and flux.
    LeastCost,
    /// The share of the tightest tolerance that is used up.
    LeastDistortion,
    /// Time the arc burns.
    LeastArcTime,
    /// Deposited metal.
    LeastMetal,
    /// Camber off the wanted one.
    BalancedCamber,
}

impl Objective {
    /// All, in the order of the short list.
    pub const ALL: [Self; 6] = [
        Self::LeastTime,
        Self::LeastCost,
        Self::LeastDistortion,
        Self::LeastArcTime,
        Self::LeastMetal,
        Self::BalancedCamber,
    ];

    /// Its name in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::LeastTime => "least time in all",
            Self::LeastCost => "least cost",
            Self::LeastDistortion => "least distortion",
            Self::LeastArcTime => "least arc time",
            Self::LeastMetal => "least weld metal",
            Self::BalancedCamber => "balanced camber",
        }
    }
}

/// Sides of the web to weld.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Sides {
    /// Whatever works.
    Any,
    /// The near side only.
    One,
    /// Both sides all along.
    Both,
}

/// How long to wait between trips.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Waits {
    /// Straight on, or cold.
    Any,
    /// Straight on: only what handling takes.
    StraightOn,
    /// Until it is cold.
    Cold,
}

/// What the shop makes up for before welding, as a prediction lists it: the expected size of it no longer counts, its
/// spread does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Allow {
    /// Plates are cut longer by the shortening.
    Length,
    /// The web is cut to the opposite bow.
    Camber,
    /// Flanges are crowned and leaned before welding.
    Flanges,
}

impl Allow {
    /// Whether it takes the expected size of a quantity away.
    pub(crate) const fn takes(self, quantity: Quantity) -> bool {
        match self {
            Self::Length => matches!(quantity, Quantity::Length),
            Self::Camber => matches!(quantity, Quantity::Camber),
            Self::Flanges => {
                matches!(quantity, Quantity::FlangeTilt | Quantity::FlangeCup | Quantity::FlangeToe)
            }
        }
    }
}

/// What the user asks.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Constraints {
    /// What to make small.
    pub objective: Objective,
    /// Probability of being inside every tolerance, at least.
    pub confidence: f64,
    /// Legs come in steps of this, mm.
    pub step_mm: f64,
    /// Smallest leg the user wants, mm.
    pub least_leg_mm: Option<f64>,
    /// Largest leg the user wants, mm.
    pub largest_leg_mm: Option<f64>,
    /// Sides.
    pub sides: Sides,
    /// Waits.
    pub waits: Waits,
    /// Names of the procedures to use; all without any.
    pub only: Vec<String>,
    /// What the shop makes up for before welding.
    pub allow: Vec<Allow>,
    /// Part of each range of a procedure, current and speed, that is kept free at either end: a setting on the edge of what is
    /// qualified leaves no room for the day's drift.
    pub margin: f64,
    /// Stitches that may be laid instead of a seam all along.
    pub stitches: Vec<Stitch>,
    /// Candidates screened at most before the search refines.
    pub candidates: usize,
    /// Draws of the model bias for each option shown.
    pub draws: usize,
}

/// Part of the drawn pieces that is inside every tolerance, at least (choice: plates as they come and fitting put 5 to 8 % of long rafters
/// beyond a limit whatever the weld; straighter strips and a record of the shop's own pieces leave room for more).
pub const USUAL_CONFIDENCE: f64 = 0.90;

impl Constraints {
    /// The usual: least time in all at [`USUAL_CONFIDENCE`], legs in half millimetres or sixteenths, a twentieth of each range kept free.
    pub fn usual(system: System) -> Self {
        Self {
            objective: Objective::LeastTime,
            confidence: USUAL_CONFIDENCE,
            step_mm: system.pick(0.5, IN_MM / 16.0),
            least_leg_mm: None,
            largest_leg_mm: None,
            sides: Sides::Any,
            waits: Waits::Any,
            only: Vec::new(),
            allow: Vec::new(),
            margin: 0.05,
            stitches: Vec::new(),
            candidates: 10_000,
            draws: Draws::USUAL.bias,
        }
    }

    /// A leg in steps without the dust of adding them up: equal legs are equal bits.
    pub(crate) fn snapped(&self, leg_mm: f64) -> f64 {
        let whole = (leg_mm / self.step_mm).round() * self.step_mm;
        if (whole - leg_mm).abs() < HAIR * self.step_mm { whole } else { leg_mm }
    }

    /// Largest leg in steps that is not above `leg_mm`.
    pub(crate) fn step_down(&self, leg_mm: f64) -> f64 {
        (leg_mm / self.step_mm + HAIR).floor() * self.step_mm
    }

    /// Smallest leg in steps that is not below `leg_mm`.
    pub(crate) fn step_up(&self, leg_mm: f64) -> f64 {
        (leg_mm / self.step_mm - HAIR).ceil() * self.step_mm
    }

    /// The size that a verdict is expected to meet, mm.
    pub(crate) fn met(&self, verdict: &Verdict) -> f64 {
        if self.allow.iter().any(|a| a.takes(verdict.quantity)) { verdict.made_up } else { verdict.value }
    }

    /// Checks the bounds against each other and against what must be welded on both sides.
    ///
    /// # Errors
    /// The first that makes no sense.
    pub fn check(&self, both_sides_needed: bool, names: &[&str]) -> Result<(), ConstraintFault> {
        if !(0.1..=5.0).contains(&self.step_mm) {
            return Err(ConstraintFault::Step { found: self.step_mm });
        }
        for (flag, leg) in [("--least-leg", self.least_leg_mm), ("--largest-leg", self.largest_leg_mm)] {
            if let Some(found) = leg.filter(|leg| !ranges::LEG_MM.contains(leg)) {
                return Err(ConstraintFault::Leg { flag, found });
            }
        }
        if let (Some(least), Some(largest)) = (self.least_leg_mm, self.largest_leg_mm)
            && least > largest
        {
            return Err(ConstraintFault::Legs { least, largest });
        }
        if !(0.5..=0.999).contains(&self.confidence) {
            return Err(ConstraintFault::Confidence { found: self.confidence });
        }
        if !(0.0..=0.4).contains(&self.margin) {
            return Err(ConstraintFault::Margin { found: self.margin });
        }
        if self.sides == Sides::One && both_sides_needed {
            return Err(ConstraintFault::Sides);
        }
        if let Some(found) = self.only.iter().find(|name| !names.contains(&name.as_str())) {
            let wanted = crate::input::near::wanted(found, names);
            return Err(ConstraintFault::Procedure { found: found.clone(), wanted });
        }
        Ok(())
    }
}

/// Part of a step that rounding may take.
const HAIR: f64 = 1e-3;

/// Why a search cannot start: a slip of the user, not a result.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum ConstraintFault {
    /// The job does not say what the welds carry.
    #[error(
        "the job has no [demand] table: say what the welds must carry, as\n  [demand]\n  {}",
        .units.pick(["code = \"en-1993-1-8\"", "start_shear = \"60 kN\"", "load = \"8 kN/m\""], ["code = \"aisc-lrfd\"", "start_shear = \"13 kip\"", "load = \"0.5 kip/ft\""]).join("\n  ")
    )]
    NoDemand {
        /// Those of the job.
        units: System,
    },
    /// A leg increment of nothing.
    #[error(
        "--step: found {found} mm; wanted: a leg increment of 0.1 mm to 5 mm, as \"0.5 mm\" or \"1/16 in\""
    )]
    Step {
        /// As given, mm.
        found: f64,
    },
    /// Least above largest.
    #[error(
        "--least-leg and --largest-leg: found {least:.1} mm and {largest:.1} mm; wanted: the least not above the largest"
    )]
    Legs {
        /// Least, mm.
        least: f64,
        /// Largest, mm.
        largest: f64,
    },
    /// A leg that is none.
    #[error("{flag}: found {found:.1} mm; wanted: a leg of 1 mm to 25 mm")]
    Leg {
        /// Which bound.
        flag: &'static str,
        /// As given, mm.
        found: f64,
    },
    /// A margin that leaves nothing.
    #[error(
        "--margin: found {found}; wanted: a part of each range to keep free at either end, 0 to 0.4, as 0.05"
    )]
    Margin {
        /// As given.
        found: f64,
    },
    /// A confidence that is none.
    #[error("--confidence: found {found}; wanted: a probability of 0.5 to 0.999, as 0.9")]
    Confidence {
        /// As given.
        found: f64,
    },
    /// One side wanted where both are needed.
    #[error(
        "--sides one: the job's `demand.both_sides` asks for both sides somewhere; take one of the two out"
    )]
    Sides,
    /// A procedure that the book does not have.
    #[error("--procedure: found `{found}`; wanted: {wanted}")]
    Procedure {
        /// As given.
        found: String,
        /// Names there are.
        wanted: String,
    },
}
