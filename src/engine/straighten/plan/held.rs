//! Where a flange is not bent and no vee is heated: at what is welded across the member, and on stretches to keep off.
//!
//! A transverse stiffener stands between the flanges: rollers do not pass it, and a flange welded to it cannot fold there. A cleat or an
//! end plate lies on the flange and holds it. A flange half is held along one line there, and is taken to follow freely from its own
//! width away (a choice, as of a plate held along one edge).

use super::Task;
use crate::member::Seam;
use crate::straighten::heat::CLEAR_OF_WELDS_MM;
use crate::straighten::press::Stiffener;
use crate::units::{Message, Part};
use crate::welding::Attachment;

/// A stretch of a flange that is held or covered.
pub(super) struct HeldPlace {
    pub(super) from_mm: f64,
    pub(super) to_mm: f64,
    /// By what: "a stiffener pair at 4.00 m".
    pub(super) by: Message,
    /// Whether nothing is welded there: a stretch to keep off.
    pub(super) kept_off: bool,
}

impl HeldPlace {
    fn about(x_mm: f64, beside_mm: f64, by: Message) -> Self {
        Self { from_mm: x_mm - beside_mm, to_mm: x_mm + beside_mm, by, kept_off: false }
    }

    pub(super) fn covers(&self, x_mm: f64) -> bool {
        (self.from_mm..=self.to_mm).contains(&x_mm)
    }
}

fn noted(s: &Stiffener) -> Message {
    Message::of("a stiffener pair at {}", [Part::Position(s.x_mm)])
}

impl Task<'_> {
    /// Where a flange is not bent, along the member.
    pub(super) fn held(&self, seam: Seam) -> Vec<HeldPlace> {
        let half_mm = |x: f64| 0.5 * self.member.plates_at(x).flange_mm(seam).0;
        let stops = |a: &&Attachment| !a.kind.lies_outside() || a.outside_mm(seam).is_some();
        let welded = self.attachments.iter().filter(stops);
        let welded = welded.map(|a| HeldPlace::about(a.at_mm, a.reach_mm() + half_mm(a.at_mm), a.told()));
        let pairs = self.stiffeners.iter();
        let pairs = pairs.map(|s| HeldPlace::about(s.x_mm, s.thickness_mm + half_mm(s.x_mm), noted(s)));
        let off = self.keep_off_mm.iter().map(|&(from_mm, to_mm)| {
            let by =
                Message::of("the stretch to keep off from {} to {}", [from_mm, to_mm].map(Part::Position));
            HeldPlace { from_mm, to_mm, by, kept_off: true }
        });
        let mut out: Vec<HeldPlace> = welded.chain(pairs).chain(off).collect();
        out.sort_by(|a, b| a.from_mm.total_cmp(&b.from_mm));
        out
    }

    /// Whether the steel of a vee heat at x, hot as far as it spreads, lies clear of every weld across the member.
    pub(super) fn heat_lies_clear(&self, x_mm: f64) -> bool {
        let welded = self.attachments.iter().map(|a| (a.at_mm, a.reach_mm()));
        let pairs = self.stiffeners.iter().map(|s| (s.x_mm, s.thickness_mm));
        welded.chain(pairs).all(|(at, reach)| (x_mm - at).abs() >= reach + CLEAR_OF_WELDS_MM)
    }
}

/// What of a stretch (from–to, mm) no held place covers.
pub(super) fn free_of(held: &[HeldPlace], [from, to]: [f64; 2]) -> Vec<[f64; 2]> {
    let mut at = from;
    let mut out = Vec::new();
    for place in held {
        let until = place.from_mm.min(to);
        if until > at {
            out.push([at, until]);
        }
        at = at.max(place.to_mm);
    }
    if at < to {
        out.push([at, to]);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stretch_is_cut_where_it_is_held() {
        let held = |from_mm, to_mm| HeldPlace { from_mm, to_mm, by: "a cleat".into(), kept_off: false };
        let all = [held(-100.0, 100.0), held(400.0, 600.0), held(550.0, 700.0), held(900.0, 1100.0)];
        assert_eq!(free_of(&all, [0.0, 1000.0]), [[100.0, 400.0], [700.0, 900.0]]);
        assert_eq!(free_of(&all, [120.0, 300.0]), [[120.0, 300.0]]);
        assert!(free_of(&all, [420.0, 680.0]).is_empty());
    }
}
