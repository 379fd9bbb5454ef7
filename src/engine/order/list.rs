//! An order as it is asked about, and its marks once their pieces are drawn and planned.

use super::mark::Worked;
use super::result::QuantityChance;
use super::week::Week;
use super::work::Basis;
use crate::job::file::JobFile;
use crate::prediction::{Job, Prediction};
use crate::scatter::Draws;
use crate::shop::Shop;
use crate::straighten::piece::Fabrication;
use crate::tolerance::Likely;
use crate::units::System;

/// One line of an order: so many pieces of one mark.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Mark.
    pub mark: String,
    /// Its job file, as given.
    pub path: String,
    /// Its job.
    pub file: JobFile,
    /// Pieces.
    pub quantity: u32,
    /// When it is wanted.
    pub week: Option<Week>,
    /// Family of the user's own.
    pub family: Option<String>,
}

/// An order, and what it is judged by.
#[derive(Debug, Clone)]
pub struct WorkOrder<'a> {
    /// Marks.
    pub lines: &'a [Line],
    /// Weeks to spread the pieces over in the order of the list; without them the lines' own weeks count.
    pub weeks: Option<u32>,
    /// How pieces are drawn.
    pub draws: Draws,
    /// What is done before welding against the predicted distortion.
    pub making: Fabrication,
    /// The shop.
    pub shop: &'a Shop,
    /// Hours a week that the press is there.
    pub capacity_h: Option<f64>,
    /// Hours a week that torches are there.
    pub heat_capacity_h: Option<f64>,
    /// Units for the names of families.
    pub system: System,
    /// Whether to say how likely a piece is out of any limit too, as every verdict says it; drawing the pieces for that takes several
    /// times as long as all else.
    pub verdicts: bool,
}

/// What is known of a job once its pieces are drawn and planned.
pub(super) struct Known {
    pub(crate) basis: Basis,
    pub(crate) job: Job,
    pub(crate) prediction: Prediction,
    pub(crate) worked: Worked,
    pub(crate) likely: Likely,
    pub(crate) out: Option<Likely>,
    pub(crate) parts: Vec<QuantityChance>,
    /// Pieces drawn for each draw of the bias.
    pub(crate) pieces: usize,
    pub(crate) failed: usize,
}

/// A line with what is known of its job.
pub(super) struct Marked<'a> {
    pub(crate) line: &'a Line,
    pub(crate) known: &'a Known,
}
