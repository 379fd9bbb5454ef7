//! The cups of a flange, station by station, and the stretches of neighbouring stations that are bent back together.
//!
//! Between stations the cup is taken to run straight. A stretch ends where the cup has fallen to half of what is bent back: there bent
//! and unbent flange are off alike.

use super::Task;
use super::held::{HeldPlace, free_of};
use crate::member::{FlangePiece, Seam};
use crate::numerics::halved;
use crate::straighten::decide::{Action, MeasuredValue};
use crate::units::{Message, Part};

/// A cup smaller than this at the toes is none: what is out is tilt (choice).
const NO_CUP_MM: f64 = 0.1;
/// Part of what the limits leave for the cup that a flange is bent back to, if strain and passes permit (choice).
const PART_OF_LIMIT: f64 = 0.5;
/// Deviations kept between what is left and the limit: 5 % of the pieces (normal law).
const KEPT: f64 = 1.645;
/// Plate at the end of a stretch shorter than this is not bent by itself, mm (choice).
pub(super) const SLIVER_MM: f64 = 100.0;

/// What helps where one bend of a stretch does not fit all of it.
const MEASURE_BETWEEN: &str = "measure the toes between, and bend it stretch by stretch";
/// What helps where the tilt takes the limit.
const LESS_TILT: &str = "correct the seams or the order of welding against the tilt, or the engineer's word";

/// One station of a flange.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Station {
    /// Where, mm from the start end.
    pub(super) x_mm: f64,
    /// Angle between both halves, rad, + toward the web.
    pub(super) angle: f64,
    /// Width of the flange there, mm.
    width_mm: f64,
    /// What the limits leave for the cup, mm.
    pub(super) room_mm: f64,
    /// Standard uncertainty of a reading, mm.
    pub(super) read_mm: f64,
    /// Where the plate that it is on ends, mm from the start end; plates of one size one after the other are one.
    plate_to_mm: f64,
    /// What is to be done with the worst of its toes.
    action: Action,
    /// Whether the flange is held there and cannot be bent.
    held: bool,
}

impl Station {
    /// Toe offset of an angle, mm with its sign.
    pub(super) fn mm(&self, angle: f64) -> f64 {
        0.25 * self.width_mm * angle
    }

    /// Whether both are on one plate: each plate is cupped, and bent back, by its own angle.
    fn shares_plate(&self, other: &Self) -> bool {
        self.plate_to_mm.total_cmp(&other.plate_to_mm).is_eq()
    }

    /// Whether it is cupped, so that a bend would do something.
    fn cupped(&self) -> bool {
        self.action != Action::Accept && self.mm(self.angle).abs() >= NO_CUP_MM
    }

    fn room(&self) -> f64 {
        self.room_mm / self.mm(1.0)
    }

    /// Least correction (rad) that keeps 95 % of the pieces inside, if it comes out with that scatter over its size.
    fn least(&self, scatter: f64) -> f64 {
        let cup = self.mm(self.angle.abs());
        let kept = |taken: f64| self.room_mm - KEPT * (scatter * taken).hypot(self.read_mm) - (cup - taken);
        if kept(cup) < 0.0 {
            return self.angle.abs();
        }
        halved([0.0, cup], 50, |_, _| true, |taken| kept(taken) < 0.0)[1] / self.mm(1.0)
    }
}

/// The stations of a flange, and the stretches of it to be bent back.
pub(super) struct Cups {
    pub(super) seam: Seam,
    /// Along the member.
    pub(super) stations: Vec<Station>,
    pub(super) stretches: Vec<Stretch>,
    /// Where it is not bent.
    held: Vec<HeldPlace>,
}

impl Cups {
    pub(super) fn of(task: &Task<'_>, seam: Seam) -> Self {
        let goals = &task.goals;
        let held = task.held(seam);
        let toes = task.shape.toes.iter().filter(|t| t.seam == seam);
        let mut stations: Vec<Station> = toes
            .map(|t| {
                let width_mm = task.member.plates_at(t.x_mm).flange_mm(seam).0;
                let judged = |(value, limits)| {
                    MeasuredValue { value, measurements: task.measurements }.action(&limits)
                };
                let actions = goals.of_toes(t).map(judged);
                let worst = [Action::Straighten, Action::AskEngineer, Action::MeasureAgain];
                Station {
                    x_mm: t.x_mm,
                    angle: t.angle_rad(width_mm),
                    width_mm,
                    room_mm: goals.room_mm(t),
                    read_mm: goals.toe.measuring_sd.max(goals.cup.measuring_sd),
                    plate_to_mm: plate_end_mm(task, seam, t.x_mm),
                    held: held.iter().any(|place| place.covers(t.x_mm)),
                    action: worst.into_iter().find(|a| actions.contains(a)).unwrap_or(Action::Accept),
                }
            })
            .collect();
        stations.sort_by(|a, b| a.x_mm.total_cmp(&b.x_mm));
        let stretches = stretches(&stations, task.member.length_mm);
        Self { seam, stations, stretches, held }
    }

