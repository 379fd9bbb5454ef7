//! Welds across the finished member: attachments, and splices made after assembly. Each shortens the member and kinks it where it
//! stands.
//!
//! They come when the seams are cold, on the whole section, and add to what the seams leave. A rippled web still counts as whole
//! for them, and what they add to twist and to the press on the web is left out.

use super::Job;
use super::uncertainty::SPAN;
use crate::angular::cross::{fillet_fold_rad, groove_fold_rad};
use crate::bow::{Plane, Pull, Response, roof};
use crate::member::{Made, Parts, Plates, Seam, Section, Splice, properties};
use crate::shrinkage::cross::{SCATTER, end_mm, kept_mm, through_mm};
use crate::shrinkage::second_side::seam_index;
use crate::shrinkage::transverse::{SIGMA, splice_mm};
use crate::welding::Attachment;
use serde::Serialize;

/// A kink and a shortening smaller than this, rad and mm, are none: nothing shows them.
const NOTHING: f64 = 1e-9;

/// One weld across the member and what it does.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CrossWeld {
    /// "stiffener pair", "stiffener", "cleat", "end plate", "base plate", "outer flange splice", "inner flange splice", "web splice".
    pub what: &'static str,
    /// Where, mm from the start end.
    pub at_mm: f64,
    /// Largest shrinkage of a plate there, mm.
    pub shrinkage_mm: f64,
    /// Shortening of the member's centroid line, mm.
    pub shortening_mm: f64,
    /// Kink in its plane, rad, + bows the member toward the inner flange.
    pub camber_kink_rad: f64,
    /// Kink sideways, rad, + bows it toward the near side.
    pub sweep_kink_rad: f64,
    /// Camber it adds at its own place, mm.
    pub camber_mm: f64,
    /// Sweep it adds there, mm.
    pub sweep_mm: f64,
    /// Largest angle by which it would fold a plate that nothing holds, rad; in the member the fold stays a dip at the weld.
    pub fold_rad: f64,
    /// Shortening of outer and inner web edge along x, and of outer and inner flange along their own axes, mm.
    #[serde(skip)]
    lines_mm: [f64; 4],
}

/// All of them.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct CrossWelds {
    /// Shortening of the centroid line by all, mm.
    pub shortening_mm: f64,
    /// Two standard deviations of it, mm.
    pub shortening_2s_mm: f64,
    /// Each, along x.
    pub welds: Vec<CrossWeld>,
    /// Relative deviations: what all may be wrong by, and what differs from piece to piece.
    #[serde(skip)]
    spreads: [f64; 2],
    #[serde(skip)]
    length_mm: f64,
}

/// The section at a place, of the plates that meet there, with what it does under pulls.
struct There<'a> {
    job: &'a Job,
    x_mm: f64,
    plates: Plates,
    depth_mm: f64,
    cos: f64,
    section: Section,
    /// Strain times length that the volumes leave.
    plane: Plane,
    shrinkage_mm: f64,
}

impl<'a> There<'a> {
    fn at(job: &'a Job, x_mm: f64) -> Self {
        let (plates, depth_mm) = (job.member.plates_meeting_at(x_mm), job.member.depth.depth_mm(x_mm));
        let slope = job.member.depth.slope(x_mm);
        Self {
            job,
            x_mm,
            plates,
            depth_mm,
            cos: 1.0 / 1.0_f64.hypot(slope),
            section: properties(&plates, depth_mm, slope, Parts::ALL),
            plane: Plane::default(),
            shrinkage_mm: 0.0,
        }
    }

    /// A plate t shrinks by S over a length of weld w, with its middle at y and z.
    fn shrink(
        &mut self,
        free_mm: f64,
        open_mm: f64,
        plate_mm: f64,
        width_mm: f64,
        [y, z]: [f64; 2],
        cos: f64,
    ) {
        let steel = &self.job.member.steel;
        let kept = kept_mm(free_mm, open_mm, width_mm, steel.yield_mpa / steel.e_mpa);
        let kept = self.job.factors.cross_welds * kept;
        let volume = kept * plate_mm * width_mm;
        let pull = Pull { force_n: steel.e_mpa * volume, up_n_mm: 0.0, near_n_mm: steel.e_mpa * volume * z };
        self.plane = self.plane.plus(Response::of(&self.section, y, cos, 1.0, steel.e_mpa).to(&pull));
        self.shrinkage_mm = self.shrinkage_mm.max(if volume > 0.0 { kept } else { 0.0 });
    }

