//! What planning brings back.

use super::{Block, Price};
use crate::member::Seam;
use crate::straighten::cautions::Caution;
use crate::straighten::decide::{Action, Capability, Limits, Refusal};
use crate::straighten::flange::{Fold, Passes};
use crate::straighten::heat::HeatSeries;
use crate::straighten::press::{ForceCheck, PressLayout, Ranged, Slender, Stability};
use crate::tolerance::Quantity;
use crate::units::Message;
use serde::Serialize;

/// One place to push.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Push {
    /// 1, 2, … along the member.
    pub number: usize,
    /// Supports, rams, side.
    pub layout: PressLayout,
    /// Rotation that shall stay, rad.
    pub kink_rad: f64,
    /// Force, stroke, springback, set, strain, with their range.
    pub bent: Ranged,
    /// Travel of each ram from a small pre-load, mm: bending, shear and give of the frame.
    pub travels_mm: Vec<f64>,
    /// Travel that goes back when a newton is let off in each ram, mm/N: of the one ram, or as a dial midway between two reads it from
    /// the line through both supports. What two rams themselves go tells little of the set between them on a taper.
    pub elastic_mm_per_n: f64,
    /// Part of it that is the give of frame and packing, mm/N; none with two rams.
    pub give_mm_per_n: f64,
    /// Force of each ram at first yield of the given steel without locked-in stress, and at which a hinge forms, N.
    pub yields_n: [f64; 2],
    /// Force of a ram never to be passed, N: the press, the plates under its pads and the side guides allow no more, nor does a steel
    /// a third above the given yield need more.
    pub most_force_n: f64,
    /// Height of rams and supports on the flange edges, mm from the middle of the outer flange to the shear centre, where they
    /// do not twist the member; None if a flange is pushed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ram_height_mm: Option<f64>,
    /// Wedge under the pads on an inclined inner flange, rad; 0 if none is needed.
    pub wedge_rad: f64,
    /// Elastic energy held by member, frame and packing at the force never to be passed, J.
    pub stored_j: f64,
    /// The bearing nearest to its resistance.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub worst: Option<ForceCheck>,
    /// What keeps the member from going sideways.
    pub stability: Stability,
    /// Plates that are not compact: watch them.
    pub not_compact: Vec<Slender>,
}

/// How.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum StraighteningMethod {
    /// One ram between two supports.
    OneRam,
    /// Two rams between two supports.
    TwoRams,
    /// Vee heats.
    VeeHeat,
    /// Rollers or dies on a flange.
    Roller,
    /// Lines of heat along the back of a flange.
    LineHeat,
}

/// The work of one step.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Work {
    /// One place of a press.
    Push(Box<Push>),
    /// Heats at places.
    Heats(HeatSeries),
    /// A flange bent back along a stretch of one plate.
    Fold {
        /// Which flange.
        flange: Seam,
        /// From there, mm from the start end.
        from_mm: f64,
        /// To there, mm.
        to_mm: f64,
        /// Angle to be bent back between both halves, rad, + away from the web.
        angle_rad: f64,
        /// The bend.
        fold: Fold,
        /// What holds the flange where the stretch ends short of it.
        #[serde(skip_serializing_if = "Vec::is_empty")]
        stops: Vec<Message>,
    },
    /// Lines of heat on the back of a flange, along a stretch of one plate.
    Lines {
        /// Which flange.
        flange: Seam,
        /// From there, mm from the start end.
        from_mm: f64,
        /// To there, mm.
        to_mm: f64,
        /// The passes.
        passes: Passes,
        /// What holds the flange where the stretch ends short of it.
        #[serde(skip_serializing_if = "Vec::is_empty")]
        stops: Vec<Message>,
    },
}

/// One step a foreman's line can be written from.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Step {
    /// 1, 2, … in order of work.
    pub number: usize,
    /// What it mends.
    pub quantity: Quantity,
    /// Where the tool acts: "inner flange", "near edges of both flanges", …
    pub side: &'static str,
    /// The work.
    pub work: Work,
    /// What to look at afterwards.
    pub check_after: Vec<&'static str>,
}

/// A feasible method.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Way {
    /// How.
    pub method: StraighteningMethod,
    /// Its steps.
    pub steps: Vec<Step>,
    /// Largest offset left if all goes right, mm.
    pub left_mm: f64,
    /// One standard deviation of it, mm.
    pub left_sd_mm: f64,
    /// Time and money.
    pub price: Price,
}

/// What to do with one quantity.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Decision {
    /// What.
    pub quantity: Quantity,
    /// Largest value with sign, mm.
    pub value_mm: f64,
    /// Its limits.
    pub limits: Limits,
    /// What to do.
    pub action: Action,
    /// Distance from the middle of the limits beyond which it is not accepted, mm.
    pub reaction_mm: f64,
}

/// The way chosen for one quantity, and the next best.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Chosen {
    /// What it mends.
    pub quantity: Quantity,
    /// Which flange, if it is one of them.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub flange: Option<Seam>,
    /// Least expected cost.
    pub way: Way,
    /// The next one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub next_best: Option<Way>,
    /// Ways that are blocked.
    pub blocked: Vec<Block>,
    /// Cutting the seams and welding again is expected to cost less.
    pub rework_is_cheaper: bool,
}

/// A quantity that no method mends.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Blocked {
    /// What.
    pub quantity: Quantity,
    /// Which flange, if it is one of them.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub flange: Option<Seam>,
    /// Every method and its limit.
    pub blocks: Vec<Block>,
}

/// How the family stands.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FamilyStanding {
    /// Of what.
    pub quantity: Quantity,
    /// Against the limits.
    pub capability: Capability,
    /// Straightening money saved a piece if the process were centred; None if nothing had to be straightened here.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub saved_a_piece: Option<f64>,
}

/// The whole answer.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Plan {
    /// One for each quantity, in order of work.
    pub decisions: Vec<Decision>,
    /// Camber decided anew as lines of heat on a flange leave it; None without them.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub camber_then: Option<Decision>,
    /// Advice withheld.
    pub refusals: Vec<Refusal>,
    /// What to do, in order of work.
    pub chosen: Vec<Chosen>,
    /// What no method mends.
    pub blocked: Vec<Blocked>,
    /// What the records say.
    pub process: Vec<FamilyStanding>,
    /// Minutes of all chosen ways.
    pub minutes: f64,
    /// Money of all chosen ways.
    pub cost: f64,
    /// Times and money are placeholders.
    pub placeholder_rates: bool,
    /// Cautions to print with it.
    pub cautions: Vec<Caution>,
}