    /// A toe that is out where the flange is held, in words, and whether it is only to be kept off there.
    pub(super) fn out_of_reach(&self) -> Option<(Message, bool)> {
        let out = |s: &&Station| s.held && s.cupped() && s.action == Action::Straighten;
        let station = self.stations.iter().find(out)?;
        let mut places = self.held.iter().filter(|place| place.covers(station.x_mm));
        let place = places.clone().find(|place| !place.kept_off).or_else(|| places.next())?;
        let found = Message::of(
            "a toe is out at {}, where the flange is not to be bent: ",
            [Part::Position(station.x_mm)],
        );
        Some((found.then(place.by.clone()), place.kept_off))
    }

    /// What holds the flange where a bend of it ends, in words, and a toe near its limit that it keeps from being bent.
    pub(super) fn stops(&self, ends_mm: [f64; 2]) -> Vec<Message> {
        let [from, to] = ends_mm;
        let at_end = |p: &&HeldPlace| (p.to_mm - from).abs() < 1e-6 || (p.from_mm - to).abs() < 1e-6;
        let near = |p: &HeldPlace| self.stations.iter().find(|s| s.held && s.cupped() && p.covers(s.x_mm));
        let named = |p: &HeldPlace| match near(p) {
            Some(s) => p.by.clone().then(Message::of(
                " (the toe at {} beside it is near its limit, and no bend reaches it)",
                [Part::Position(s.x_mm)],
            )),
            None => p.by.clone(),
        };
        self.held.iter().filter(at_end).map(named).collect()
    }
}

/// Where the plate of a flange at a place ends, mm.
fn plate_end_mm(task: &Task<'_>, seam: Seam, x_mm: f64) -> f64 {
    let plates = task.member.flange(seam);
    let here = plates.iter().position(|p| x_mm <= p.to_mm).unwrap_or(plates.len() - 1);
    let alike =
        |p: &&FlangePiece| (p.width_mm, p.thickness_mm) == (plates[here].width_mm, plates[here].thickness_mm);
    plates[here..].iter().take_while(alike).last().map_or(task.member.length_mm, |p| p.to_mm)
}

/// Neighbouring stations of one plate that are not accepted for a cup to the same side, where one of them is out.
fn stretches(stations: &[Station], length_mm: f64) -> Vec<Stretch> {
    let cupped = |s: &Station| s.cupped() && !s.held;
    let together =
        |a: &Station, b: &Station| cupped(a) && cupped(b) && a.shares_plate(b) && a.angle * b.angle > 0.0;
    let mut out = Vec::new();
    let mut from = 0;
    for run in stations.chunk_by(together) {
        let to = from + run.len();
        if run.iter().any(|s| cupped(s) && s.action == Action::Straighten) {
            let (first, last) = (run[0], run[run.len() - 1]);
            let (before, after) = (from.checked_sub(1).map(|i| stations[i]), stations.get(to).copied());
            out.push(Stretch {
                stations: run.to_vec(),
                // a plate between two stations that has none of its own is bent with the later
                from_mm: before.filter(|b| !b.shares_plate(&first)).map_or(0.0, |b| b.plate_to_mm),
                to_mm: after.filter(|a| !a.shares_plate(&last)).map_or(length_mm, |_| last.plate_to_mm),
                before: before.filter(|b| b.shares_plate(&first)),
                after: after.filter(|a| a.shares_plate(&last)),
            });
        }
        from = to;
    }
    out
}

/// Neighbouring stations that are bent back together.
pub(super) struct Stretch {
    pub(super) stations: Vec<Station>,
    /// Neighbours on the same plate.
    before: Option<Station>,
    after: Option<Station>,
    /// Where it ends if there is no such neighbour, mm from the start end.
    from_mm: f64,
    to_mm: f64,
}

impl Stretch {
    /// 1 if its halves bend toward the web, −1 if away from it.
    pub(super) fn sign(&self) -> f64 {
        self.worst().angle.signum()
    }

    /// The station with the largest cup.
    pub(super) fn worst(&self) -> Station {
        let by = |a: &&Station, b: &&Station| a.angle.abs().total_cmp(&b.angle.abs());
        self.stations.iter().max_by(by).copied().unwrap_or(self.stations[0])
    }

    /// What is to be bent back at most and at least, rad: to half of what the limit leaves at each station, and so that 95 % of the
    /// pieces end inside if it comes out with that scatter over its size.
    pub(super) fn wanted(&self, scatter: f64) -> [f64; 2] {
        let least = |s: &Station| s.least(scatter);
        let most = |s: &Station| (s.angle.abs() - PART_OF_LIMIT * s.room()).max(least(s));
        let largest = |of: &dyn Fn(&Station) -> f64| self.stations.iter().map(of).fold(0.0, f64::max);
        [largest(&most), largest(&least)]
    }

