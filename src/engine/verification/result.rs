//! The result of one case, with the names other programs rely on. Engine units: mm, N, MPa, rad, J/mm, °C, s.

use super::case::CaseFillet;
use super::options::{HotHold, Meshing, Setup};
use crate::joint_solver::{Joint, Lengthwise, SectionShape, Shrinkage};
use crate::member::Seam;
use serde::Serialize;

/// What the section and the formulas both tell, all layers so far together.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct LayerNumbers {
    /// Shrinkage force, N, + shortens.
    pub force_n: f64,
    /// Where it acts from the web plane, mm, + near; none without force.
    pub across_mm: Option<f64>,
    /// Where it acts from the flange's inner face into the web, mm; none without force.
    pub up_mm: Option<f64>,
    /// Mean rise of both flange halves toward the web, rad.
    pub cup_rad: Option<f64>,
    /// Half the difference of the rises, rad, + near half higher.
    pub tilt_rad: Option<f64>,
    /// Loss of flange width, mm.
    pub narrowing_mm: Option<f64>,
}

impl LayerNumbers {
    /// What a solved slice tells.
    pub(super) fn of(shrinkage: &Shrinkage, shape: Option<SectionShape>) -> Self {
        Self {
            force_n: shrinkage.force_n,
            across_mm: shrinkage.at_mm.map(|at| at[0]),
            up_mm: shrinkage.at_mm.map(|at| at[1]),
            cup_rad: shape.map(|shape| shape.cup_rad),
            tilt_rad: shape.and_then(|shape| shape.tilt_rad),
            narrowing_mm: shape.map(|shape| shape.narrowing_mm),
        }
    }
}

/// Formula over section, less 1; none where the section's value is too small to divide by.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Difference {
    /// Of the force.
    pub force: Option<f64>,
    /// Of the cup.
    pub cup: Option<f64>,
    /// Of the tilt.
    pub tilt: Option<f64>,
    /// Of the narrowing.
    pub narrowing: Option<f64>,
}

/// Angles below this are too small to divide by, rad (a choice: a tenth of what free angles are unsure by).
const SMALL_RAD: f64 = 1e-4;
/// Narrowing below this likewise, mm.
const SMALL_MM: f64 = 1e-3;

impl Difference {
    /// Of the formulas from the section.
    pub fn of(formula: &LayerNumbers, section: &LayerNumbers) -> Self {
        let over = |formula: Option<f64>, section: Option<f64>, small: f64| {
            formula.zip(section).filter(|(_, s)| s.abs() > small).map(|(f, s)| f / s - 1.0)
        };
        Self {
            force: over(Some(formula.force_n), Some(section.force_n), 1.0),
            cup: over(formula.cup_rad, section.cup_rad, SMALL_RAD),
            tilt: over(formula.tilt_rad, section.tilt_rad, SMALL_RAD),
            narrowing: over(formula.narrowing_mm, section.narrowing_mm, SMALL_MM),
        }
    }
}

/// What one layer melts. Depths follow from the assumed width of the source; see `melt`.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Melted {
    /// Deepest melted place under the flange's inner face, mm.
    pub flange_mm: f64,
    /// That over the flange's thickness.
    pub flange_share: f64,
    /// Deepest melted place behind a face of the web, mm.
    pub web_mm: f64,
    /// That over the web's thickness.
    pub web_share: f64,
    /// Melted section of both plates, mm².
    pub plate_mm2: f64,
    /// Part of the new fillets that gets molten; a real deposit arrives molten.
    pub fillet_share: f64,
    /// A plate is molten through its thickness.
    pub through: bool,
}

/// One layer: one side, or both at once.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SolvedPass {
    /// Its order in the job.
    pub order: u32,
    /// Its fillets.
    pub beads: Vec<CaseFillet>,
    /// Time since the arc before it, s; null if that had gone cold, or for the first.
    pub wait_s: Option<f64>,
    /// Time from its arc to the next, or to cold, s.
    pub seconds: f64,
    /// Hottest point then, °C.
    pub hottest_c: f64,
    /// Heat held and lost over heat given, less 1.
    pub energy_balance: f64,
    /// By the section.
    pub section: LayerNumbers,
    /// By the formulas.
    pub formula: LayerNumbers,
    /// Formula over section, less 1.
    pub difference: Difference,
    /// What it melts.
    pub melted: Melted,
}

/// The same case under another restraint or a source of another width.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Bracketed {
    /// What differs.
    #[serde(flatten)]
    pub setup: Setup,
    /// After each layer.
    pub passes: Vec<LayerNumbers>,
}

/// Stress along the member when all is cold, + tension.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Residual {
    /// Largest in the plates, MPa.
    pub peak_mpa: f64,
    /// Where [across, up], mm.
    pub peak_at_mm: [f64; 2],
    /// That over the yield strength.
    pub peak_over_yield: f64,
    /// Smallest in the plates, MPa.
    pub lowest_mpa: f64,
    /// Where [across, up], mm.
    pub lowest_at_mm: [f64; 2],
    /// Largest in the weld metal, MPa.
    pub weld_metal_peak_mpa: f64,
    /// At the near edge of the flange, mid-thickness, MPa.
    pub near_edge_mpa: f64,
    /// At the far edge, MPa.
    pub far_edge_mpa: f64,
    /// Mean of both over the yield strength.
    pub edge_over_yield: f64,
    /// Middle of the flange under the web over the yield strength.
    pub at_weld_over_yield: f64,
    /// Largest of force and moments of the stress over the sum of its parts without sign; null while held.
    pub out_of_balance: Option<f64>,
    /// [across mm, MPa] along the middle of the flange.
    pub flange_profile: Vec<[f64; 2]>,
    /// [up mm, MPa] along the middle of the web.
    pub web_profile: Vec<[f64; 2]>,
}

/// Size of the calculation; time is not part of it, so that the same input gives the same result.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SolvedSize {
    /// Elements of eight nodes.
    pub elements: usize,
    /// Displacement unknowns.
    pub unknowns: usize,
    /// Temperature unknowns of the last pass.
    pub heat_unknowns: usize,
    /// Time steps that came to equilibrium.
    pub steps: usize,
    /// Corrections toward equilibrium.
    pub corrections: usize,
    /// Times the stiffness was factorised.
    pub factorisations: usize,
    /// Times a step was halved.
    pub halved_steps: usize,
    /// Newton iterations of the heat.
    pub heat_iterations: usize,
    /// Largest unbalanced force left in a step, over the forces there were.
    pub worst_left: f64,
}

/// One case.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Verified {
    /// Seam.
    pub seam: Seam,
    /// Place, mm from the start end.
    pub x_mm: f64,
    /// The joint.
    pub joint: Joint,
    /// Its area with all fillets, mm².
    pub area_mm2: f64,
    /// Yield strength, MPa.
    pub yield_mpa: f64,
    /// Temperature of the plates before the first pass, °C.
    pub start_c: f64,
    /// Temperature below which the plane is free, °C; null for never held.
    #[serde(rename = "hold_c")]
    pub hold: HotHold,
    /// Restraint lengthwise.
    pub lengthwise: Lengthwise,
    /// Mesh and steps.
    pub mesh: Meshing,
    /// Layer by layer.
    pub passes: Vec<SolvedPass>,
    /// Other restraints.
    pub bracket: Vec<Bracketed>,
    /// Stress that stays.
    pub residual: Residual,
    /// Size of the calculation.
    pub size: SolvedSize,
    /// What to keep in mind.
    pub cautions: Vec<String>,
}
