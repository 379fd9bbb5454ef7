//! What an order brings back. Minutes and mm; expectations are of all pieces of a mark, family or week, not of one.

use super::level::Levelled;
use super::tally::ExpectedRange;
use super::{Draws, Fix, Week};
use crate::prediction::Divided;
use crate::straighten::cautions::Caution;
use crate::straighten::piece::Fabrication;
use crate::straighten::plan::Block;
use crate::tolerance::{Likely, Quantity};
use crate::units::Message;
use serde::Serialize;

/// Chance of one quantity.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct QuantityChance {
    /// What.
    pub quantity: Quantity,
    /// Lowest and highest allowed, mm; of a flange those of its toe, or else of its cup. None if nothing limits it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub limits_mm: Option<(f64, f64)>,
    /// As predicted, mm: largest deviation with its sign.
    pub predicted_mm: f64,
    /// Chance that it has to be straightened: out of its limit by more than measuring can explain.
    pub likely: Likely,
    /// Chance that it is out of a limit, as every verdict says it; None unless that was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub out: Option<Likely>,
}

/// Sums of pieces and work.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Totals {
    /// Pieces that need straightening.
    pub needing: ExpectedRange,
    /// One standard deviation of their number by luck alone, from piece to piece, if the model were known.
    pub luck: f64,
    /// Pieces too near a limit to tell: to be measured again, if they need nothing else.
    pub again: ExpectedRange,
    /// Those of them that are out of a limit: the second measurement decides, and what straightening them takes is in no sum.
    pub again_out: ExpectedRange,
    /// Pieces that the shop cannot straighten: the engineer's word, or rework.
    pub blocked: ExpectedRange,
    /// Pieces expected to be still out after straightening.
    pub still_out: ExpectedRange,
    /// Hours at press and rollers.
    pub press_h: ExpectedRange,
    /// Hours at the torch, cooling included.
    pub heat_h: ExpectedRange,
    /// Hours of measuring again.
    pub measure_h: ExpectedRange,
    /// Hours of measuring every piece a first time; in no other sum of hours.
    pub first_h: f64,
    /// All hours but those of the first measurement.
    pub hours: ExpectedRange,
    /// Money of straightening, of measuring every piece, and of cutting and welding anew what no method mends.
    pub money: ExpectedRange,
    /// Part of it for what no method mends.
    pub rework_money: ExpectedRange,
    /// Places pushed.
    pub push_places: ExpectedRange,
    /// Vee heats.
    pub heats: ExpectedRange,
    /// Runs along flanges.
    pub runs: ExpectedRange,
}

/// What stands in the way of pieces.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Blocking {
    /// What no method mends.
    pub quantity: Quantity,
    /// Pieces of the mark, expected.
    pub pieces: f64,
    /// Every method the shop has, and its limit.
    pub methods: Vec<Block>,
}

/// One mark.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MarkResult {
    /// Mark.
    pub mark: String,
    /// Title of its job.
    pub title: String,
    /// Its job file, as given.
    pub job: String,
    /// Family it belongs to.
    pub family: String,
    /// Pieces.
    pub quantity: u32,
    /// Its job wants a camber.
    pub camber_wanted: bool,
    /// When it is wanted.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub week: Option<Week>,
    /// What the shop's own pieces say of it, or why they say nothing; None if no record is named.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub learned: Option<Message>,
    /// Where the ± of camber and of sweep comes from.
    pub two_s_of: [Divided; 2],
    /// Chance that a piece needs straightening.
    pub likely: Likely,
    /// Chance that a piece is out of any limit, lengths too, as every verdict says it; None unless that was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub out: Option<Likely>,
    /// The same for toe, sweep and camber.
    pub parts: Vec<QuantityChance>,
    /// All its pieces.
    pub totals: Totals,
    /// What blocks, the most frequent first.
    pub blocks: Vec<Blocking>,
    /// Prevention, the one that saves most first.
    pub fixes: Vec<Fix>,
    /// Part of the straightening minutes that may be wrong because they are read off between planned sizes.
    pub may_be_wrong: f64,
    /// Full plans made.
    pub plans: usize,
    /// Drawn pieces that made no job.
    pub failed: usize,
}

/// Marks made the same way.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FamilyResult {
    /// Its name: the list's own, or plates and passes in words.
    pub name: String,
    /// Its marks.
    pub marks: Vec<String>,
    /// Pieces.
    pub quantity: u32,
    /// All of them.
    pub totals: Totals,
    /// Prevention, the one that saves most first.
    pub fixes: Vec<Fix>,
}

/// One week.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WeekResult {
    /// Which; None for marks without a week.
    pub week: Option<Week>,
    /// Pieces.
    pub quantity: u32,
    /// All of them.
    pub totals: Totals,
    /// Part of the draws of the bias in which the press hours are more than there are.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub over_capacity: Option<f64>,
    /// The same for the hours at the torch.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub over_heat_capacity: Option<f64>,
}

/// The whole order.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OrderResult {
    /// How pieces were drawn.
    pub draws: Draws,
    /// Pieces.
    pub quantity: u32,
    /// All of them.
    pub totals: Totals,
    /// Marks, the one with most hours first.
    pub marks: Vec<MarkResult>,
    /// Families, the one to fix first on top.
    pub families: Vec<FamilyResult>,
    /// Weeks in order; empty if none is known.
    pub weeks: Vec<WeekResult>,
    /// What was done before welding against the predicted distortion.
    pub making: Fabrication,
    /// Hours a week that the press is there, if given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub capacity_h: Option<f64>,
    /// Hours a week that torches are there, if given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub heat_capacity_h: Option<f64>,
    /// How weeks over capacity could be levelled; None without capacity or weeks.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub levelled: Option<Levelled>,
    /// Whether the chances of some mark are those of welding alone: nothing is known of what plates, cutting and assembly bring.
    pub welding_alone: bool,
    /// The shop that the work is planned for.
    pub shop: String,
    /// Rates that are placeholders, not the shop's own, as its file calls them.
    pub placeholder_rates: Vec<&'static str>,
    /// Cautions of the plans: the largest energy of all, the worst of the rest.
    pub cautions: Vec<Caution>,
}
