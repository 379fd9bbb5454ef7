//! Plates as they come: what a member inherits of strips that were not straight, and what pieces differ by beside their welds.
//!
//! *Sideways* strips are clamped straight on one line while they are fitted and welded. Let go, each wants its own curvature
//! back, and the moments of all must cancel: κ = Σ(E·I of the strip · its curvature)/(E·I of the whole), whatever was joined first
//! (derived; elastic, no slip). *In its own plane* a web is far too stiff to be pulled straight, and flanges, which bend about
//! their thickness, follow it: the same sum over each part's stiffness about its own middle.

use super::Job;
use super::fitting::Fitting;
use super::learned::Assembly;
use super::uncertainty::PART_OF_LIMIT;
use crate::bow::Bend;
use crate::member::{Edges, FlangePiece, Member, Parts, Plates, Seam, Span, WebPiece, properties, spans};
use crate::numerics::{GAUSS_2, Number};
use crate::shrinkage::cut_strip::{EDGE_SCATTER, EDGES_DIFFER, middle_mpa, one_edge_per_mm};
use crate::sources::{Constant, Trust, record};

/// Bow of a strip nobody says more of, one standard deviation, mm on 6 m; it grows with the square of the length. Between strips cut
/// on both edges at once (about 1.2 for 180 × 8) and what sheared plate may have. Choice.
const NOT_SAID_MM_ON_6_M: f64 = 2.0;
/// Straightness of flats as rolled over their length, mm/m: EN 10058 allows 0.25 % from 1000 mm² on (memory, check).
const FLAT_MM_PER_M: f64 = 2.5;
/// Camber of sheared or gas-cut plate over its length, mm/m: ASTM A6/A6M allows L/480 (memory, check).
const SHEARED_MM_PER_M: f64 = 1000.0 / 480.0;
/// Edge camber of strip with trimmed edges, mm on 5 m: EN 10051 allows 15 mm (memory, check). It grows with the square of the length.
const SLIT_MM_ON_5_M: f64 = 15.0;

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    record!(NOT_SAID_MM_ON_6_M, "mm", "scatter of strips nobody says more of")
        .known(Trust::Choice, "between strips cut on both edges at once and sheared ones"),
    record!(FLAT_MM_PER_M, "mm/m", "bow allowed to flats as rolled")
        .known(Trust::MemoryCheck, "EN 10058, straightness from 1000 mm²"),
    record!(SHEARED_MM_PER_M, "mm/m", "bow allowed to sheared or gas-cut plate").known(
        Trust::MemoryCheck,
        "ASTM A6/A6M, camber of rectangular plate, 1/8 in times length in ft over 5",
    ),
    record!(SLIT_MM_ON_5_M, "mm", "edge camber allowed to slit strip on 5 m")
        .known(Trust::MemoryCheck, "EN 10051, trimmed edges"),
    Constant::new(
        "scatter of web edges off their line",
        "prediction::fitting::Fitting::USUAL.web_edge_mm",
        Fitting::USUAL.web_edge_mm,
        "mm",
        "cutting and setting a web by string",
        Trust::Choice,
    ),
    Constant::new(
        "scatter of flanges off their line",
        "prediction::fitting::Fitting::USUAL.fit_up_mm",
        Fitting::USUAL.fit_up_mm,
        "mm",
        "rolls and clamps of a line",
        Trust::Choice,
    ),
    Constant::new(
        "scatter of the length as cut",
        "prediction::fitting::Fitting::USUAL.length_mm",
        Fitting::USUAL.length_mm,
        "mm",
        "tape and saw",
        Trust::Choice,
    ),
    Constant::new(
        "scatter of toes by crowned plates",
        "prediction::fitting::Fitting::USUAL.cup_mm",
        Fitting::USUAL.cup_mm,
        "mm",
        "flatness across a flange",
        Trust::Choice,
    ),
    Constant::new(
        "scatter of toes by flanges out of square",
        "prediction::fitting::Fitting::USUAL.tilt_mm",
        Fitting::USUAL.tilt_mm,
        "mm",
        "a square held against the web",
        Trust::Choice,
    ),
];

/// Curvature of a bow in mm/m over a length.
pub(super) fn over<N: Number>(length_mm: N, bow_mm_per_m: N) -> N {
    bow_mm_per_m * 8.0e-3 / length_mm
}

