//! The push log: what the readings of the pushes made so far say of this piece, and the next push.

use super::{Push, Stop};
use crate::member::Member;
use crate::straighten::press::{PressSpan, Range, WeldStress};
use serde::Serialize;

/// Most pushes at one place (choice: after three that miss, something else is wrong).
pub const MOST_TRIES: usize = 3;
/// Springback over the one expected beyond which readings do not fit (choice: twice what gauge, frame and seating may be off).
const FITS: (f64, f64) = (0.7, 1.4);
/// A set below this is none: what a dial reads, mm (choice).
pub(super) const READ_MM: f64 = 0.1;
/// A set may read so much less than before, mm: two dials read to 0.1 mm (choice).
const SLIP_MM: f64 = 0.4;
/// Part of the wanted set that has to stay before the yield strength is told from it (choice).
const ENOUGH_TO_TELL: f64 = 0.25;
/// Highest over lowest yield strength up to which readings tell it (choice).
const TELLS: f64 = 1.3;
/// Yield over the given one between which readings are explained.
const EXPLAINS: (f64, f64) = (0.5, 2.0);

/// One push as read.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PushReading {
    /// Travel from the light pre-load, mm: of the one ram, or by the dial midway between two.
    pub travel_mm: f64,
    /// Force at the end of it, N in each ram; None if not read.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub force_n: Option<f64>,
    /// What stayed in all since before the first push, mm at the gauge.
    pub set_mm: f64,
}

/// Readings that no steel explains.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Odd {
    /// Less stayed in all than before this push.
    SetFell,
    /// More stayed than the ram travelled.
    MoreThanTravel,
    /// Springback by force is not the one that the member has.
    Springback {
        /// As read, mm.
        read_mm: f64,
        /// As the force asks for, mm.
        expected_mm: f64,
    },
    /// The force passed what may never be passed.
    Force {
        /// As read, N.
        read_n: f64,
        /// Most, N.
        most_n: f64,
    },
}

/// The next push.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Again {
    /// Its number, 1 for the first.
    pub number: usize,
    /// Travel from the new rest, mm: of the one ram, or by the dial midway between two.
    pub travel_mm: f64,
    /// What may be needed: the lower end can never go too far.
    pub band_mm: Range,
    /// Set still to be made, mm.
    pub missing_mm: f64,
    /// Set that this push aims at, mm from what has stayed.
    pub aim_mm: f64,
    /// What a newton in each ram springs back by, mm/N: of this piece and its gauges once a force was read.
    pub elastic_mm_per_n: f64,
    /// Where to stop by force and travel together; of no use if no force is read.
    pub stops: Vec<Stop>,
}

/// What to do after the pushes made so far.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Next {
    /// Enough stayed: stop.
    Enough,
    /// Too much stayed: stop, log it, plan anew; never push back without the engineer.
    TooMuch {
        /// Over the wanted set, mm.
        over_mm: f64,
    },
    /// Push again.
    Again(Again),
    /// Three pushes were not enough.
    GiveUp {
        /// Still missing, mm.
        missing_mm: f64,
    },
    /// Read again before anything else is pushed.
    ReadAgain {
        /// Which push, 1 for the first.
        number: usize,
        /// Why.
        why: Odd,
    },
}

impl Push {
    /// The first thing in the readings that cannot be.
    fn odd(&self, readings: &[PushReading]) -> Option<(usize, Odd)> {
        let mut before = 0.0;
        for (i, r) in readings.iter().enumerate() {
            let made = r.set_mm - before;
            let springback = r.travel_mm - made;
            let found = if made < -SLIP_MM {
                Some(Odd::SetFell)
            } else if springback <= 0.0 {
                Some(Odd::MoreThanTravel)
            } else if let Some(force_n) = r.force_n.filter(|f| *f > self.most_force_n * 1.05) {
                Some(Odd::Force { read_n: force_n, most_n: self.most_force_n })
            } else {
                let expected_mm = r.force_n.map(|f| f * self.elastic_mm_per_n);
                let fits = |e: f64| (FITS.0 * e..=FITS.1 * e).contains(&springback);
                expected_mm
                    .filter(|e| !fits(*e))
                    .map(|expected_mm| Odd::Springback { read_mm: springback, expected_mm })
            };
            if let Some(why) = found {
                return Some((i + 1, why));
            }
            before = r.set_mm;
        }
        None
    }
}

