//! The flanges as strips: straight plates, cut to the length along their own axis.

use crate::web::Joint;
use weldbow_engine::member::{FlangePiece, Member, Seam};
use weldbow_engine::prediction::{CutPiece, at_splice_mm};

/// Turns of a flange smaller than this need no line to bend at, rad.
const NO_BEND_RAD: f64 = 1e-3;

/// A line across a strip to bend it at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bend {
    /// Distance from the strip's own start, mm, on the face that meets the web.
    pub own_mm: f64,
    /// Turn, rad, + where the web has a corner that sticks out toward the flange.
    pub turn_rad: f64,
}

impl Bend {
    /// By how much a strip bent sharply about its middle must be longer than its face that meets the web, mm (− shorter): t·tan(turn/2).
    /// Left to the shop's own bend allowance.
    pub fn allowance_mm(&self, thickness_mm: f64) -> f64 {
        thickness_mm * (0.5 * self.turn_rad).tan()
    }
}

/// One strip.
#[derive(Debug, Clone, PartialEq)]
pub struct Strip {
    /// Flange.
    pub flange: Seam,
    /// Number along the member, from 1.
    pub number: usize,
    /// Width, mm.
    pub width_mm: f64,
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Length to cut, mm.
    pub length_mm: f64,
    /// Lines to bend at.
    pub bends: Vec<Bend>,
    /// Splice at its finish end; none on the last.
    pub after: Option<Joint>,
}

/// Strips of both flanges, outer first; `pieces` are those of the prediction.
pub(crate) fn strips(member: &Member, pieces: &[CutPiece]) -> Vec<Strip> {
    let of = |seam: Seam, part: &str| {
        let cuts: Vec<&CutPiece> = pieces.iter().filter(|p| p.part == part).collect();
        let plates = member.flange(seam);
        plates
            .iter()
            .zip(cuts)
            .enumerate()
            .map(|(i, (plate, cut))| {
                let before = i.checked_sub(1).and_then(|j| plates.get(j));
                strip(member, seam, (plate, before), cut)
            })
            .collect::<Vec<_>>()
    };
    [(Seam::Outer, "outer_flange"), (Seam::Inner, "inner_flange")]
        .into_iter()
        .flat_map(|(seam, part)| of(seam, part))
        .collect()
}

fn strip(
    member: &Member,
    seam: Seam,
    (plate, before): (&FlangePiece, Option<&FlangePiece>),
    cut: &CutPiece,
) -> Strip {
    let meet_mm = |x_mm| member.plates_meeting_at(x_mm).flange_mm(seam).1;
    let lead =
        before.and_then(|b| b.splice.as_ref()).map_or(0.0, |s| at_splice_mm(s, meet_mm(plate.from_mm)));
    let after = plate.splice.as_ref().filter(|_| plate.to_mm < member.length_mm);
    Strip {
        flange: seam,
        number: cut.piece,
        width_mm: plate.width_mm,
        thickness_mm: plate.thickness_mm,
        length_mm: cut.cut_mm,
        bends: if seam == Seam::Inner { bends(member, plate, cut, lead) } else { Vec::new() },
        after: after.map(|s| Joint::of(s, meet_mm(plate.to_mm))),
    }
}

/// Where a strip of the inner flange follows the kinks of the web.
fn bends(member: &Member, plate: &FlangePiece, cut: &CutPiece, lead_mm: f64) -> Vec<Bend> {
    let points = member.depth.points();
    let tilt = |a: (f64, f64), b: (f64, f64)| ((b.1 - a.1) / (b.0 - a.0)).atan();
    let along = |x: f64| {
        let run = |ends: &[(f64, f64)]| {
            let (low, high) = (ends[0].0.max(plate.from_mm), ends[1].0.min(x));
            (high - low).max(0.0) / tilt(ends[0], ends[1]).cos()
        };
        points.windows(2).map(run).sum::<f64>()
    };
    points
        .windows(3)
        .filter(|p| p[1].0 > plate.from_mm && p[1].0 < plate.to_mm)
        .map(|p| {
            let finished = along(p[1].0);
            // shrinkage in proportion: over the length of a strip it varies by less than what a tape shows
            let shrinks = cut.shrinkage_mm * finished / cut.finished_mm.max(f64::MIN_POSITIVE);
            Bend { own_mm: lead_mm + finished + shrinks, turn_rad: tilt(p[0], p[1]) - tilt(p[1], p[2]) }
        })
        .filter(|bend| bend.turn_rad.abs() > NO_BEND_RAD)
        .collect()
}
