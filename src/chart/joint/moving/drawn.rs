//! What the pictures of a travelling arc are drawn from, and the words they share.

use crate::measure::Unit;
use weldbow_engine::moving_arc::{Foot, Glance, Grip, PassTravelled, Travel};
use weldbow_engine::prediction::Job;
use weldbow_engine::units::{System, show};
use weldbow_engine::verification::TravelledCase;

/// Unit of the angles.
pub(super) const DEGREE: Unit = Unit { name: "°", mm: 1f64.to_radians(), decimals: 2 };

/// A case and what came of it, as the pictures take them.
#[derive(Clone, Copy)]
pub(super) struct Drawn<'a> {
    pub job: &'a Job,
    pub moved: &'a TravelledCase,
    pub system: System,
}

impl Drawn<'_> {
    /// "inner seam at 4.50 m".
    pub(super) fn place(&self) -> String {
        format!("{} seam at {}", self.moved.seam.name(), show::position(self.moved.x_mm, self.system))
    }

    /// "Flange 180 × 10 mm, web 6 mm, 0.72 m/min, one piece, free".
    pub(super) fn case(&self) -> String {
        let joint = &self.moved.joint;
        format!(
            "Flange {}, web {}, {}, {}",
            crate::measure::plate_size(joint.flange_width_mm, joint.flange_mm, self.system),
            show::plate(joint.web_mm, self.system),
            show::speed(self.travel().speed_mm_s, self.system),
            held(self.travel())
        )
    }

    /// Where and how the arc went.
    pub(super) fn travel(&self) -> &Travel {
        &self.moved.travel
    }

    /// What came of each pass.
    pub(super) fn passes(&self) -> &[PassTravelled] {
        &self.moved.outcome.passes
    }
}

/// Mean rise of both halves, rad.
pub(super) const fn cup(glance: &Glance) -> f64 {
    f64::midpoint(glance.near_rad, glance.far_rad)
}

/// Half the difference of their rises, rad.
pub(super) const fn tilt(glance: &Glance) -> f64 {
    (glance.near_rad - glance.far_rad) / 2.0
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
