//! The shop book: what the welding line can do, and the procedures qualified on it.
//!
//! `file` is the shape of its two tables, `build` checks them; [`Entry`] says which current, voltage and speed go with
//! a leg inside the qualified ranges.

mod build;
mod entry;
pub mod file;

pub(crate) use build::entries;
pub(crate) use entry::Melting;
pub use entry::{ArcSetting, Entry, speed_step_mm_s};

use serde::Serialize;

/// What the line and its cranes can do.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct WeldingLine {
    /// Slowest and fastest travel, mm/s.
    pub speed_mm_s: (f64, f64),
    /// Shallowest and deepest web, mm.
    pub web_mm: (f64, f64),
    /// Narrowest and widest flange, mm.
    pub flange_width_mm: (f64, f64),
    /// Thickest flange, mm.
    pub thickest_flange_mm: f64,
    /// Steepest inner flange the heads follow, degrees.
    pub head_pivot_deg: f64,
    /// Whether two heads weld both seams of one side in one run.
    pub both_seams_at_once: bool,
    /// Whether heads weld both sides of one seam in one run.
    pub both_sides_at_once: bool,
    /// Fit-up, loading and start of a run, s.
    pub run_s: f64,
    /// Turning the member over, s.
    pub turn_over_s: f64,
    /// How long a member lies until it is cold, s.
    pub cold_s: f64,
}

/// What welding costs, in the shop's money.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Costs {
    /// An hour of crew and place together.
    pub per_hour: f64,
    /// An hour in which a member only lies until it is cold.
    pub waiting_per_hour: f64,
    /// What a kilogram of weld metal uses up: wire, flux, gas and current.
    pub per_kg: f64,
    /// Which of them are placeholders, as the shop file calls them.
    pub placeholders: Vec<&'static str>,
}

impl Costs {
    /// Placeholders (choice, no source): a cooling member takes a place and no crew; a kilogram of wire and as much flux.
    pub const PLACEHOLDERS: (f64, f64, f64) = (100.0, 10.0, 5.0);
}

/// A checked shop book.
#[derive(Debug, Clone, PartialEq)]
pub struct Book {
    /// The line.
    pub line: WeldingLine,
    /// Qualified procedures, at least one.
    pub entries: Vec<Entry>,
    /// What it costs.
    pub costs: Costs,
}
