//! Ways to lay the seams: which beads go together in a trip through the line, in which order.

use super::book::WeldingLine;
use super::constraints::{Constraints, Sides, Waits};
use super::requirement::Stretch;
use crate::member::{Parts, Seam};
use crate::units::{Message, Part};
use crate::welding::{Side, Stitch};
use serde::Serialize;

/// One bead of a trip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lane {
    /// Seam.
    pub seam: Seam,
    /// Side.
    pub side: Side,
    /// Leg knob it follows: beads with the same knob get the same leg.
    pub knob: usize,
    /// Whether it runs all along, or only where both sides must be welded.
    full: bool,
}

/// A way to weld the member.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Scheme {
    /// In words, but for its stitches.
    pub words: String,
    /// Trips, each with its beads.
    #[serde(skip)]
    pub trips: Vec<Vec<Lane>>,
    /// Leg knobs.
    #[serde(skip)]
    pub knobs: usize,
    /// Whether the member is turned over before a trip.
    #[serde(skip)]
    pub turned: Vec<bool>,
    /// Flange that is welded to the web alone before the other joins; none where all plates are tacked first.
    #[serde(skip)]
    pub tee: Option<Seam>,
    /// Stitches; none where seams run all along.
    #[serde(skip)]
    pub stitch: Option<Stitch>,
    /// Whether its seams pull the flanges to opposite sides, so that the twist must be judged.
    #[serde(skip)]
    pub twists: bool,
}

impl Scheme {
    fn of(words: String, trips: Vec<Vec<Lane>>, knobs: usize, turned: Vec<bool>) -> Self {
        Self { words, trips, knobs, turned, tee: None, stitch: None, twists: false }
    }

    /// All of it in words.
    pub(super) fn said(&self) -> Message {
        let plain = Message::from(self.words.clone());
        self.stitch.into_iter().fold(plain, |said, stitch| said.then(stitched(stitch, false)))
    }

    /// Welded part of its seams.
    pub(crate) fn welded_fraction(&self) -> f64 {
        self.stitch.map_or(1.0, |stitch| stitch.welded_fraction())
    }

    /// Whether its trips follow straight on (false) or wait until all is cold (true): what may be tried. What a flange does that joins a T still warm
    /// hangs on how the air of the shop cools it, so that nothing is chosen by it.
    pub fn cold(&self, waits: Waits) -> Vec<bool> {
        match (self.tee, waits) {
            (Some(_), Waits::StraightOn) => Vec::new(),
            (Some(_), _) => vec![true],
            _ if self.trips.len() == 1 => vec![false],
            (None, Waits::StraightOn) => vec![false],
            (None, Waits::Cold) => vec![true],
            (None, Waits::Any) => vec![false, true],
        }
    }

    /// Parts that act together in a trip.
    pub(crate) fn joined(&self, trip: usize) -> Parts {
        let Some(first) = self.tee else { return Parts::ALL };
        let own = self.trips.iter().take(trip + 1).flatten();
        let one = Parts::WEB.with(Parts::flange(first));
        own.fold(one, |parts, lane| parts.with(Parts::flange(lane.seam)))
    }
}

/// Stitches as a job file words them, behind how seams are laid.
pub(super) fn stitched(stitch: Stitch, partly: bool) -> Message {
    let much = if partly { "partly " } else { "" };
    let [weld, gap] = [stitch.weld_mm, stitch.gap_mm].map(Part::Plate);
    Message::of(", {}stitches of {} weld, {} gap", [much.into(), weld, gap])
}

/// Sides that a set of ways welds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Far {
    /// None.
    No,
    /// Where it must be.
    Where,
    /// All along.
    Full,
}

impl Far {
    const fn words(self) -> &'static str {
        match self {
            Self::No => "near side only",
            Self::Where => "near side, far side where it must be",
            Self::Full => "near side, then far side",
        }
    }
}

