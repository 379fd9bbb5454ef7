//! Which marks belong together: same plates, same procedure.

use crate::member::Seam;
use crate::prediction::Job;
use crate::units::{System, show};
use crate::welding::Side;
use std::fmt::Write;

/// Plates and passes of a job in words: marks with the same words were made the same way. Depth and length do not count.
///
/// "web 5 mm, flanges 180 × 8 mm / 180 × 10 + 180 × 14 mm, near 6 + 6 mm"
pub(super) fn words(job: &Job, system: System) -> String {
    let m = &job.member;
    let plate = |mm| show::plate(mm, system);
    let mut web: Vec<String> = m.web.iter().map(|p| plate(p.thickness_mm)).collect();
    web.dedup();
    let flange = |seam: Seam| {
        let size = |w: f64, t: f64| format!("{} × {}", bare(&plate(w)), plate(t));
        let mut sizes: Vec<String> =
            m.flange(seam).iter().map(|p| size(p.width_mm, p.thickness_mm)).collect();
        sizes.dedup();
        sizes.join(" + ")
    };
    let (outer, inner) = (flange(Seam::Outer), flange(Seam::Inner));
    let mut text = format!("web {}, ", web.join(" + "));
    let _ = if outer == inner {
        write!(text, "flanges {outer}")
    } else {
        write!(text, "flanges {outer} outer, {inner} inner")
    };
    let mut passes: Vec<(u32, Side, String)> = Vec::new();
    for pass in &job.passes {
        let leg = plate(pass.leg_mm);
        if !passes.iter().any(|p| (p.0, p.1, &p.2) == (pass.order, pass.side, &leg)) {
            passes.push((pass.order, pass.side, leg));
        }
    }
    for (_, side, leg) in passes {
        let _ = write!(text, ", {leg} legs {} side", side.name());
    }
    text
}

/// The key that marks of a family share: what the words leave out as well, as heat and preheat.
pub(crate) fn key(job: &Job) -> String {
    let mut text = words(job, System::Si);
    for p in &job.passes {
        let _ =
            write!(text, "|{:?} {:?} {} {:.0} {:.0}", p.seam, p.side, p.order, p.heat_j_per_mm, p.preheat_k);
    }
    let _ = write!(text, "|{}", job.member.steel.name);
    text
}

fn bare(text: &str) -> &str {
    text.split(' ').next().unwrap_or(text)
}
