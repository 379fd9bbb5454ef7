//! A case with an arc that travels: the same joint, passes, steel and mesh, in staggered slices.

use super::case::{Case, CaseError, Layer};
use super::formula::HeldSo;
use super::options::{Meshing, Options, Setup};
use super::result::LayerNumbers;
use crate::angular::hold::{Hold, Tacks};
use crate::joint_solver::{Joint, USUAL_SPEED_MM_S};
use crate::member::Seam;
use crate::moving_arc::{Foot, Grip, Travel, Travelled, travel};
use serde::Serialize;

/// Slices that a length is cut into, at least and at most, unless somebody says how many.
const FEWEST_SLICES: usize = 8;
const MOST_SLICES: usize = 100;

/// A case welded by an arc that travels.
#[derive(Debug, Clone, Serialize)]
pub struct TravelledCase {
    /// Seam.
    pub seam: Seam,
    /// Place whose plates and passes it has, mm from the start end.
    pub x_mm: f64,
    /// The joint.
    pub joint: Joint,
    /// How the arc travelled.
    pub travel: Travel,
    /// What came of it.
    pub outcome: Travelled,
    /// What of the job it leaves out.
    pub cautions: Vec<String>,
}

/// Mesh of each slice: two elements a leg do, as in the calculation in three dimensions that the slices are compared with (halved
/// there, cup and tilt move by 1 and 5 %); `Fine` has four. Coarse and standard differ in slices and steps.
pub const fn meshing(asked: Meshing) -> Meshing {
    match asked {
        Meshing::Coarse | Meshing::Standard => Meshing::Coarse,
        Meshing::Fine => Meshing::Standard,
        Meshing::PerLeg(n) => Meshing::PerLeg(n),
    }
}

/// Slices and steps of an arc that travels at the speed of the first pass along a length of the joint, by fineness: one every 25 mm and 8 mm a
/// step when coarse, one every 15 mm and 5 mm when standard, one every 8 mm and 4 mm when finer.
pub fn travel_of(case: &Case, meshing: Meshing, length_mm: f64) -> Travel {
    let (every, step_mm) = match meshing {
        Meshing::Coarse => (25.0, 8.0),
        Meshing::Standard => (15.0, 5.0),
        Meshing::Fine | Meshing::PerLeg(_) => (8.0, 4.0),
    };
    let speed = case.layers.first().map_or(USUAL_SPEED_MM_S, Layer::speed_mm_s);
    let slices = ((length_mm / every).round() as usize).clamp(FEWEST_SLICES, MOST_SLICES);
    Travel { slices, step_mm, ..Travel::of(length_mm, speed) }
}

impl TravelledCase {
    /// Numbers amid the length after each pass.
    pub fn numbers(&self) -> Vec<LayerNumbers> {
        self.outcome
            .passes
            .iter()
            .filter_map(|pass| pass.amid())
            .map(|slice| LayerNumbers::of(&slice.shrinkage, slice.shape))
            .collect()
    }
}

/// What the formulas take a joint for that is held like that: plates in one piece are one that nothing needs to hold. Tacks within the first
/// third of the length are those of a leading end; a gap is as wide as it takes to turn the flange as far as a gap can.
pub fn held_so(travel: &Travel) -> HeldSo {
    let leading = |stretch: &[f64; 2]| stretch[1] <= travel.length_mm / 3.0;
    let tacks = match travel.tacks_mm.as_slice() {
        tacks if travel.foot == Foot::OnePiece || tacks.is_empty() => Tacks::None,
        tacks if tacks.iter().all(leading) => Tacks::LeadingEnd,
        _ => Tacks::Along,
    };
    let hold = Hold {
        tacks,
        rolls: matches!(travel.grip, Grip::Rolls(_)),
        square_until_cold: travel.grip == Grip::Square,
    };
    HeldSo { hold, gap_mm: if travel.foot == Foot::Apart { f64::MAX } else { 0.0 } }
}

/// Lets the arc travel; `watch` is told the part done, and asked whether to go on.
///
/// # Errors
/// `Section` with what the room of the travelling arc finds wrong.
pub fn moving(
    case: &Case,
    options: &Options,
    asked: &Travel,
    watch: &mut dyn FnMut(f64) -> bool,
) -> Result<TravelledCase, CaseError> {
    let options = Options { meshing: meshing(options.meshing), ..options.clone() };
    let setup = Setup { hold: options.hold, source: 1.0 };
    let mut sequence = case.sequence(&options, setup)?;
    let failed = |cause| case.failed(cause);
    if asked.foot != Foot::OnePiece {
        sequence.mesh = case.joint.mesh_parted(options.meshing.fineness()).map_err(failed)?;
    }
    let outcome = travel(&sequence, &case.joint, asked, watch).map_err(failed)?;
    let mut cautions = case.cautions.clone();
    if case.layers.iter().skip(1).any(|layer| layer.wait != crate::welding::Wait::Cold) {
        cautions.push("Each pass is laid when all is cold; the waits of the job are left out.".to_owned());
    }
    if matches!(asked.grip, Grip::Rolls(_)) {
        cautions.push("No other calculation and no measurement of a joint pressed by rolls is known to compare this with.".to_owned());
    }
    Ok(TravelledCase {
        seam: case.seam,
        x_mm: case.x_mm,
        joint: case.joint,
        travel: asked.clone(),
        outcome,
        cautions,
    })
}
