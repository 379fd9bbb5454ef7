//! What prevents the trouble: longer plates, a web cut to the opposite bow, flanges preset the other way.

use super::Job;
use super::cross::CrossWelds;
use super::cut_web::WebCurve;
use super::result::{Allowance, Bow, CutPiece, FlangeAngles, FlangePreset, WebEdge};
use super::walk::Walk;
use crate::member::{FlangePiece, Made, Member, Seam, Splice};
use crate::numerics::between;
use crate::shrinkage::transverse::splice_mm;
use crate::units::{Message, Part, System, show};

/// Smallest bow worth cutting into the edges of a web, mm (a choice: plates cut by flame or plasma are allowed about half a
/// millimetre either way; ISO 9013 class 1, memory). Below it edges are cut straight.
pub(crate) const WORTH_CUTTING_MM: f64 = 0.5;
/// Smallest packing under a flange edge worth setting, mm (common practice, no source: shops preset from about 1 mm on).
pub(crate) const WORTH_PACKING_MM: f64 = 1.0;
/// What is said of a preset that is not worth setting.
pub const NOT_NEEDED: &str = "not needed";

impl Allowance {
    /// Whether the web is worth cutting to the opposite bow: the one place that decides.
    pub fn cuts_the_web(&self) -> bool {
        self.web.largest().0.abs() >= WORTH_CUTTING_MM
    }

    /// Why the edges of the web are cut straight, if they are.
    pub fn why_straight(&self) -> Option<Message> {
        const SAID: &str = "A bow cut into the web is not needed: its largest ordinate would be {}, and less than {} is no use to a shop.";
        let of = [self.web.largest().0.abs(), WORTH_CUTTING_MM].map(Part::Ordinate);
        (!self.cuts_the_web()).then(|| Message::of(SAID, of))
    }

    /// Why no flange is preset, if none is.
    pub fn why_no_preset(&self) -> Option<Message> {
        const SAID: &str =
            "A preset is not needed: no packing would be more than {}, and less than {} is no use to a shop.";
        let most = self.presets.iter().map(FlangePreset::largest_packing_mm).fold(0.0, f64::max);
        let none = !self.presets.iter().any(FlangePreset::is_worth_setting);
        none.then(|| Message::of(SAID, [most, WORTH_PACKING_MM].map(Part::Offset)))
    }
}

impl FlangePreset {
    /// Whether it is worth setting: the one place that decides.
    fn is_worth_setting(&self) -> bool {
        self.largest_packing_mm() >= WORTH_PACKING_MM
    }

    /// What is set there in words: pre-bend, pre-tilt, packing under the near and the far toe, each only where a shop can set it; none
    /// where it can set nothing.
    pub fn in_words(&self, system: System) -> Option<[String; 4]> {
        let (near, far) = (self.near_packing_mm, self.far_packing_mm);
        let said = |mm: f64, least_mm: f64, words: String| {
            if mm.abs() >= least_mm { words } else { NOT_NEEDED.to_owned() }
        };
        // an angle is worth as much as it lifts both toes
        let angle = |lifts_mm: f64, rad| said(lifts_mm, 0.5 * WORTH_PACKING_MM, show::angle(rad, system));
        let packing = |mm: f64| {
            let way = if mm < 0.0 { " the other way" } else { "" };
            said(mm, WORTH_PACKING_MM, format!("{}{way}", show::offset(mm.abs(), system)))
        };
        self.is_worth_setting().then(|| {
            [
                angle(0.5 * (near + far), self.crown_rad),
                angle(0.5 * (near - far), self.lean_rad),
                packing(near),
                packing(far),
            ]
        })
    }

    /// The larger packing, mm, without sign.
    fn largest_packing_mm(&self) -> f64 {
        self.near_packing_mm.abs().max(self.far_packing_mm.abs())
    }
}

/// What one end of a plate gets for the splice there, where plates meet as thick as that (mm; [`Member::plates_meeting_at`]), mm: half of
/// what the weld draws in, less half of the root gap that is left
/// between the plates (− where the gap is wider than the weld draws). A splice made after assembly draws no ends together: the plates
/// lie on the member by then, and stretch.
pub fn at_splice_mm(splice: &Splice, plate_mm: f64) -> f64 {
    let drawn = if splice.made == Made::Before { splice_mm(splice, plate_mm) } else { 0.0 };
    0.5 * (drawn - splice.gap_mm)
}

/// Cut lengths, web edges and flange presets.
pub(super) fn allowance(
    job: &Job,
    march: &Walk,
    cross: &CrossWelds,
    camber: &Bow,
    flanges: &[FlangeAngles],
) -> Allowance {
    let web = WebCurve::of(job, march, cross, &camber.shape);
    Allowance {
        pieces: pieces(&job.member, march, cross, &web),
        web_edges: web_edges(job, camber, &web),
        presets: flanges.iter().map(preset).collect(),
        web,
    }
}

