//! The web as it is cut: plates side by side, each with both edges.

use crate::figures::length;
use weldbow_engine::member::{Preparation, Splice};
use weldbow_engine::numerics::between;
use weldbow_engine::prediction::{Job, WebCurve, at_splice_mm};
use weldbow_engine::units::System;

/// tan 30°: half of the 60° that V preparations include.
const TAN_HALF_ANGLE: f64 = 0.577_350_269_189_625_8;
/// Root face of V preparations, mm (as in the shrinkage of splices; common practice, no source).
const ROOT_FACE_MM: f64 = 2.0;
/// Least offset of a turn by a weld across that is marked, mm (a choice: what straight lines between stations may err by is twice that).
const MARKED_MM: f64 = 0.05;
/// Two turns nearer than this are one, mm.
const SAME_MM: f64 = 0.5;

/// Both edges of a web at one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edges {
    /// Outer edge, mm from the straight line through its ends, + toward the inner flange.
    pub outer_mm: f64,
    /// Inner edge, mm from the same line.
    pub inner_mm: f64,
    /// Place on the finished member, mm from its start end.
    pub x_mm: f64,
}

/// A splice at the finish end of a plate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Joint {
    /// Edge preparation.
    pub preparation: Preparation,
    /// Root gap to leave, mm.
    pub gap_mm: f64,
    /// Width of the bevel on a face, mm from the edge; none on square edges.
    pub(crate) bevel_mm: Option<f64>,
}

impl Joint {
    /// Of a splice in plate of that thickness, mm.
    pub(crate) fn of(splice: &Splice, plate_mm: f64) -> Self {
        let deep = (plate_mm - ROOT_FACE_MM).max(0.0) * TAN_HALF_ANGLE;
        let bevel_mm = match splice.preparation {
            Preparation::Square | Preparation::SquareBacked => None,
            Preparation::SingleV => Some(deep),
            Preparation::DoubleV => Some(0.5 * deep),
        };
        Self { preparation: splice.preparation, gap_mm: splice.gap_mm, bevel_mm }
    }

    /// Its edges in words: "single V, 60° included, root face 2.00 mm".
    pub fn words(&self, system: System) -> String {
        let face = || format!("60° included, root face {}", length(ROOT_FACE_MM, system));
        match self.preparation {
            Preparation::Square => "square edges".to_owned(),
            Preparation::SquareBacked => "square edges over a backing".to_owned(),
            Preparation::SingleV => format!("single V, {}", face()),
            Preparation::DoubleV => format!("double V, {}", face()),
        }
    }
}

/// One plate of the web.
#[derive(Debug, Clone, PartialEq)]
pub struct WebPlate {
    /// Number along the member, from 1.
    pub number: usize,
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Where it starts on the web as laid together, mm.
    pub start_mm: f64,
    /// Length to cut, mm.
    pub length_mm: f64,
    /// Where its edges turn, mm from its own start: the inner one with the depth, both at welds across.
    pub kinks_mm: Vec<f64>,
    /// Splice at its finish end; none on the last.
    pub after: Option<Joint>,
    /// Splice at its start end; none on the first.
    pub before: Option<Joint>,
    /// Distances from its own start, mm, rising, with the edges known there: straight in between.
    pub(crate) along_mm: Vec<f64>,
    edges: Vec<Edges>,
}

impl WebPlate {
    /// Both edges at a distance from the plate's own start, mm; at its ends the edges go on as they come.
    pub fn at(&self, own_mm: f64) -> Edges {
        let value = |of: fn(&Edges) -> f64| between(&self.along_mm, |i| of(&self.edges[i]), own_mm);
        Edges { outer_mm: value(|e| e.outer_mm), inner_mm: value(|e| e.inner_mm), x_mm: value(|e| e.x_mm) }
    }

    /// Deepest place between the edges, mm.
    pub fn deepest_mm(&self) -> f64 {
        self.edges.iter().map(|e| e.inner_mm - e.outer_mm).fold(0.0, f64::max)
    }

    /// Width of the rectangle it is cut from, mm.
    pub(crate) fn blank_mm(&self) -> f64 {
        let highest = self.edges.iter().map(|e| e.inner_mm).fold(f64::MIN, f64::max);
        let lowest = self.edges.iter().map(|e| e.outer_mm).fold(f64::MAX, f64::min);
        highest - lowest
    }
}

