//! What the foreman goes by: where to stop, told by travel and force together, and what the next push needs.
//!
//! A member that is let off springs back by force times a compliance that does not depend on its yield strength nor on the stress its
//! seams have locked in. So travel less that is the set that will stay, read while the ram still pushes. After the first push the
//! compliance of this piece, as its own gauges read it, is known: springback over force. So the second push stops where its travel is that
//! times the force and what is missing. Without a force the same springback and what is missing make the travel; as the force never
//! falls while travel grows, that never goes too far.

use super::Push;
use serde::Serialize;

/// How far a force gauge may be off, one standard deviation over the force (choice; common gauges of class 1.6 and the friction of
/// a ram).
pub(crate) const FORCE_READ: f64 = 0.03;
/// Part of the wanted set that the first push leaves to the second at least, and at most (choice).
const LEAVES: (f64, f64) = (0.25, 0.80);
/// How far the give of frame and packing may be off, one standard deviation over it (choice).
pub(super) const GIVE_KNOWN: f64 = 0.2;
/// Deviations of force gauge and give that the first push keeps off the wanted set.
const DEVIATIONS: f64 = 2.0;
/// Part of the wanted set, and mm, that the set may be off when work stops (choice).
const ENOUGH: (f64, f64) = (0.10, 0.2);
/// Forces told, and the strongest steel over the nominal force: mill plate tests up to a third above its minimum (common practice, no
/// source; AISC R_y 1.1 to 1.3, memory).
const FORCES: u32 = 6;
pub(super) const STRONGEST: f64 = 1.35;
/// The weakest steel told, over the nominal force (choice).
const WEAKEST: f64 = 0.85;
/// Lines of the table of second pushes.
const LINES: u32 = 5;

/// Where to stop: at that force, at that travel.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Stop {
    /// Force read, N in each ram.
    pub force_n: f64,
    /// Travel from the light pre-load, mm: of the one ram, or by the dial midway between two.
    pub travel_mm: f64,
}

/// One line of the table of second pushes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SecondPush {
    /// What stayed of the first push at the gauge, mm.
    pub stayed_mm: f64,
    /// Ram travel of the second push from the new rest over that of the first, mm: to be added to the first travel.
    pub more_mm: f64,
}

impl Push {
    /// What is to stay at the gauge in the end, mm.
    pub const fn wanted_mm(&self) -> f64 {
        self.bent.nominal.set_mm
    }

    /// What the first push is to leave, mm: less than wanted by what the force gauge may be off, at the force that the strongest steel
    /// asks for.
    pub fn first_aim_mm(&self) -> f64 {
        let wanted = self.wanted_mm();
        let force = STRONGEST * self.bent.nominal.force_n;
        let (gauge, give) = (FORCE_READ * self.elastic_mm_per_n, GIVE_KNOWN * self.give_mm_per_n);
        let off = DEVIATIONS * force * gauge.hypot(give);
        wanted - off.clamp(LEAVES.0 * wanted, LEAVES.1 * wanted)
    }

    /// Half width of the band about the wanted set in which work stops, mm.
    pub fn enough_mm(&self) -> f64 {
        (ENOUGH.0 * self.wanted_mm()).max(ENOUGH.1)
    }

    /// Travel (mm) at which that set (mm, at the gauge) stays, if the force there is `force_n` in each ram.
    pub(crate) fn travel_mm(&self, set_mm: f64, force_n: f64) -> f64 {
        set_mm + self.elastic_mm_per_n * force_n
    }

    /// What later pushes aim at in all, mm: the lower half of the band in which work stops, as what is too much is not pushed back.
    pub fn later_aim_mm(&self) -> f64 {
        self.wanted_mm() - 0.5 * self.enough_mm()
    }

    /// The stops of the first push, rising with force, up to the force never to be passed.
    pub fn stops(&self) -> Vec<Stop> {
        self.stops_at(self.first_aim_mm(), self.elastic_mm_per_n)
    }

    /// The stops that leave that set (mm, at the gauge) if a newton in each ram springs back by so much, mm/N.
    pub(super) fn stops_at(&self, set: f64, elastic_mm_per_n: f64) -> Vec<Stop> {
        let nominal = self.bent.nominal.force_n;
        let (low, high) = (WEAKEST * nominal, (STRONGEST * nominal).min(self.most_force_n));
        (0..FORCES)
            .map(|i| low + f64::from(i) / f64::from(FORCES - 1) * (high - low))
            .filter(|force| *force <= self.most_force_n * (1.0 + 1e-9))
            .map(|force_n| Stop { force_n, travel_mm: set + elastic_mm_per_n * force_n })
            .collect()
    }

    /// Force of each ram (N) at which that set (mm, at the gauge) stays of the given steel without locked-in stress, by the law that
    /// √set runs in a straight line over √(1 − force/hinge) from first yield to the wanted set.
    pub(crate) fn force_n(&self, set_mm: f64) -> f64 {
        let [first, hinge] = self.yields_n;
        let v = |force: f64| (1.0 - force / hinge).max(0.0).sqrt();
        let (start, end) = (v(first), v(self.bent.nominal.force_n));
        let part = (set_mm.max(0.0) / self.wanted_mm()).sqrt();
        let at = (start - (start - end) * part).max(0.0);
        hinge * (1.0 - at * at)
    }

    /// Travel that a push (mm) needs after one of `travel_mm` that brought what stayed from `before_mm` to
    /// `stayed_mm`: springback as before and a little more for the force that still grows, and the set that is missing.
    pub(crate) fn next_travel_mm(&self, travel_mm: f64, before_mm: f64, stayed_mm: f64) -> f64 {
        let springback = travel_mm - (stayed_mm - before_mm);
        let grows = (self.force_n(self.wanted_mm()) - self.force_n(stayed_mm)).max(0.0);
        springback + self.elastic_mm_per_n * grows + self.later_aim_mm() - stayed_mm
    }

    /// The second push for what stayed of the first, from nothing to all but the band of [`Self::enough_mm`]: what is to be added
    /// to the travel of the first.
    pub fn second_rule(&self) -> Vec<SecondPush> {
        let most = (self.wanted_mm() - self.enough_mm()).max(0.0);
        let stayed = (0..LINES).map(|i| f64::from(i) / f64::from(LINES - 1) * most);
        stayed
            .map(|stayed_mm| SecondPush { stayed_mm, more_mm: self.next_travel_mm(0.0, 0.0, stayed_mm) })
            .collect()
    }
}