fn pieces(member: &Member, march: &Walk, cross: &CrossWelds, web: &WebCurve) -> Vec<CutPiece> {
    let shrinks = |line: usize, from: f64, to: f64| {
        let so_far = |x| between(&march.x_mm, |i| march.lines[i][line], x);
        let seams = so_far(to) - so_far(from);
        if cross.is_empty() { seams } else { seams + cross.line_mm(line, from, to) }
    };
    let mut out =
        Vec::with_capacity(member.web.len() + member.outer_flange.len() + member.inner_flange.len());

    let mut splice_before = 0.0;
    for (i, p) in member.web.iter().enumerate() {
        let after = half_of(p.splice.as_ref(), member.plates_meeting_at(p.to_mm).web_mm);
        let mean = web.shrinkage_mm(p.from_mm, p.to_mm);
        out.push(cut("web", i, (p.from_mm, p.to_mm), p.to_mm - p.from_mm, mean, splice_before + after));
        splice_before = after;
    }
    for (part, line, seam) in [("outer_flange", 2, Seam::Outer), ("inner_flange", 3, Seam::Inner)] {
        let mut splice_before = 0.0;
        for (i, p) in member.flange(seam).iter().enumerate() {
            let after = half_of(p.splice.as_ref(), member.plates_meeting_at(p.to_mm).flange_mm(seam).1);
            let along = axis_length_mm(member, seam, p);
            let shortens = shrinks(line, p.from_mm, p.to_mm);
            out.push(cut(part, i, (p.from_mm, p.to_mm), along, shortens, splice_before + after));
            splice_before = after;
        }
    }
    out
}

fn half_of(splice: Option<&Splice>, plate_mm: f64) -> f64 {
    splice.map_or(0.0, |s| at_splice_mm(s, plate_mm))
}

fn cut(
    part: &'static str,
    i: usize,
    ends: (f64, f64),
    finished: f64,
    shrinkage: f64,
    splices: f64,
) -> CutPiece {
    CutPiece {
        part,
        piece: i + 1,
        from_mm: ends.0,
        to_mm: ends.1,
        finished_mm: finished,
        shrinkage_mm: shrinkage,
        splices_mm: splices,
        cut_mm: finished + shrinkage + splices,
    }
}

/// Length of a flange piece along its own axis: the inner flange follows the taper.
fn axis_length_mm(member: &Member, seam: Seam, piece: &FlangePiece) -> f64 {
    if seam == Seam::Outer {
        return piece.to_mm - piece.from_mm;
    }
    let between_kinks = |ends: &[(f64, f64)]| {
        let ((x0, d0), (x1, d1)) = (ends[0], ends[1]);
        let run = x1.min(piece.to_mm) - x0.max(piece.from_mm);
        run.max(0.0) * 1.0_f64.hypot((d1 - d0) / (x1 - x0))
    };
    member.depth.points().windows(2).map(between_kinks).sum()
}

/// Both edges shift alike, so the depth of the web stays.
fn web_edges(job: &Job, camber: &Bow, web: &WebCurve) -> Vec<WebEdge> {
    let station = |([x, _], spread): (&[f64; 2], &f64)| {
        let outer = web.outer_mm(*x);
        WebEdge {
            x_mm: *x,
            outer_mm: outer,
            inner_mm: outer + job.member.depth.depth_mm(*x),
            edge_2s_mm: *spread,
        }
    };
    camber.profile.iter().zip(&camber.profile_2s_mm).map(station).collect()
}

fn preset(shape: &FlangeAngles) -> FlangePreset {
    FlangePreset {
        flange: shape.flange,
        from_mm: shape.from_mm,
        to_mm: shape.to_mm,
        crown_rad: shape.cup_rad,
        lean_rad: shape.tilt_rad,
        near_packing_mm: shape.near_toe_mm,
        far_packing_mm: shape.far_toe_mm,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Nobody packs less than nothing.
    #[test]
    fn a_toe_that_goes_the_other_way_is_said_in_words() {
        let preset = |far_packing_mm: f64| FlangePreset {
            flange: Seam::Outer,
            from_mm: 0.0,
            to_mm: 9000.0,
            crown_rad: 0.005,
            lean_rad: 0.01,
            near_packing_mm: 2.3,
            far_packing_mm,
        };
        let said = |far: f64| preset(far).in_words(System::Si).unwrap_or_default();
        assert_eq!(said(-1.0)[2..], ["2.3 mm", "1.0 mm the other way"]);
        assert_eq!(said(-0.8)[3], NOT_NEEDED);
    }
}