/// What the readings of one place ask for next.
pub fn next(push: &Push, readings: &[PushReading]) -> Next {
    if let Some((number, why)) = push.odd(readings) {
        return Next::ReadAgain { number, why };
    }
    let wanted = push.wanted_mm();
    let Some(last) = readings.last() else {
        let stops = push.stops();
        let at = |i: usize| stops.get(i).map_or(0.0, |s| s.travel_mm);
        let aim = push.first_aim_mm();
        let travel_mm = push.travel_mm(aim, push.force_n(aim));
        let band_mm = Range { low: at(0), high: at(stops.len().saturating_sub(1)) };
        let elastic_mm_per_n = push.elastic_mm_per_n;
        return Next::Again(Again {
            number: 1,
            travel_mm,
            band_mm,
            missing_mm: wanted,
            aim_mm: aim,
            elastic_mm_per_n,
            stops,
        });
    };
    let missing_mm = wanted - last.set_mm;
    if missing_mm.abs() <= push.enough_mm() {
        return Next::Enough;
    }
    if missing_mm < 0.0 {
        return Next::TooMuch { over_mm: -missing_mm };
    }
    if readings.len() >= MOST_TRIES {
        return Next::GiveUp { missing_mm };
    }
    let before = readings.len().checked_sub(2).and_then(|i| readings.get(i)).map_or(0.0, |r| r.set_mm);
    let springback = last.travel_mm - (last.set_mm - before);
    let elastic_mm_per_n =
        last.force_n.filter(|f| *f > 0.0).map_or(push.elastic_mm_per_n, |f| springback / f);
    let travel_mm = push.next_travel_mm(last.travel_mm, before, last.set_mm);
    let grows = (push.force_n(wanted) - push.force_n(last.set_mm)).max(0.0) * push.elastic_mm_per_n;
    let aim_mm = push.later_aim_mm() - last.set_mm;
    Next::Again(Again {
        number: readings.len() + 1,
        travel_mm,
        // without the growth of the force it surely stays short; welded or stronger steel may want as much again
        band_mm: Range { low: travel_mm - grows, high: travel_mm + grows },
        missing_mm,
        aim_mm,
        elastic_mm_per_n,
        stops: push.stops_at(aim_mm, elastic_mm_per_n),
    })
}

/// Yield strength (MPa) that explains the force of the last push and what stayed, give or take what a dial reads: with the stress of
/// the seams locked in, and without any. None if too little stayed or no force was read, if no yield strength explains it, or if
/// that leaves it open: in a welded member a small set comes from the seams, whatever the steel.
pub fn yield_mpa(push: &Push, member: &Member, weld: WeldStress, readings: &[PushReading]) -> Option<Range> {
    let last = readings.last().filter(|r| r.set_mm >= READ_MM.max(ENOUGH_TO_TELL * push.wanted_mm()))?;
    let force = last.force_n?;
    let spans = [None, Some(weld)].map(|weld| PressSpan::new(member, push.layout, weld));
    let (mut low, mut high) = (f64::INFINITY, 0.0_f64);
    for span in spans {
        let span = span.ok()?;
        for set_mm in [last.set_mm - READ_MM, last.set_mm + READ_MM] {
            let at = |y: f64| {
                let model = span.for_set(set_mm / y).map_or_else(|_| span.hinge_n(), |b| b.force_n);
                y * model - force
            };
            let y = crate::numerics::root(at, EXPLAINS.0, EXPLAINS.1, 1e-4).ok()?;
            (low, high) = (low.min(y), high.max(y));
        }
    }
    let given = member.steel.yield_mpa;
    (high <= TELLS * low).then_some(Range { low: given * low, high: given * high })
}
