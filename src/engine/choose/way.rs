//! Ways to lay the seams: which beads go together in a trip through the line, in which order.

use super::book::Line;
use super::need::Stretch;
use super::wishes::Sides;
use crate::member::Seam;
use crate::welding::Side;
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
    pub full: bool,
}

/// A way to weld the member.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Way {
    /// In words.
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
}

/// Every way the line can go. Welding one seam from the near and the other from the far side is not among them: its
/// sweep cancels, but it twists the member, and twist is not predicted here.
pub fn ways(line: &Line, stretches: &[Stretch], sides: Sides) -> Vec<Way> {
    let needs_far = stretches.iter().any(|s| s.both_sides.is_some() || s.one.is_none());
    let mut out = Vec::new();
    let mut fars = Vec::new();
    if sides != Sides::Both {
        fars.push(if needs_far { Some(false) } else { None });
    }
    if sides != Sides::One {
        fars.push(Some(true));
    }
    for far in fars {
        let also = match far {
            None => "near side only",
            Some(false) => "near side, far side where it must be",
            Some(true) => "near side, then far side",
        };
        let beads = |side, knobs: [usize; 2]| {
            let full = side == Side::Near || far == Some(true);
            Seam::BOTH.map(|seam| Lane { seam, side, knob: knobs[seam as usize], full })
        };
        if line.both_seams_at_once {
            let mut trips = vec![beads(Side::Near, [0, 1]).to_vec()];
            if far.is_some() {
                trips.push(beads(Side::Far, [2, 3]).to_vec());
            }
            let turned = (0..trips.len()).map(|n| n == 1).collect();
            let knobs = 2 * trips.len();
            out.push(Way { words: format!("both seams at once, {also}"), trips, knobs, turned });
        }
        for first in Seam::BOTH {
            let order = |lanes: [Lane; 2]| match first {
                Seam::Outer => lanes,
                Seam::Inner => [lanes[1], lanes[0]],
            };
            let mut trips: Vec<Vec<Lane>> = order(beads(Side::Near, [0, 1])).map(|b| vec![b]).to_vec();
            let mut turned = vec![false, false];
            if far.is_some() {
                trips.extend(order(beads(Side::Far, [0, 1])).map(|b| vec![b]));
                turned.extend([true, false]);
            }
            out.push(Way { words: format!("{} seam first, {also}", first.name()), trips, knobs: 2, turned });
            if far.is_some() && line.both_sides_at_once {
                let (near, far) = (order(beads(Side::Near, [0, 1])), order(beads(Side::Far, [0, 1])));
                let trips = vec![vec![near[0], far[0]], vec![near[1], far[1]]];
                let words = format!("both sides at once, {} seam first", first.name());
                out.push(Way { words, trips, knobs: 2, turned: vec![false, false] });
            }
        }
    }
    out
}

/// Whether a lane welds a stretch.
pub fn welds(lane: &Lane, stretch: &Stretch) -> bool {
    lane.seam == stretch.seam && (lane.full || stretch.both_sides.is_some() || stretch.one.is_none())
}

/// Whether a stretch is welded on both sides by a way.
pub fn on_both_sides(way: &Way, stretch: &Stretch) -> bool {
    way.trips.iter().flatten().any(|lane| lane.side == Side::Far && welds(lane, stretch))
}