    /// From where to where it is bent by an angle (rad), mm from the start end.
    pub(super) fn ends_mm(&self, taken: f64) -> [f64; 2] {
        let at = |inside: &Station, outside: Option<&Station>, end: f64| {
            outside.map_or(end, |o| inside.x_mm + self.part(inside, o, taken) * (o.x_mm - inside.x_mm))
        };
        let (first, last) = (&self.stations[0], &self.stations[self.stations.len() - 1]);
        [at(first, self.before.as_ref(), self.from_mm), at(last, self.after.as_ref(), self.to_mm)]
    }

    /// Part of the way to the station outside at which the cup has fallen to half of what is bent back.
    fn part(&self, inside: &Station, outside: &Station, taken: f64) -> f64 {
        let [from, to] = [inside, outside].map(|s| self.sign() * s.angle);
        let half = 0.5 * taken;
        if from <= half {
            0.0
        } else if to >= half {
            1.0
        } else {
            (from - half) / (from - to)
        }
    }

    /// What a bend of `taken` (rad, at a place) would leave outside the limit between both ends, and what helps, in words; None if nothing.
    pub(super) fn misses(&self, taken: &dyn Fn(f64) -> f64) -> Option<(Message, &'static str)> {
        let off = |s: &Station| self.sign() * s.angle - taken(s.x_mm);
        // of one station alone the price tells whether it comes inside
        let together = self.stations.len() > 1;
        let missed = |s: &&Station| together && off(s).abs() > s.room() * (1.0 + 1e-9);
        if let Some(s) = self.stations.iter().find(missed) {
            let worst = self.worst();
            let of = |s: &Station| [Part::Offset(s.mm(s.angle)), Part::Position(s.x_mm)];
            let ([cup, at], [other, there]) = (of(&worst), of(s));
            let [left, room] = [s.mm(off(s)).abs(), s.room_mm].map(Part::Offset);
            // what the bend is for comes no nearer, or nothing would be near enough: that is no matter of stretches
            if *s == worst || s.room_mm <= 0.0 {
                let found = Message::of(
                    "at {} the tilt leaves {} of the limit for the cup of {}",
                    [there, room, other],
                );
                return Some((found.and(": no bend comes out that near"), LESS_TILT));
            }
            let found =
                Message::of("the flange is cupped by {} at {} and by {} at {}: ", [cup, at, other, there]);
            let found = found.then(Message::of(
                "bent back as one it would be {} off there, {} is left by the limit",
                [left, room],
            ));
            return Some((found, MEASURE_BETWEEN));
        }
        let (first, last) = (&self.stations[0], &self.stations[self.stations.len() - 1]);
        let borders = [(first, &self.before), (last, &self.after)];
        borders.into_iter().find_map(|(inside, outside)| {
            let outside = outside.as_ref()?;
            let bent = taken(inside.x_mm);
            let part = self.part(inside, outside, bent);
            let [from, to] = [inside, outside].map(|s| self.sign() * s.angle);
            let there = (from + part * (to - from) - bent).abs();
            let room = inside.room().min(outside.room());
            (there > room * (1.0 + 1e-9)).then(|| {
                let at = [inside.x_mm, outside.x_mm].map(Part::Position);
                let [one, other] = at;
                let sizes = [inside.mm(there), inside.mm(room)].map(Part::Offset);
                let [off, room] = sizes;
                let found = Message::of(
                    "the cup changes too much between {} and {}: where the bend ends the flange would be {} off, {} is left by the limit",
                    [one, other, off, room],
                );
                (found, MEASURE_BETWEEN)
            })
        })
    }

    /// The plates of a flange between both ends, where nothing holds it, each from–to (mm) with its width and thickness (mm).
    pub(super) fn plates(
        &self,
        task: &Task<'_>,
        cups: &Cups,
        ends_mm: [f64; 2],
    ) -> Vec<([f64; 2], (f64, f64))> {
        let [from, to] = ends_mm;
        let mut plates: Vec<([f64; 2], (f64, f64))> = Vec::new();
        for plate in task.member.flange(cups.seam) {
            let (a, b) = (plate.from_mm.max(from), plate.to_mm.min(to));
            let size = (plate.width_mm, plate.thickness_mm);
            match plates.last_mut() {
                _ if b <= a => {}
                Some(last) if last.1 == size => last.0[1] = b,
                _ => plates.push(([a, b], size)),
            }
        }
        let free = |(ends, size)| free_of(&cups.held, ends).into_iter().map(move |ends| (ends, size));
        let mut out: Vec<([f64; 2], (f64, f64))> = plates.into_iter().flat_map(free).collect();
        let long = |p: &([f64; 2], (f64, f64))| p.0[1] - p.0[0] >= SLIVER_MM;
        if out.iter().any(long) {
            out.retain(long);
        }
        out
    }
}
