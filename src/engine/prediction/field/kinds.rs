//! Where a kind of number stands in a job.

use super::Field;
use crate::member::Seam;
use crate::prediction::Job;
use crate::welding::{Pass, Side};

impl Field {
    /// Thickness of every web plate.
    pub fn webs(job: &Job) -> Vec<Self> {
        (0..job.member.web.len()).map(Self::Web).collect()
    }

    /// Thickness of every outer flange plate.
    pub(crate) fn outer_flanges(job: &Job) -> Vec<Self> {
        (0..job.member.outer_flange.len()).map(|i| Self::Flange(Seam::Outer, i)).collect()
    }

    /// Thickness of every inner flange plate.
    pub(crate) fn inner_flanges(job: &Job) -> Vec<Self> {
        (0..job.member.inner_flange.len()).map(|i| Self::Flange(Seam::Inner, i)).collect()
    }

    /// Leg of every pass.
    pub(crate) fn legs(job: &Job) -> Vec<Self> {
        (0..job.passes.len()).map(Self::Leg).collect()
    }

    /// Force factor of a seam, if it is welded from both sides somewhere, or if it is not, as `both` asks.
    pub fn seam(job: &Job, seam: Seam, both: bool) -> Vec<Self> {
        let of = |side| job.passes.iter().filter(move |p| p.seam == seam && p.side == side);
        let facing =
            |near: &Pass| of(Side::Far).any(|far| near.from_mm < far.to_mm && far.from_mm < near.to_mm);
        if of(Side::Near).any(facing) == both { vec![Self::ForceOfSeam(seam)] } else { Vec::new() }
    }

    /// Factor on the second side of a seam, if one is laid later than the first somewhere.
    pub(crate) fn second_side(job: &Job, seam: Seam) -> Vec<Self> {
        let any = job.second_sides_after_s(seam).next().is_some();
        any.then_some(Self::SecondSide(seam)).into_iter().collect()
    }

    /// Tilt factor of a side, if anything is welded there.
    pub(crate) fn tilt_of_side(job: &Job, side: Side) -> Vec<Self> {
        let laid = job.passes.iter().any(|p| p.side == side);
        laid.then_some(Self::TiltOfSide(side)).into_iter().collect()
    }

    /// Force factor of every pass.
    pub(crate) fn forces_of_passes(job: &Job) -> Vec<Self> {
        (0..job.passes.len()).map(Self::ForceOfPass).collect()
    }
}
