//! A case with an arc that travels: the same joint, passes, steel and mesh, in staggered slices.

use super::case::{Case, CaseError};
use super::options::{Meshing, Options, Setup};
use crate::joint_solver::Joint;
use crate::member::Seam;
use crate::moving_arc::{Foot, Grip, Travel, Travelled, travel};
use serde::Serialize;

/// A case welded by an arc that travels.
#[derive(Debug, Clone, Serialize)]
pub struct Moved {
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

/// Lets the arc travel; `watch` is told the part done, and asked whether to go on.
///
/// # Errors
/// `Section` with what the room of the travelling arc finds wrong.
pub fn moving(
    case: &Case,
    options: &Options,
    asked: &Travel,
    watch: &mut dyn FnMut(f64) -> bool,
) -> Result<Moved, CaseError> {
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
    if matches!(asked.grip, Grip::Square | Grip::Rolls(_)) {
        cautions.push("What a joint held square or pressed by rolls does has not been compared with another calculation yet.".to_owned());
    }
    Ok(Moved {
        seam: case.seam,
        x_mm: case.x_mm,
        joint: case.joint,
        travel: asked.clone(),
        outcome,
        cautions,
    })
}