/// Every way the line can go: both seams at once, one after the other with all plates tacked first, one flange first as a T, both
/// sides at once, one seam from each side, and those of one side again with stitches.
pub fn ways(line: &WeldingLine, stretches: &[Stretch], wishes: &Constraints) -> Vec<Scheme> {
    let needs_far = stretches.iter().any(|s| s.both_sides.is_some() || s.one.is_none());
    let mut out = Vec::new();
    if wishes.sides != Sides::Both {
        of_sides(line, if needs_far { Far::Where } else { Far::No }, &mut out);
    }
    if wishes.sides != Sides::One {
        of_sides(line, Far::Full, &mut out);
    }
    if !needs_far && wishes.sides == Sides::Any {
        one_from_each(line, &mut out);
    }
    if !needs_far && wishes.sides != Sides::Both {
        let plain: Vec<Scheme> = out
            .iter()
            .filter(|w| w.tee.is_none() && w.trips.iter().flatten().all(|l| l.side == Side::Near))
            .cloned()
            .collect();
        for stitch in wishes.stitches.iter().copied().map(Some) {
            out.extend(plain.iter().map(|way| Scheme { stitch, ..way.clone() }));
        }
    }
    out
}

fn of_sides(line: &WeldingLine, far: Far, out: &mut Vec<Scheme>) {
    let also = far.words();
    let beads = |side, knobs: [usize; 2]| {
        let full = side == Side::Near || far == Far::Full;
        Seam::BOTH.map(|seam| Lane { seam, side, knob: knobs[seam as usize], full })
    };
    if line.both_seams_at_once {
        let mut trips = vec![beads(Side::Near, [0, 1]).to_vec()];
        if far != Far::No {
            trips.push(beads(Side::Far, [2, 3]).to_vec());
        }
        let turned = (0..trips.len()).map(|n| n == 1).collect();
        let knobs = 2 * trips.len();
        out.push(Scheme::of(format!("both seams at once, {also}"), trips, knobs, turned));
    }
    for first in Seam::BOTH {
        let order = |lanes: [Lane; 2]| match first {
            Seam::Outer => lanes,
            Seam::Inner => [lanes[1], lanes[0]],
        };
        let (near, away) = (order(beads(Side::Near, [0, 1])), order(beads(Side::Far, [0, 1])));
        let mut trips: Vec<Vec<Lane>> = near.map(|b| vec![b]).to_vec();
        let mut turned = vec![false, false];
        if far != Far::No {
            trips.extend(away.map(|b| vec![b]));
            turned.extend([true, false]);
        }
        out.push(Scheme::of(format!("{} seam first, {also}", first.name()), trips, 2, turned));
        // the T is finished, far side and all, before the other flange joins
        let tee = if far == Far::No {
            Scheme::of(String::new(), near.map(|b| vec![b]).to_vec(), 2, vec![false, false])
        } else {
            let trips = vec![vec![near[0]], vec![away[0]], vec![near[1]], vec![away[1]]];
            Scheme::of(String::new(), trips, 2, vec![false, true, true, true])
        };
        let words = format!("{} flange first as a T, {also}", first.name());
        out.push(Scheme { words, tee: Some(first), ..tee });
        if far != Far::No && line.both_sides_at_once {
            let trips = vec![vec![near[0], away[0]], vec![near[1], away[1]]];
            let words = format!("both sides at once, {} seam first", first.name());
            out.push(Scheme::of(words, trips, 2, vec![false, false]));
        }
    }
}

/// One seam from the near, the other from the far side: their sweeps cancel, and they twist the member.
fn one_from_each(line: &WeldingLine, out: &mut Vec<Scheme>) {
    let lane = |seam, side, knob| Lane { seam, side, knob, full: true };
    for near in Seam::BOTH {
        let away = if near == Seam::Outer { Seam::Inner } else { Seam::Outer };
        let lanes = [lane(near, Side::Near, 0), lane(away, Side::Far, 1)];
        let words =
            format!("{} seam from the near side, {} seam from the far side", near.name(), away.name());
        let (trips, turned) = if line.both_sides_at_once && line.both_seams_at_once {
            (vec![lanes.to_vec()], vec![false])
        } else {
            (lanes.map(|l| vec![l]).to_vec(), vec![false, true])
        };
        out.push(Scheme { twists: true, ..Scheme::of(words, trips, 2, turned) });
    }
}

/// Whether a lane welds a stretch.
pub fn welds(lane: &Lane, stretch: &Stretch) -> bool {
    lane.seam == stretch.seam && (lane.full || stretch.both_sides.is_some() || stretch.one.is_none())
}

/// Whether a stretch is welded on both sides by a way.
pub(crate) fn on_both_sides(way: &Scheme, stretch: &Stretch) -> bool {
    let from = |side| way.trips.iter().flatten().any(|lane| lane.side == side && welds(lane, stretch));
    from(Side::Near) && from(Side::Far)
}
