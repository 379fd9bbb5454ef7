//! What a limit needs to know of the member.

use crate::units::System;
use serde::{Deserialize, Serialize};

/// What the member is built in as: one standard asks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Use {
    /// Beam, rafter or girder.
    #[default]
    Beam,
    /// Column.
    Column,
}

/// Stiffeners along the web, at the place that is judged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Stiffened {
    /// None.
    #[default]
    Bare,
    /// On one side of the web only.
    OneSide,
    /// On both.
    BothSides,
}

/// Sizes of the member at the place that is judged, all mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Facts {
    /// Length between the ends; it also stands for the span between supports.
    pub length_mm: f64,
    /// Flange width.
    pub flange_width_mm: f64,
    /// Flange thickness.
    pub flange_mm: f64,
    /// Clear web depth.
    pub web_depth_mm: f64,
    /// Web thickness.
    pub web_mm: f64,
    /// Smaller side of the web panel between flanges and stiffeners.
    pub panel_mm: f64,
    /// Its stiffeners.
    pub stiffened: Stiffened,
    /// What the member is used as.
    pub used_as: Use,
    /// Wanted camber at mid-length, without sign; 0 if none is wanted.
    pub wanted_camber_mm: f64,
    /// Units of the job: some standards print two columns that differ a little.
    pub units: System,
}

impl Facts {
    /// A beam 9 m long of 150 × 10 flanges and a bare web 600 × 6, straight: what a table leaves out.
    pub const USUAL: Self = Self {
        length_mm: 9000.0,
        flange_width_mm: 150.0,
        flange_mm: 10.0,
        web_depth_mm: 600.0,
        web_mm: 6.0,
        panel_mm: 600.0,
        stiffened: Stiffened::Bare,
        used_as: Use::Beam,
        wanted_camber_mm: 0.0,
        units: System::Si,
    };
}
