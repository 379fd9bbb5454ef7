//! Warnings: values that travel with the result, each with what to do about it.

use crate::units::Message;
use serde::Serialize;

/// What a warning is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum WarningCode {
    /// The inner flange is steeper than the weld heads follow.
    TaperSteep,
    /// The leg is larger than the plate allows.
    LegLarge,
    /// The leg is below the usual minimum for the plate.
    LegSmall,
    /// Leg and heat of a pass do not go together.
    LegHeatMismatch,
    /// A plate is out of proportion to its neighbours.
    PlateOdd,
    /// A fillet is laid in several runs.
    SeveralRuns,
    /// A root gap takes of the fillets laid over it.
    GapLarge,
    /// Heat is deduced from the leg alone.
    HeatFromLeg,
    /// Thin flange, strong weld: the cup curve is least certain there.
    CupUncertain,
    /// The whole section is heated through.
    HeatedThrough,
    /// A flange joins plates that are still warm.
    WarmJoin,
    /// The web may ripple.
    Ripple,
    /// The member turns about its axis.
    Twist,
    /// Shrinkage forces were held down by yield.
    YieldCap,
    /// The bow is beyond what is taken as usual (choice).
    BowLarge,
    /// Larger than a pull-through line is taken to hold (choice).
    LineLimit,
    /// Thick flange welded cold.
    Preheat,
    /// Results carry multipliers from the job.
    Factors,
    /// Results carry what the shop's own pieces say.
    Learned,
    /// What the shop's own pieces say is not applied, for a reason.
    NotLearned,
    /// A seam is not welded, or not all along.
    SeamUnwelded,
    /// Stitches too short, too far apart, or too long for their pass.
    Stitches,
    /// Some results are those of another level of model.
    LevelMixed,
    /// A plate melts through.
    MeltThrough,
    /// Stations lie too far apart.
    StationsFar,
    /// Heat got lost or was made in the calculation.
    HeatBalance,
}

/// One warning.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Warning {
    /// What it is about.
    pub code: WarningCode,
    /// What was found, with numbers, and what to do.
    pub text: Message,
}

impl Warning {
    /// A warning with that code and text.
    pub fn new(code: WarningCode, text: impl Into<Message>) -> Self {
        Self { code, text: text.into() }
    }
}