/// Standard deviation of the curvature of a strip of flange as it comes, 1/mm.
pub(super) fn flange_sd(piece: &FlangePiece, member: &Member) -> f64 {
    let length = piece.to_mm - piece.from_mm;
    let one_edge = || one_edge_of(piece, member);
    let allowed = |mm_per_m: f64| over(length, PART_OF_LIMIT * mm_per_m);
    let usual = || match piece.comes.edges {
        Edges::NotSaid => over(6e3, NOT_SAID_MM_ON_6_M / 6.0),
        Edges::Sheared => allowed(SHEARED_MM_PER_M),
        Edges::AsRolled => allowed(FLAT_MM_PER_M),
        Edges::Slit => PART_OF_LIMIT * over(5e3, SLIT_MM_ON_5_M / 5.0),
        Edges::ThermallyCut => EDGES_DIFFER * one_edge(),
        Edges::ThermallyCutNear | Edges::ThermallyCutFar => EDGE_SCATTER * one_edge(),
        Edges::ThermallyCutOneEdge => one_edge(),
    };
    piece.comes.scatter_mm_per_m.map_or_else(usual, |sd| over(length, sd))
}

/// Its curvature on the mean, 1/mm; + bows toward the near side.
pub(super) fn flange_mean(piece: &FlangePiece, member: &Member) -> f64 {
    match (piece.comes.bow_mm_per_m, piece.comes.edges) {
        (Some(bow), _) => over(piece.to_mm - piece.from_mm, bow),
        // hollow on the cut edge: the middle lies toward the other side
        (None, Edges::ThermallyCutNear) => -one_edge_of(piece, member),
        (None, Edges::ThermallyCutFar) => one_edge_of(piece, member),
        (None, _) => 0.0,
    }
}

/// Curvature of a strip of flange that was cut hot on one edge, 1/mm.
fn one_edge_of(piece: &FlangePiece, member: &Member) -> f64 {
    one_edge_per_mm(piece.width_mm, piece.thickness_mm, member.steel.yield_mpa, member.steel.e_mpa)
}

/// The same of a web plate. What its cutter is off by is in [`Fitting`], so that cold edges bring nothing more.
fn web_sd(piece: &WebPiece, job: &Job) -> f64 {
    let (member, length) = (&job.member, piece.to_mm - piece.from_mm);
    let said = |bow: f64| over(length, bow);
    let usual = || {
        let (steel, depth) = (&member.steel, member.depth.depth_mm(0.5 * (piece.from_mm + piece.to_mm)));
        let hot = job.thermally_cut_web;
        let one_edge = || one_edge_per_mm(depth, piece.thickness_mm, steel.yield_mpa, steel.e_mpa);
        if hot { EDGES_DIFFER * one_edge() } else { 0.0 }
    };
    piece.comes.scatter_mm_per_m.map_or_else(usual, said)
}

/// Its curvature on the mean, 1/mm.
fn web_mean(piece: &WebPiece) -> f64 {
    piece.comes.bow_mm_per_m.map_or(0.0, |bow| over(piece.to_mm - piece.from_mm, bow))
}

/// Pressure that hot cutting leaves in the middle of a strip held straight, MPa, −; what the fillet there meets.
pub(crate) fn cut_mpa(edges: Edges, (width_mm, thickness_mm): (f64, f64)) -> f64 {
    let [near, far] = edges.hot();
    if near + far > 0.0 { middle_mpa(width_mm, thickness_mm, near + far) } else { 0.0 }
}

/// Edges of the flange plate at a place, mm.
pub(crate) fn edges_at(member: &Member, seam: Seam, x_mm: f64) -> Edges {
    let pieces = member.flange(seam);
    pieces.iter().find(|p| x_mm <= p.to_mm).map_or(Edges::NotSaid, |p| p.comes.edges)
}

/// Sideways stiffness of a strip, mm⁴.
fn strip_mm4((width_mm, thickness_mm): (f64, f64)) -> f64 {
    thickness_mm * width_mm.powi(3) / 12.0
}

