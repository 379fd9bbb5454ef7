//! What was measured, as read, and where each of it stands in its file.

use super::columns::Column;
use super::front::Front;
use std::ops::Range;
use weldbow_engine::straighten::shape::Toes;

/// What was measured, as read.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    /// Stations, mm.
    pub x_mm: Vec<f64>,
    /// Camber readings, mm; None if there is no such column.
    pub camber_mm: Option<Vec<f64>>,
    /// Sweep readings, mm.
    pub sweep_mm: Option<Vec<f64>>,
    /// Toes.
    pub toes: Vec<Toes>,
    /// What is known of the piece and the measurement.
    pub front: Front,
    /// Where it was read, for complaints.
    pub(super) source: Source,
}

/// A column of the table: what it holds, its unit, and where its head stands.
pub(super) type Head = (Column, &'static str, Range<usize>);

/// The text behind the readings.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Source {
    pub file: String,
    pub text: String,
    /// Columns in their order.
    pub heads: Vec<Head>,
    /// Where each cell of each station stands.
    pub rows: Vec<Vec<Range<usize>>>,
}