    /// Middle of a flange's thickness, and the cosine of its inclination.
    fn flange(&self, seam: Seam) -> (f64, f64) {
        let (_, thickness) = self.plates.flange_mm(seam);
        match seam {
            Seam::Outer => (-0.5 * thickness, 1.0),
            Seam::Inner => (self.depth_mm + 0.5 * thickness / self.cos, self.cos),
        }
    }

    fn done(self, what: &'static str, fold_rad: f64) -> CrossWeld {
        let (length, x) = (self.job.member.length_mm, self.x_mm);
        // a line that shortens is the hollow side: v″ = −dε/dy, and the middle goes the other way
        let (camber, sweep) = (self.plane.in_plane, self.plane.lateral);
        let amid = x * (1.0 - x / length);
        let line = |seam| {
            let (y, cos) = self.flange(seam);
            -cos * self.plane.at(y)
        };
        CrossWeld {
            what,
            at_mm: x,
            shrinkage_mm: self.shrinkage_mm,
            shortening_mm: -self.plane.at(self.section.centroid_mm),
            camber_kink_rad: camber + 0.0,
            sweep_kink_rad: sweep + 0.0,
            camber_mm: camber * amid + 0.0,
            sweep_mm: sweep * amid + 0.0,
            fold_rad,
            lines_mm: [
                -self.plane.at(0.0),
                -self.plane.at(self.depth_mm),
                line(Seam::Outer),
                line(Seam::Inner),
            ],
        }
    }
}

/// An attachment.
fn attached(job: &Job, a: &Attachment) -> CrossWeld {
    let mut there = There::at(job, a.at_mm);
    let plates = there.plates;
    let mut fold: f64 = 0.0;
    for seam in Seam::BOTH {
        let (flange_width, flange) = plates.flange_mm(seam);
        let (width, z) = a.across_flange_mm(seam, flange_width, plates.web_mm);
        let (y, cos) = there.flange(seam);
        let free = if a.kind.ends_member() {
            end_mm(a.heat_j_per_mm, flange, a.thickness_mm, a.leg_mm, a.fillets)
        } else {
            through_mm(a.heat_j_per_mm, flange, a.leg_mm, a.fillets)
        };
        there.shrink(free, 0.0, flange, width, [y, z], cos);
        if width > 0.0 {
            let (through, stands) =
                if a.kind.ends_member() { (a.thickness_mm, flange) } else { (flange, a.thickness_mm) };
            fold = fold.max(fillet_fold_rad(a.heat_j_per_mm, through, stands, a.leg_mm, a.fillets));
        }
    }
    let (depth, web) = (there.depth_mm, plates.web_mm);
    let free = if a.kind.ends_member() {
        end_mm(a.heat_j_per_mm, web, a.thickness_mm, a.leg_mm, a.fillets)
    } else {
        through_mm(a.heat_j_per_mm, web, a.leg_mm, a.fillets)
    };
    there.shrink(
        a.along_web() * free,
        0.0,
        web,
        if a.along_web() > 0.0 { depth } else { 0.0 },
        [0.5 * depth, 0.0],
        1.0,
    );
    there.done(a.kind.name(), fold)
}

/// A splice at x, if it was made after assembly.
fn spliced(job: &Job, x_mm: f64, splice: Option<&Splice>, flange: Option<Seam>) -> Option<CrossWeld> {
    let splice = splice?;
    let Made::After { open_mm } = splice.made else { return None };
    let mut there = There::at(job, x_mm);
    let plate_mm = flange.map_or(there.plates.web_mm, |seam| there.plates.flange_mm(seam).1);
    let free = splice_mm(splice, plate_mm);
    let what = match flange {
        Some(seam) => {
            let (width, _) = there.plates.flange_mm(seam);
            let (y, cos) = there.flange(seam);
            there.shrink(free, open_mm, plate_mm, width, [y, 0.0], cos);
            ["outer flange splice", "inner flange splice"][seam_index(seam)]
        }
        None => {
            let depth = there.depth_mm;
            there.shrink(free, open_mm, plate_mm, depth, [0.5 * depth, 0.0], 1.0);
            "web splice"
        }
    };
    Some(there.done(what, groove_fold_rad(splice, plate_mm)))
}

