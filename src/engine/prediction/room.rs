//! Whether fillets have room: a fillet needs flange beside it and web above it to lie on, and plates that do not drown in it.

use super::Job;
use super::field::ranges::LARGEST_LEG;
use crate::member::{Member, Seam};
use crate::welding::Pass;

/// Whether the plates of a job fit each other and its fillets fit the plates. The check of a job file says what does not.
pub fn fits(job: &Job) -> bool {
    let member = &job.member;
    let flanges = || Seam::BOTH.into_iter().flat_map(|seam| member.flange(seam));
    let beside = |a: (f64, f64), b: (f64, f64)| a.0 < b.1 && a.1 > b.0;
    let plates = flanges().all(|f| {
        let webs = member.web.iter().filter(|w| beside((w.from_mm, w.to_mm), (f.from_mm, f.to_mm)));
        f.width_mm >= f.thickness_mm && webs.map(|w| w.thickness_mm).fold(0.0, f64::max) < f.width_mm
    });
    plates && job.passes.iter().all(|pass| lies(pass, member))
}

fn lies(pass: &Pass, member: &Member) -> bool {
    let leg = pass.leg_mm;
    let over = |from: f64, to: f64| from < pass.to_mm && to > pass.from_mm;
    let flanges = member.flange(pass.seam).iter().filter(|f| over(f.from_mm, f.to_mm));
    let on_plates = flanges.into_iter().all(|f| {
        let shared = |from: f64, to: f64| from.max(f.from_mm) < to.min(f.to_mm);
        let webs = member.web.iter().filter(|w| over(w.from_mm, w.to_mm) && shared(w.from_mm, w.to_mm));
        webs.into_iter().all(|w| {
            leg < 0.5 * (f.width_mm - w.thickness_mm)
                && leg <= LARGEST_LEG * f.thickness_mm.min(w.thickness_mm)
        })
    });
    // between the points of the profile the depth runs straight
    let inside = member.depth.points().iter().filter(|p| (pass.from_mm..=pass.to_mm).contains(&p.0));
    let ends = [pass.from_mm, pass.to_mm].map(|x| member.depth.depth_mm(x));
    let least_mm = inside.map(|p| p.1).chain(ends).fold(f64::INFINITY, f64::min);
    on_plates && leg < 0.5 * least_mm
}
