//! What is read off the slices.

use crate::joint_solver::{SectionShape, Shrinkage};
use serde::Serialize;
use std::time::Duration;

/// One slice after a pass.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Along {
    /// Place, mm from where the arc starts.
    pub x_mm: f64,
    /// Force and strains left.
    pub shrinkage: Shrinkage,
    /// Angles and narrowing.
    pub shape: Option<SectionShape>,
    /// Area that has flowed by more than 0.2 %, mm².
    pub plastic_mm2: f64,
    /// Largest tension along the joint, MPa.
    pub tension_mpa: f64,
    /// Largest equivalent stress (Mises), MPa: what yielding goes by, where tension along the joint is more.
    pub equivalent_mpa: f64,
    /// Largest compression along the joint, as a negative stress, MPa.
    pub compression_mpa: f64,
}

/// One slice in a frame.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Glance {
    /// Its hottest point, °C.
    pub hottest_c: f64,
    /// Rise of the near half from the web's square, rad.
    pub near_rad: f64,
    /// Rise of the far half, rad.
    pub far_rad: f64,
    /// Loss of flange width, mm.
    pub narrowing_mm: f64,
    /// Temperature of the flange's face under the web at the places of [`Travelled::across_mm`], to a tenth, °C.
    pub face_c: Vec<f64>,
}

/// All slices at one time.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Frame {
    /// Time since the arc started, s.
    pub time_s: f64,
    /// Place of the arc, mm; beyond the length once it has gone.
    pub arc_mm: f64,
    /// The slices in order.
    pub slices: Vec<Glance>,
}

/// The joint after a pass.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PassTravelled {
    /// Slices in order.
    pub along: Vec<Along>,
    /// Frames in order of time, while the pass was laid and cooled.
    pub frames: Vec<Frame>,
    /// Time until all was cold, s.
    pub seconds: f64,
    /// Heat held and lost over the heat given, less 1.
    pub energy_balance: f64,
}

impl PassTravelled {
    /// The slice amid the length.
    pub fn amid(&self) -> Option<&Along> {
        self.along.get(self.along.len() / 2)
    }
}

/// What it took.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
pub struct TravelEffort {
    /// Unknowns of a slice.
    pub unknowns: usize,
    /// Time steps.
    pub steps: usize,
    /// Corrections of all slices together.
    pub corrections: usize,
    /// Factors of a slice.
    pub factorisations: usize,
    /// Steps halved.
    pub halved: usize,
}

/// A joint welded by an arc that travels.
#[derive(Debug, Clone, Serialize)]
pub struct Travelled {
    /// Pass by pass.
    pub passes: Vec<PassTravelled>,
    /// Places across the flange's face at which frames hold temperatures, mm; rising to the near edge.
    pub across_mm: Vec<f64>,
    /// What it took.
    pub work: TravelEffort,
    /// Largest part of the forces left unbalanced in a step.
    pub worst_left: f64,
    /// Time it took; not part of the result.
    #[serde(skip)]
    pub took: Duration,
}
