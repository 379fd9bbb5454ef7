//! The result, with the names other programs rely on. All numbers in engine units (mm, N, MPa, rad, J/mm)
//! whatever the user reads on screen. Every `*_2s` is two standard deviations of the prediction, what the model may be wrong
//! by for all pieces alike and what differs from piece to piece together.

mod whole;

pub use whole::{Ripple, RippleVerdict, Twist};

use super::cross::CrossWelds;
use super::cut_web::WebCurve;
use super::{Divided, Warning};
use crate::angular::hold::Hold;
use crate::bow::BowShape;
use crate::member::{Parts, Seam};
use crate::tolerance::Verdict;
use crate::welding::{HeatSource, Side, Stitch};
use serde::Serialize;

/// Which model made the numbers.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Model {
    /// "formula" or "strip".
    pub level: &'static str,
    /// Young's modulus, MPa.
    pub e_mpa: f64,
    /// Yield strength, MPa.
    pub yield_mpa: f64,
    /// One line on what the numbers rest on.
    pub trust: &'static str,
    /// Length of the member, mm.
    #[serde(skip)]
    pub length_mm: f64,
}

/// A bow measured from the chord between the ends.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Bow {
    /// Largest offset, mm, with sign: camber + toward the inner flange, sweep + toward the near side.
    pub max_mm: f64,
    /// Where that is, mm from the start end.
    pub at_mm: f64,
    /// Part of it that plates bring which come bowed, mm; the rest is from welding alone.
    pub by_plates_mm: f64,
    /// "inner", "outer", "near", "far", or "straight".
    pub toward: &'static str,
    /// Two standard deviations, mm: how far beyond `max_mm` the member may bow, there or anywhere else.
    pub max_2s_mm: f64,
    /// Where they come from.
    pub max_2s_of: Divided,
    /// Offset at stations: [x, offset], mm.
    pub profile: Vec<[f64; 2]>,
    /// Two standard deviations at the same stations, mm.
    pub profile_2s_mm: Vec<f64>,
    /// How it runs between them, kinks at welds across and all; nothing where the profile is empty.
    #[serde(skip)]
    pub shape: BowShape,
}

/// Shortening of lines of the member.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize)]
pub struct Shortening {
    /// Of the chord along the centroid of the finished section, mm.
    pub centroid_mm: f64,
    /// Of the outer web edge, mm.
    pub outer_edge_mm: f64,
    /// Of the inner web edge, mm, measured along x.
    pub inner_edge_mm: f64,
    /// Of the outer flange since it joined, mm.
    pub outer_flange_mm: f64,
    /// Of the inner flange since it joined, mm, along its own axis.
    pub inner_flange_mm: f64,
    /// Two standard deviations of the centroid value, mm.
    pub centroid_2s_mm: f64,
    /// Where they come from.
    pub centroid_2s_of: Divided,
}

/// What one pass does.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PassResult {
    /// Seam.
    pub seam: Seam,
    /// Side of the web.
    pub side: Side,
    /// Order.
    pub order: u32,
    /// Number of its welding procedure specification, where the job names one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wps: Option<String>,
    /// Start, mm.
    pub from_mm: f64,
    /// End, mm.
    pub to_mm: f64,
    /// Leg, mm.
    pub leg_mm: f64,
    /// Its stitches; none for a continuous bead.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stitch: Option<Stitch>,
    /// Net heat input, J/mm.
    pub heat_input_j_per_mm: f64,
    /// How the heat is known.
    pub heat_source: HeatSource,
    /// Shrinkage force it adds along the seam, at the middle of the pass, N.
    pub force_n: f64,
    /// The force a lone first pass of this heat would have there by formula, N.
    pub lone_force_n: f64,
    /// Line of action from the seam into the web, mm.
    pub arm_y_mm: f64,
    /// Line of action from the web plane, + near, mm, at the middle of the pass; 0 where the pass adds a moment with next to no
    /// force, whose line of action would lie beside the flange.
    pub arm_z_mm: f64,
    /// Parts joined when it cools.
    pub parts: Parts,
    /// [x, N] where the force varies along the pass, else empty: the mean of each substep at its middle. It jumps where
    /// plates change or another pass ends, so take it step by step rather than straight between points.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub force_profile: Vec<[f64; 2]>,
    /// [x, mm] where the lateral arm varies along the pass, else empty.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub arm_z_profile: Vec<[f64; 2]>,
}