impl CrossWelds {
    /// Of a job.
    pub fn of(job: &Job) -> Self {
        let m = &job.member;
        let mut welds: Vec<CrossWeld> = job.attachments.iter().map(|a| attached(job, a)).collect();
        welds.extend(m.web.iter().filter_map(|p| spliced(job, p.to_mm, p.splice.as_ref(), None)));
        for seam in Seam::BOTH {
            let pieces = m.flange(seam).iter();
            welds.extend(pieces.filter_map(|p| spliced(job, p.to_mm, p.splice.as_ref(), Some(seam))));
        }
        let does = |w: &CrossWeld| {
            [w.shortening_mm, w.camber_kink_rad, w.sweep_kink_rad].iter().any(|v| v.abs() > NOTHING)
        };
        welds.retain(does);
        welds.sort_by(|a, b| a.at_mm.total_cmp(&b.at_mm));
        let shortening_mm = welds.iter().map(|w| w.shortening_mm).sum::<f64>() + 0.0;
        let spreads = [job.deviation("cross_weld", SIGMA), job.deviation("cross_weld_each", SCATTER)];
        let all = Self { shortening_mm, shortening_2s_mm: 0.0, welds, spreads, length_mm: m.length_mm };
        let [shared_mm, each_mm] = all.two_s_mm(shortening_mm);
        Self { shortening_2s_mm: shared_mm.hypot(each_mm), ..all }
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.welds.is_empty()
    }

    /// Kinks of camber (0) or sweep (1): place and rad, + bows as the bow counts.
    pub(crate) fn kinks(&self, bow: usize) -> impl Iterator<Item = (f64, f64)> {
        self.welds.iter().map(move |w| (w.at_mm, [w.camber_kink_rad, w.sweep_kink_rad][bow]))
    }

    /// Camber (0) or sweep (1) they add at x from the chord, mm, and the slope there; a kink itself takes the mean of both.
    pub fn bow(&self, bow: usize, x_mm: f64) -> (f64, f64) {
        let length = self.length_mm;
        self.kinks(bow).fold((0.0, 0.0), |(offset, slope), kink| {
            let more = roof(kink, length, x_mm);
            (offset + more.0, slope + more.1)
        })
    }

    /// Camber (0) or sweep (1) they add at mid-length, mm.
    pub fn amid_mm(&self, bow: usize) -> f64 {
        self.bow(bow, 0.5 * self.length_mm).0
    }

    /// Two standard deviations of that, mm: what all of them may be wrong by and what differs from piece to piece.
    pub(crate) fn bow_2s(&self, bow: usize, x_mm: f64) -> [f64; 2] {
        self.two_s_mm(self.bow(bow, x_mm).0)
    }

    /// The same of any sum of what they do, mm.
    pub(super) fn two_s_mm(&self, sum_mm: f64) -> [f64; 2] {
        self.spreads.map(|part| SPAN * part * sum_mm.abs())
    }

    /// Shortening of a line between two places, mm: outer and inner web edge, outer and inner flange. A weld on the border of two
    /// plates takes from both alike.
    pub(crate) fn line_mm(&self, line: usize, from_mm: f64, to_mm: f64) -> f64 {
        let part = |at: f64| {
            let ends = [from_mm <= 0.0, to_mm >= self.length_mm];
            let on = |place: f64, end: bool| {
                if (at - place).abs() < NOTHING { if end { 1.0 } else { 0.5 } } else { 0.0 }
            };
            let inside = f64::from(u8::from(at > from_mm + NOTHING && at < to_mm - NOTHING));
            inside + on(from_mm, ends[0]) + on(to_mm, ends[1])
        };
        self.welds.iter().map(|w| w.lines_mm[line] * part(w.at_mm)).sum()
    }
}
