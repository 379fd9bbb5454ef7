//! What a report is made from.

use crate::service::Drawn;
use maud::Markup;
use weldbow_engine::choose::Choice;
use weldbow_engine::prediction::{Job, Prediction};
use weldbow_engine::units::System;
use weldbow_engine::verification::Verified;

/// What the sheet is about, for the box at its head. Empty texts leave a field to fill in.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Identity {
    /// Mark of the piece.
    pub mark: String,
    /// Drawing.
    pub drawing: String,
    /// Its revision.
    pub revision: String,
    /// Welding procedure specification; that of the job's passes if empty.
    pub wps: String,
    /// Date, as the user writes it.
    pub date: String,
    /// Version of the program.
    pub version: String,
    /// Name of the job's file.
    pub file: String,
    /// SHA-256 of its text, hexadecimal.
    pub hash: String,
}

/// All that a report is made from.
#[derive(Clone, Copy)]
pub struct Reported<'a> {
    /// The job.
    pub job: &'a Job,
    /// Its prediction.
    pub prediction: &'a Prediction,
    /// Drawn pieces.
    pub drawn: &'a Drawn,
    /// What it is about.
    pub identity: &'a Identity,
    /// Drawings, SVG, each with a name.
    pub pictures: &'a [(String, String)],
    /// Joints solved from first principles.
    pub joints: &'a [Verified],
    /// What weld holds every limit, if that was asked.
    pub choice: Option<&'a Choice>,
    /// The straightening sheet for the floor; empty without one.
    pub floor: &'a Markup,
    /// Units of the numbers.
    pub system: System,
}
