//! From a job and its prediction to what pieces are judged by.

use super::work::Basis;
use crate::prediction::{Bow, FlangeShape, Job};
use crate::shop::Shop;
use crate::straighten::decide::{Limits, Situation};
use crate::straighten::plan::Goals;
use crate::straighten::press::WeldStress;
use crate::straighten::shape::{OutOfStraight, Toes};
use crate::tolerance::{Quantity, Verdict};

pub(super) fn basis(job: &Job, verdicts: &[Verdict], shop: &Shop) -> Basis {
    let least = |q: Quantity, sd: f64| {
        let limit = verdicts.iter().filter(|v| v.quantity == q).map(|v| v.limit).fold(1e6, f64::min);
        Limits::both(limit, sd)
    };
    let m = shop.measuring;
    Basis {
        member: job.member.clone(),
        goals: Goals {
            camber: least(Quantity::Camber, m.camber_mm),
            sweep: least(Quantity::Sweep, m.sweep_mm),
            toe: least(Quantity::FlangeToe, m.toe_mm),
        },
        shop: shop.tools,
        situation: Situation::USUAL,
        weld: WeldStress::USUAL,
        measurements: 1,
    }
}

pub(super) fn shape(job: &Job, camber: &Bow, sweep: &Bow, flanges: &[FlangeShape]) -> Option<OutOfStraight> {
    let length = job.member.length_mm;
    let wanted = |x: f64| job.wanted_camber.map_or(0.0, |w| w.offset_mm(x, length));
    OutOfStraight::new(
        length,
        camber.profile.iter().map(|p| p[0]).collect(),
        camber.profile.iter().map(|p| p[1] - wanted(p[0])).collect(),
        sweep.profile.iter().map(|p| p[1]).collect(),
        flanges
            .iter()
            .map(|f| Toes { seam: f.flange, x_mm: f.x_mm, near_mm: f.near_toe_mm, far_mm: f.far_toe_mm })
            .collect(),
    )
    .ok()
}
