//! Pictures of a joint along which the arc travelled: instants of it, how a place amid the length turned, what is left along it.

mod along;
mod frames;
mod turning;

use crate::{ChartError, Picture};
use weldbow_engine::moving_arc::{Foot, Grip, PassTravelled, Travel};
use weldbow_engine::prediction::Job;
use weldbow_engine::units::{System, show};
use weldbow_engine::verification::Moved;

/// A case and what came of it, as the pictures take them.
#[derive(Clone, Copy)]
struct Drawn<'a> {
    job: &'a Job,
    moved: &'a Moved,
    system: System,
}

/// All pictures of one joint along which the arc travelled, labels in the units of `system`.
///
/// # Errors
/// [`ChartError::NotANumber`] if a result is not finite; the other errors mean a broken build.
pub fn moving_pictures(job: &Job, moved: &Moved, system: System) -> Result<Vec<Picture>, ChartError> {
    let drawn = Drawn { job, moved, system };
    Ok(vec![frames::frames(&drawn)?, turning::turning(&drawn)?, along::along(&drawn)?])
}

impl Drawn<'_> {
    /// "inner seam at 4.50 m".
    fn place(&self) -> String {
        format!("{} seam at {}", self.moved.seam.name(), show::position(self.moved.x_mm, self.system))
    }

    /// "Flange 180 × 10 mm, web 6 mm, 0.72 m/min, one piece, free".
    fn case(&self) -> String {
        let joint = &self.moved.joint;
        format!(
            "Flange {}, web {}, {}, {}",
            crate::measure::plate_size(joint.flange_width_mm, joint.flange_mm, self.system),
            show::plate(joint.web_mm, self.system),
            show::speed(self.travel().speed_mm_s, self.system),
            held(self.travel())
        )
    }

    fn travel(&self) -> &Travel {
        &self.moved.travel
    }

    fn passes(&self) -> &[PassTravelled] {
        &self.moved.outcome.passes
    }
}

/// How web and flange meet and what holds them, in a few words.
fn held(travel: &Travel) -> String {
    let foot = match travel.foot {
        Foot::OnePiece => "one piece",
        Foot::Touching => "touching",
        Foot::Apart => "apart",
    };
    let tacked = if travel.tacks_mm.is_empty() || travel.foot == Foot::OnePiece { "" } else { ", tacked" };
    let grip = match travel.grip {
        Grip::Free => "free",
        Grip::Guided => "web guided",
        Grip::Square => "held square until cold",
        Grip::Rolls(_) => "pressed by rolls",
    };
    format!("{foot}{tacked}, {grip}")
}