/// The web of a member as it is cut.
#[derive(Debug, Clone, PartialEq)]
pub struct Web {
    /// Its plates from start to finish.
    pub plates: Vec<WebPlate>,
    /// Whether its edges are cut to the opposite bow; straight where that is not worth it.
    pub bowed: bool,
    /// Whether a bow that its plates come with is counted in.
    pub comes_bowed: bool,
    /// Largest ordinate that the bow has, or would have, mm without sign.
    pub largest_mm: f64,
}

impl Web {
    /// Of a job, from its curve; `bowed` says whether the bow is cut.
    pub fn of(job: &Job, curve: &WebCurve, bowed: bool) -> Self {
        let member = &job.member;
        let mut plates: Vec<WebPlate> = Vec::with_capacity(member.web.len());
        let (mut start, mut before) = (0.0, None::<(Joint, f64)>);
        let kinks = kinks(job, curve, bowed);
        for (i, piece) in member.web.iter().enumerate() {
            let splice = piece.splice.as_ref().filter(|_| i + 1 < member.web.len());
            let meet_mm = member.plates_meeting_at(piece.to_mm).web_mm;
            let after = splice.map(|s| (Joint::of(s, meet_mm), at_splice_mm(s, meet_mm)));
            let lead = before.map_or(0.0, |(_, added)| added);
            let tail = after.map_or(0.0, |(_, added)| added);
            let (along_mm, edges) = points(job, curve, (piece.from_mm, piece.to_mm), lead, bowed);
            let length_mm = along_mm.last().copied().unwrap_or_default() + tail;
            let inside = |x: &f64| *x > piece.from_mm && *x < piece.to_mm;
            let own = |x: f64| lead + (x - piece.from_mm) + curve.shrinkage_mm(piece.from_mm, x);
            let kinks_mm = kinks.iter().copied().filter(inside).map(own).collect();
            plates.push(WebPlate {
                number: i + 1,
                thickness_mm: piece.thickness_mm,
                start_mm: start,
                length_mm,
                kinks_mm,
                after: after.map(|(joint, _)| joint),
                before: before.map(|(joint, _)| joint),
                along_mm,
                edges,
            });
            start += length_mm + after.map_or(0.0, |(joint, _)| joint.gap_mm);
            before = after;
        }
        let comes_bowed = bowed
            && member.web.iter().any(|piece| piece.comes.bow_mm_per_m.is_some_and(|bow| bow.abs() > 0.0));
        Self { plates, bowed, comes_bowed, largest_mm: curve.largest().0.abs() }
    }

    /// Length of the web as laid together, gaps and all, mm.
    pub fn length_mm(&self) -> f64 {
        self.plates.last().map_or(0.0, |p| p.start_mm + p.length_mm)
    }
}

/// Places between the ends where the depth profile turns, and the bow if it is cut, mm along the member.
fn kinks(job: &Job, curve: &WebCurve, bowed: bool) -> Vec<f64> {
    let points = job.member.depth.points();
    let turns = |p: &[(f64, f64)]| {
        let slope = |a: (f64, f64), b: (f64, f64)| (b.1 - a.1) / (b.0 - a.0);
        (slope(p[0], p[1]) - slope(p[1], p[2])).abs() > 1e-9
    };
    let mut all: Vec<f64> = points.windows(3).filter(|p| turns(p)).map(|p| p[1].0).collect();
    for at in curve.turns_mm(MARKED_MM).filter(|_| bowed) {
        if all.iter().all(|other| (other - at).abs() > SAME_MM) {
            all.push(at);
        }
    }
    all.sort_unstable_by(f64::total_cmp);
    all
}

/// Distances on the plate and the edges there, from the curve of the whole web.
fn points(
    job: &Job,
    curve: &WebCurve,
    (from, to): (f64, f64),
    lead_mm: f64,
    bowed: bool,
) -> (Vec<f64>, Vec<Edges>) {
    let inside = |x: &f64| *x > from + 1e-6 && *x < to - 1e-6;
    let places = std::iter::once(from).chain(curve.places_mm().into_iter().filter(inside)).chain([to]);
    places
        .map(|x| {
            let outer_mm = if bowed { curve.outer_mm(x) } else { 0.0 };
            let inner_mm = outer_mm + job.member.depth.depth_mm(x);
            (lead_mm + (x - from) + curve.shrinkage_mm(from, x), Edges { outer_mm, inner_mm, x_mm: x })
        })
        .unzip()
}
