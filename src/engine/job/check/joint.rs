//! Joints that cannot be: a fillet needs flange beside it and web above it to lie on, and plates that do not drown in it. What fits
//! goes by the plates of the job, so that a field's own example would be the next thing wrong: none is shown.

use super::passes::PlacedPass;
use crate::input::Hint;
use crate::input::findings::{Findings, mm};
use crate::member::{FlangePiece, Member, Seam};
use crate::prediction::field::ranges::LARGEST_LEG;

/// Checks plates against each other, and every pass against the plates it runs over. A pass is complained about once.
pub(crate) fn joints(member: &Member, laid: &[PlacedPass<'_>], findings: &mut Findings) {
    let before = findings.0.len();
    for seam in Seam::BOTH {
        for (at, flange) in member.flange(seam).iter().enumerate() {
            let path = format!("member.{}_flange[{at}]", seam.name());
            self::flange(&path, member, flange, findings);
        }
    }
    // a fillet beside plates that do not fit tells nothing new
    if findings.0.len() > before {
        return;
    }
    for one in laid {
        pass(one, member, findings);
    }
}

fn flange(path: &str, member: &Member, flange: &FlangePiece, findings: &mut Findings) {
    let (width, thickness) = (flange.width_mm, flange.thickness_mm);
    if width < thickness {
        let found = format!("{} wide and {} thick", mm(width), mm(thickness));
        let right = format!("width = \"{}\", thickness = \"{}\"", mm(thickness), mm(width));
        findings.push_with(format!("{path}.width"), found, "a flange at least as wide as it is thick", right);
        return;
    }
    let beside = |from: f64, to: f64| from < flange.to_mm && to > flange.from_mm;
    let webs = member.web.iter().filter(|web| beside(web.from_mm, web.to_mm));
    let Some(web) = webs.max_by(|a, b| a.thickness_mm.total_cmp(&b.thickness_mm)) else { return };
    if width <= web.thickness_mm {
        let found = format!("{} on a web {} thick", mm(width), mm(web.thickness_mm));
        let wanted = "a flange wider than the web, with room for a fillet beside it";
        findings.push_hint(format!("{path}.width"), found, wanted, Hint::Nothing);
    }
}

fn pass(laid: &PlacedPass<'_>, member: &Member, findings: &mut Findings) {
    let PlacedPass { index, pass, .. } = laid;
    let leg = pass.leg_mm;
    let over = |from: f64, to: f64| from < pass.to_mm && to > pass.from_mm;
    let path = format!("pass[{index}].leg");
    for flange in member.flange(pass.seam).iter().filter(|f| over(f.from_mm, f.to_mm)) {
        for web in member.web.iter().filter(|w| over(w.from_mm, w.to_mm)) {
            let shared = web.from_mm.max(flange.from_mm) < web.to_mm.min(flange.to_mm);
            if !shared {
                continue;
            }
            let beside = 0.5 * (flange.width_mm - web.thickness_mm);
            let thinner = flange.thickness_mm.min(web.thickness_mm);
            if leg >= beside {
                let found =
                    format!("a leg of {} where {} of flange stand beside the web", mm(leg), mm(beside));
                let wanted = "a leg that the flange has room for, or a wider flange";
                findings.push_hint(path, found, wanted, Hint::Nothing);
                return;
            }
            if leg > LARGEST_LEG * thinner {
                let found = format!("a leg of {} on a plate of {}", mm(leg), mm(thinner));
                let wanted =
                    format!("a leg of at most {}, four times the thinner plate", mm(LARGEST_LEG * thinner));
                findings.push_hint(path, found, wanted, Hint::Nothing);
                return;
            }
        }
    }
    let shallowest = 0.5 * shallowest_mm(member, pass.from_mm, pass.to_mm);
    if leg >= shallowest {
        let found = format!("a leg of {} where half the web is {}", mm(leg), mm(shallowest));
        findings.push_hint(path, found, "a leg that the web has room for", Hint::Nothing);
    }
}

/// Least depth of the web along a stretch: straight between its points, so at one of these or an end.
fn shallowest_mm(member: &Member, from_mm: f64, to_mm: f64) -> f64 {
    let inside = member.depth.points().iter().map(|p| p.0).filter(|x| (from_mm..=to_mm).contains(x));
    inside.chain([from_mm, to_mm]).map(|x| member.depth.depth_mm(x)).fold(f64::INFINITY, f64::min)
}