/// Bow at mid-length by a curvature of one from the start to x, mm²: ∫ of the moment line of a unit load in the middle.
pub(super) fn to_middle_mm2(x_mm: f64, length_mm: f64) -> f64 {
    if x_mm <= 0.5 * length_mm {
        0.25 * x_mm * x_mm
    } else {
        0.125 * length_mm * length_mm - 0.25 * (length_mm - x_mm).powi(2)
    }
}

impl Job {
    /// Standard deviations from piece to piece of what plates and assembly bring: camber and sweep at mid-length and shortening
    /// in mm a metre of member, cup and tilt of a flange in mm; the sweep that flange strips want apart, mm a metre; and 1 where
    /// webs come wavy by different amounts. By the shop's record where it has read of it; else by how plates come and by how they
    /// are fitted.
    pub(crate) fn plates_sd(&self) -> [f64; 7] {
        [0, 1, 2, 3, 4, 5, 6].map(|which| self.plates_sd_of(which).unwrap_or_default())
    }

    /// One of them.
    pub(super) fn plates_sd_of(&self, which: usize) -> Option<f64> {
        let recorded = self.learned.as_ref().and_then(|l| l.scatter.get(which)).filter(|sd| **sd > 0.0);
        if let Some(sd) = recorded {
            return Some(*sd);
        }
        let metres = 1e-3 * self.member.length_mm;
        let Fitting { web_edge_mm, fit_up_mm, length_mm, cup_mm, tilt_mm } = self.fitting;
        match which {
            0 => Some(web_edge_mm.hypot(self.web_sd_mm()) / metres),
            1 => Some(fit_up_mm.hypot(self.strips_sd_mm()) / metres),
            2 => Some(length_mm / metres),
            3 => Some(cup_mm),
            4 => Some(tilt_mm),
            5 => Some(self.apart_sd_mm_per_m()),
            6 => Some(if self.member.webs_differ_in_waves() { 1.0 } else { 0.0 }),
            _ => None,
        }
    }

    /// Cup and tilt of them, mm at a toe.
    pub(crate) fn toes_sd_mm(&self) -> [f64; 2] {
        [3, 4].map(|which| self.plates_sd_of(which).unwrap_or_default())
    }

    /// Whether plates come straight and flat, as far as the job says.
    pub(crate) fn plates_come_straight(&self) -> bool {
        !self.any_plate_bowed() && !self.member.webs_come_wavy()
    }

    /// Whether any plate comes bowed on the mean.
    pub(super) fn any_plate_bowed(&self) -> bool {
        let Member { web, outer_flange, inner_flange, .. } = &self.member;
        let mut flanges = outer_flange.iter().chain(inner_flange);
        web.iter().any(|p| web_mean(p).abs() > 0.0)
            || flanges.any(|p| flange_mean(p, &self.member).abs() > 0.0)
    }

    /// What plates and assembly bring: all pieces alike, and this one.
    pub(crate) fn brought(&self) -> Assembly {
        self.assembly.plus(&self.drawn)
    }

    /// Camber by web plates at mid-length. Pieces of one thickness are of one plate and come alike.
    fn web_sd_mm(&self) -> f64 {
        let (pieces, length) = (&self.member.web, self.member.length_mm);
        let of = |piece: &WebPiece| {
            let weight = to_middle_mm2(piece.to_mm, length) - to_middle_mm2(piece.from_mm, length);
            weight * web_sd(piece, self)
        };
        let same = |a: &WebPiece, b: &WebPiece| a.thickness_mm.to_bits() == b.thickness_mm.to_bits();
        variance_of_alike(pieces, same, of).sqrt()
    }

    /// Sweep by strips of flange at mid-length. Strips of one size in one flange are of one plate and come alike; the two flanges
    /// do not. The web is nothing beside them sideways.
    fn strips_sd_mm(&self) -> f64 {
        let (member, length) = (&self.member, self.member.length_mm);
        let size = |p: &FlangePiece| (p.width_mm, p.thickness_mm);
        let mut squares = 0.0;
        for (seam, other) in [(Seam::Outer, Seam::Inner), (Seam::Inner, Seam::Outer)] {
            let of = |piece: &FlangePiece| {
                let own = strip_mm4(size(piece));
                let beside = member.flange(other).iter().map(|o| {
                    let (from, to) = (piece.from_mm.max(o.from_mm), piece.to_mm.min(o.to_mm));
                    let share = own / (own + strip_mm4(size(o)));
                    let weight = || to_middle_mm2(to, length) - to_middle_mm2(from, length);
                    if from < to { share * weight() } else { 0.0 }
                });
                flange_sd(piece, member) * beside.sum::<f64>()
            };
            let bits = |p: &FlangePiece| [p.width_mm, p.thickness_mm].map(f64::to_bits);
            squares += variance_of_alike(member.flange(seam), |a, b| bits(a) == bits(b), of);
        }
        squares.sqrt()
    }
}

