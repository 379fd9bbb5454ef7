//! The camber that a web is cut for: the wanted one, and more of it where limits allow only more.

use super::Job;
use crate::bow::BowShape;
use crate::member::Seam;
use crate::numerics::parabola;
use crate::tolerance::{Band, Facts, Quantity};
use crate::units::{Message, Part};

/// Sizes of the member, for limits that depend on them.
pub(super) fn facts_of(job: &Job) -> Facts {
    Facts {
        length_mm: job.member.length_mm,
        flange_width_mm: 0.0,
        flange_mm: 0.0,
        used_as: job.used_as,
        wanted_camber_mm: job.wanted_camber.map_or(0.0, |w| w.rise_mm),
        units: job.units,
        ..Facts::USUAL
    }
}

impl Job {
    /// How much more camber than the wanted one the web is cut for at x (mm), mm: the middle of what all its limits allow at mid-length,
    /// along a parabola as the wanted camber has. −0/+20 mm makes 10 mm, everywhere the middle, as that band is a parabola too (AWS D1.1,
    /// 7.22.3); limits that allow as much to either side make 0. At the wanted camber itself half of the pieces would have too little.
    pub fn aimed_more_mm(&self, x_mm: f64) -> f64 {
        let length_mm = self.member.length_mm;
        if self.wanted_camber.is_none() {
            return 0.0;
        }
        let facts = facts_of(self);
        let limits = self.tolerances.iter().flat_map(|set| set.limits_of(Quantity::Camber));
        let bands = limits.filter_map(|limit| limit.band_at_mm(&facts, 0.5 * length_mm));
        let own = self.own_limits.iter().filter(|own| own.quantity == Quantity::Camber);
        let common = bands.chain(own.map(|own| Band::both(own.limit_mm))).reduce(Band::common);
        common.map_or(0.0, Band::middle_mm) * parabola(x_mm / length_mm)
    }

    /// The camber that the web is cut for at x (mm), mm, + toward the inner flange.
    pub fn aimed_camber_mm(&self, x_mm: f64) -> f64 {
        let more = self.aimed_more_mm(x_mm);
        self.wanted_camber.map_or(0.0, |wanted| {
            let signed = if wanted.toward == Seam::Inner { more } else { -more };
            wanted.offset_mm(x_mm, self.member.length_mm) + signed
        })
    }

    /// A camber less the one aimed at, + toward the inner flange: what the cut takes away.
    pub(super) fn off_aimed(&self, camber: &BowShape) -> BowShape {
        camber.clone().raised(-self.aimed_camber_mm(0.5 * self.member.length_mm))
    }

    /// What the web is cut for, in words.
    pub fn aim(&self) -> Message {
        let Some(wanted) = self.wanted_camber else { return "for a straight member".into() };
        let more = self.aimed_more_mm(0.5 * self.member.length_mm);
        let parts = [Part::Offset(wanted.rise_mm + more), wanted.toward.name().into()];
        let said = Message::of("for a camber of {} toward the {} flange", parts);
        if more.abs() > 0.0 {
            said.then(Message::of(", {} more than wanted: the middle of its limits", [Part::Offset(more)]))
        } else {
            said
        }
    }
}