/// The shape once a pass and all before it have cooled. Passes of one order are laid together; here they are taken one
/// after the other all the same, to show what each does.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WeldingStep {
    /// Number of the pass, from 1, as in `passes`.
    pub pass: usize,
    /// Its order.
    pub order: u32,
    /// Its seam; absent for what is welded across the member, which comes last.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seam: Option<Seam>,
    /// Its side.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<Side>,
    /// Shortening so far of the line that is the finished member's centroid, mm.
    pub shortening_mm: f64,
    /// Largest camber so far, mm, with sign.
    pub camber_mm: f64,
    /// Largest sweep so far, mm, with sign.
    pub sweep_mm: f64,
    /// Camber so far at the stations of `camber.profile`, mm.
    pub camber_profile_mm: Vec<f64>,
    /// Sweep so far at the same stations, mm.
    pub sweep_profile_mm: Vec<f64>,
}

/// How a flange clamped straight shares out an earlier sweep.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FitUpShare {
    /// Order at which it joined.
    pub order: u32,
    /// Part of the earlier sweep curvature that stays, at mid-length.
    pub sweep_kept: f64,
}

/// Cup, tilt and toe offsets of one flange at one place; of a stitched seam under a stitch, where they are largest.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FlangeAngles {
    /// Flange.
    pub flange: Seam,
    /// Middle of the stretch it holds for, mm.
    pub x_mm: f64,
    /// Start of that stretch, mm.
    pub from_mm: f64,
    /// End of that stretch, mm.
    pub to_mm: f64,
    /// Flange width, mm.
    pub width_mm: f64,
    /// Flange thickness, mm.
    pub thickness_mm: f64,
    /// Heat parameter q of the strongest pass, J/mm³.
    pub q_j_per_mm3: f64,
    /// Mean rise of the two halves toward the web, rad.
    pub cup_rad: f64,
    /// Half the difference, + when the near half is higher, rad.
    pub tilt_rad: f64,
    /// Near edge from the square line, + toward the web, mm.
    pub near_toe_mm: f64,
    /// Far edge from the square line, + toward the web, mm.
    pub far_toe_mm: f64,
    /// Two standard deviations of the cup, rad.
    pub cup_2s_rad: f64,
    /// Two standard deviations of the tilt, rad.
    pub tilt_2s_rad: f64,
    /// Two standard deviations of either toe offset, mm.
    pub toe_2s_mm: f64,
    /// Where they come from.
    pub toe_2s_of: Divided,
    /// Narrowing of the flange by transverse shrinkage, mm.
    pub narrowing_mm: f64,
}

/// One published estimate, evaluated for this member.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Estimate {
    /// "camber.max_mm", "sweep.max_mm", "shortening_mm", "flanges.outer.cup_rad", "flanges.inner.cup_rad".
    pub quantity: &'static str,
    /// Method: what it computes, in a few words.
    pub method: &'static str,
    /// Author, year, and how the formula is known.
    pub source: &'static str,
    /// Value, in the unit of the quantity.
    pub value: f64,
    /// True for a bound or a range check rather than a mean estimate.
    pub bound: bool,
}

/// What to cut one piece of plate to.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CutPiece {
    /// "web", "outer_flange" or "inner_flange".
    pub part: &'static str,
    /// Number along the member, from 1.
    pub piece: usize,
    /// Start, mm along x.
    pub from_mm: f64,
    /// End, mm along x.
    pub to_mm: f64,
    /// Finished length along its own axis, mm.
    pub finished_mm: f64,
    /// Added for lengthwise weld shrinkage, mm.
    pub shrinkage_mm: f64,
    /// Added for the splices at its ends, mm: half of what each draws in, less half of its root gap.
    pub splices_mm: f64,
    /// Length to cut, mm.
    pub cut_mm: f64,
}