/// Variance of a sum in which pieces that are the same move alike.
pub(super) fn variance_of_alike<P>(
    pieces: &[P],
    same: impl Fn(&P, &P) -> bool,
    of: impl Fn(&P) -> f64,
) -> f64 {
    let first = |i: usize| !pieces[..i].iter().any(|before| same(before, &pieces[i]));
    let group = |i: usize| pieces[i..].iter().filter(|p| same(p, &pieces[i])).map(&of).sum::<f64>();
    (0..pieces.len()).filter(|i| first(*i)).map(|i| group(i).powi(2)).sum()
}

/// Camber and sweep that plates bring on the mean, at stations: offset (mm) and slope. None if all come straight.
#[derive(Debug, Default)]
pub(super) struct Brought(Option<[Vec<Bend>; 2]>);

impl Brought {
    /// Of a job.
    pub(super) fn of(job: &Job, x_mm: &[f64]) -> Self {
        let member = &job.member;
        if !job.any_plate_bowed() {
            return Self(None);
        }
        let mut bends = [Bend::default(); 2];
        let mut all = bends.map(|bend| vec![bend]);
        // stations are wherever anything changes along the member, and in between
        for span in &spans(member, x_mm.iter().copied()) {
            let step = span.length_mm();
            let at = GAUSS_2.map(|(place, _)| inherited(job, span, span.from_mm + place * step));
            for (bow, (bend, all)) in bends.iter_mut().zip(&mut all).enumerate() {
                bend.step(step, at.map(|curvature| -curvature[bow]));
                all.push(*bend);
            }
        }
        let length = member.length_mm;
        for all in &mut all {
            let chord = all.last().map_or(0.0, |end| end.offset_mm / length);
            for (bend, x) in all.iter_mut().zip(x_mm) {
                bend.offset_mm -= chord * x;
                bend.slope -= chord;
            }
        }
        Self(Some(all))
    }

    /// Of a job whose plates come straight.
    pub(super) const STRAIGHT: Self = Self(None);

    /// Whether any plate comes bowed on the mean.
    pub(crate) const fn is_any(&self) -> bool {
        self.0.is_some()
    }

    /// Of camber (0) or sweep (1), if any.
    pub(super) fn bow(&self, which: usize) -> Option<&[Bend]> {
        self.0.as_ref().map(|bows| bows[which].as_slice())
    }
}

/// Curvature of the member in camber and sweep by its plates at a place, 1/mm.
fn inherited(job: &Job, span: &Span, x_mm: f64) -> [f64; 2] {
    let (member, plates): (&Member, &Plates) = (&job.member, &span.plates);
    let middle = span.middle_mm();
    let piece = |seam| member.flange(seam).iter().find(|p| middle <= p.to_mm);
    let depth = span.depth_mm(x_mm);
    let own = Seam::BOTH.map(|seam| plates.flange_mm(seam));
    let along = Seam::BOTH.map(|seam| piece(seam).map_or(0.0, |p| flange_mean(p, member)));
    let whole = properties(plates, depth, span.slope, Parts::ALL).i_y_mm4;
    let cos = 1.0 / span.slope.hypot(1.0);
    let stiff = [strip_mm4(own[0]), strip_mm4(own[1]) * cos.powi(3)];
    let sweep = (stiff[0] * along[0] + stiff[1] * along[1]) / whole;
    let web_mm4 = plates.web_mm * depth.powi(3) / 12.0;
    let flat: f64 = own.iter().map(|(width, thickness)| width * thickness.powi(3) / 12.0).sum();
    let of_web = member.web.iter().find(|p| middle <= p.to_mm).map_or(0.0, web_mean);
    [web_mm4 * of_web / (web_mm4 + flat), sweep]
}