/// Ordinates of both web edges to cut, so that the welded member has the wanted camber.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct WebEdge {
    /// Station, mm from the start end, before shrinkage.
    pub x_mm: f64,
    /// Outer edge from the straight line through its ends, mm, + toward the inner flange.
    pub outer_mm: f64,
    /// Inner edge from the same line, mm.
    pub inner_mm: f64,
    /// Two standard deviations of either, mm.
    pub edge_2s_mm: f64,
}

/// How to bend or lean a flange before welding so that it ends square and flat.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FlangePreset {
    /// Flange.
    pub flange: Seam,
    /// Start of the stretch, mm.
    pub from_mm: f64,
    /// End of the stretch, mm.
    pub to_mm: f64,
    /// Angle to crown each half away from the web, rad.
    pub crown_rad: f64,
    /// Angle to lean the flange, + near half away from the web, rad.
    pub lean_rad: f64,
    /// Packing under the near toe, mm (− lift the other way).
    pub near_packing_mm: f64,
    /// Packing under the far toe, mm.
    pub far_packing_mm: f64,
}

/// What to allow for when cutting and fitting.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Allowance {
    /// Every piece of plate.
    pub pieces: Vec<CutPiece>,
    /// Web edges at stations.
    pub web_edges: Vec<WebEdge>,
    /// Flange presets.
    pub presets: Vec<FlangePreset>,
    /// What edges and plates of the web follow between stations.
    #[serde(skip)]
    pub web: WebCurve,
}

/// What the strip level did, and what the formula level says of the same job.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct StripNotes {
    /// Different sections solved.
    pub stations: usize,
    /// Largest distance of a station from the straight line between its neighbours, relative to the largest force: an
    /// upper bound of what is lost between stations.
    pub station_gap: f64,
    /// Largest error of the heat balance of a pass, relative.
    pub energy_balance: f64,
    /// Time steps of all stations.
    pub steps: usize,
    /// Shortening by the formula level, mm.
    pub formula_shortening_mm: f64,
    /// Largest camber by the formula level, mm.
    pub formula_camber_mm: f64,
    /// Largest sweep by the formula level, mm.
    pub formula_sweep_mm: f64,
}

/// All of it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Prediction {
    /// Title of the job.
    pub title: String,
    /// Model.
    pub model: Model,
    /// Shortening of the centroid line, mm, +.
    pub shortening_mm: f64,
    /// Shortening of centroid and both web edges.
    pub shortening: Shortening,
    /// In-plane bow.
    pub camber: Bow,
    /// Lateral bow.
    pub sweep: Bow,
    /// Turn about the member's axis.
    pub twist: Twist,
    /// Pass by pass.
    pub passes: Vec<PassResult>,
    /// Pass by pass.
    pub build_up: Vec<WeldingStep>,
    /// Attachments, and splices made after assembly; absent without any.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cross_welds: Option<CrossWelds>,
    /// Sweep shared out by flanges that joined late.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub fit_up: Vec<FitUpShare>,
    /// Flanges, stretch by stretch.
    pub flanges: Vec<FlangeAngles>,
    /// What is taken to hold them square, which decides the tilt.
    pub hold: Hold,
    /// Web, at stations.
    pub ripple: Vec<Ripple>,
    /// Published estimates.
    pub estimates: Vec<Estimate>,
    /// Against the tolerances.
    pub verdicts: Vec<Verdict>,
    /// What to allow for.
    pub allowance: Allowance,
    /// Mass of the member, kg.
    pub mass_kg: f64,
    /// How the strip level came to its numbers; absent at the formula level.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub strip: Option<StripNotes>,
    /// Warnings.
    pub warnings: Vec<Warning>,
}
