//! What is odd about readings that could be those of the member: asked about before anything is judged by them, and let through
//! once the file says that they were checked.

use super::columns::{Column, Measured};
use super::contract::{bows, from_chord, is_meant, largest, other_unit, reading_in};
use crate::readings::Placed;
use std::ops::Range;
use weldbow_engine::input::Problem;
use weldbow_engine::prediction::uncertainty::SPAN;
use weldbow_engine::prediction::{Bow, Job, Prediction};
use weldbow_engine::straighten::piece::Measuring;
use weldbow_engine::straighten::shape::{OutOfStraight, Up, own_weight_sag_mm};
use weldbow_engine::units::{Kind, Message, Part, System};

/// Fewest stations that show the shape of a bow and not its size alone (choice).
const ENOUGH: usize = 5;
/// Widest gap between stations over the length (choice: five even stations leave a quarter).
const WIDEST_GAP: f64 = 0.35;
/// Finest reading anyone takes along a member, mm (choice: a scale is read to half a millimetre).
const FINEST_MM: f64 = 0.1;
/// What a scale is read to, mm.
const FINEST_USUAL_MM: f64 = 0.5;
/// What plates that were not straight and handling may add to the bow of welding, over the length (choice: the edge camber that EN
/// 10029 allows of a plate, 0.2 % of the length, memory).
const PLATE_AND_HANDLING: f64 = 1.0 / 500.0;
/// Standard deviations of prediction and measuring that are still no surprise.
const DEVIATIONS: f64 = 3.0;
/// Standard uncertainties of a reading by which one station must stand off its neighbours to be asked about (choice).
const OFF_NEIGHBOURS: f64 = 5.0;
/// Roughness left over roughness found, once the odd reading is taken out, below which it alone is odd: a kink leaves more
/// (choice; own calculation: a kink among six even stations leaves 0.33, among ten 0.49).
const ALONE: f64 = 0.3;
/// Fewest stations at which an odd reading can be told from a kink.
const TELL_APART: usize = 6;

/// Everything odd. `shape` is what is left at the stations once sag and wanted camber are out.
pub(super) fn odd(
    measured: &Measured,
    job: &Job,
    prediction: &Prediction,
    shape: &OutOfStraight,
    measuring: &Measuring,
) -> Vec<OddReading> {
    let mut out = Vec::new();
    let any = bows(measured).next().is_some();
    if any {
        out.extend(sparse(measured, job));
    }
    for (column, readings) in bows(measured) {
        let (offsets, bow, sd) = match column {
            Column::Camber => (&shape.camber_mm, &prediction.camber, measuring.camber_mm),
            _ => (&shape.sweep_mm, &prediction.sweep, measuring.sweep_mm),
        };
        if let Some(fine) = too_fine(measured, column, &from_chord(&measured.x_mm, readings)) {
            out.push(fine);
            continue;
        }
        let outlier = outlier(measured, column, offsets, sd);
        out.extend(outlier.or_else(|| implausible(measured, job, column, offsets, bow, sd)));
    }
    out
}

/// Too few stations, or too far apart.
fn sparse(measured: &Measured, job: &Job) -> Option<OddReading> {
    let x = &measured.x_mm;
    let gaps: Vec<f64> = x.windows(2).map(|pair| pair[1] - pair[0]).collect();
    let (at, gap) = largest(&gaps)?;
    let found = if x.len() < ENOUGH {
        format!("{} stations", x.len()).into()
    } else if gap > WIDEST_GAP * job.member.length_mm {
        Message::of("nothing read between {} and {}", [Part::Position(x[at]), Part::Position(x[at + 1])])
    } else {
        return None;
    };
    let wanted = "five stations or more, evenly along the member: fewer show how far it is out, not where it is bent. \
                  Read more, or say that these must do";
    Some(OddReading::new("x", found, wanted.into(), measured.cell(Column::X, at + 1)))
}

/// Readings finer than anyone takes: metres below a head of millimetres.
fn too_fine(measured: &Measured, column: Column, offsets: &[f64]) -> Option<OddReading> {
    let (at, most) = largest(offsets).filter(|(_, o)| *o != 0.0 && o.abs() < FINEST_MM)?;
    let (unit, head) = measured.head(column)?;
    // a reading of a few tenths would be as odd
    let other = other_unit(unit, most, |mm| mm.abs() >= 10.0 * FINEST_MM);
    let name = column.name();
    // as it stands in the file: in sizes of a drawing it would be nothing
    let read = Kind::Length.unit(unit).map_or(most, |unit| unit.of_engine(most));
    let found = format!("{} {unit} as the largest reading", (read * 1e6).round() / 1e6).into();
    let usual = Message::of("readings to {}", [Part::Offset(FINEST_USUAL_MM)]);
    let Some(other) = other else {
        return Some(OddReading::new(name, found, usual, measured.cell(column, at)));
    };
    let usual = usual.and(". ").then(is_meant(name, other, reading_in(unit, other, most)));
    Some(OddReading::new(name, found, usual, Some(head)).meant(format!("{name} [{other}]")))
}

/// One station that stands off its neighbours while all others agree.
fn outlier(measured: &Measured, column: Column, offsets: &[f64], sd: f64) -> Option<OddReading> {
    let (at, off) = stands_off(&measured.x_mm, offsets)?;
    if off.abs() <= OFF_NEIGHBOURS * sd {
        return None;
    }
    let found = Message::of(
        "the station at {} stands {} off its neighbours",
        [Part::Position(measured.x_mm[at]), Part::Offset(off.abs())],
    );
    let usual = "a reading that agrees with those beside it: read this station again".into();
    Some(OddReading::new(column.name(), found, usual, measured.cell(column, at)))
}

/// The station whose reading alone makes a line of readings rough, and by how much it is off, mm.
///
/// How far each inner station lies from the straight line between its neighbours is fitted by an even curvature and one odd reading, which
/// shows at its neighbours with half its size and the other sign; that of a kink does not.
fn stands_off(x_mm: &[f64], offsets: &[f64]) -> Option<(usize, f64)> {
    let n = x_mm.len();
    if n < TELL_APART || offsets.len() != n {
        return None;
    }
    let share = |j: usize| (x_mm[j + 1] - x_mm[j]) / (x_mm[j + 1] - x_mm[j - 1]);
    let rough = |o: &dyn Fn(usize) -> f64| -> Vec<f64> {
        (1..n - 1).map(|j| o(j) - share(j) * o(j - 1) - (1.0 - share(j)) * o(j + 1)).collect()
    };
    let found = rough(&|j| offsets[j]);
    let even: Vec<f64> = (1..n - 1).map(|j| (x_mm[j] - x_mm[j - 1]) * (x_mm[j + 1] - x_mm[j])).collect();
    let bare = without(&found, &even);
    let before = dot(&bare, &bare);
    let tried = (1..n - 1).map(|i| {
        let sign = without(&rough(&|j| f64::from(u8::from(j == i))), &even);
        let size = dot(&bare, &sign) / dot(&sign, &sign).max(f64::MIN_POSITIVE);
        (i, size, before - size * dot(&bare, &sign))
    });
    let (at, size, left) = tried.min_by(|a, b| a.2.total_cmp(&b.2))?;
    (before > 0.0 && left.max(0.0).sqrt() <= ALONE * before.sqrt()).then_some((at, size))
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// What is left of `a` once `b` is fitted to it.
fn without(a: &[f64], b: &[f64]) -> Vec<f64> {
    let part = dot(a, b) / dot(b, b).max(f64::MIN_POSITIVE);
    a.iter().zip(b).map(|(a, b)| a - part * b).collect()
}

/// A bow beyond what welding, plates and handling do together.
fn implausible(
    measured: &Measured,
    job: &Job,
    column: Column,
    offsets: &[f64],
    bow: &Bow,
    sd: f64,
) -> Option<OddReading> {
    let length = job.member.length_mm;
    // a web cut to the ordinates has what they aim at, one cut straight what is predicted
    let welded: Vec<f64> = match (column, job.wanted_camber) {
        (Column::Camber, Some(wanted)) => {
            let off =
                |[x, o]: &[f64; 2]| [*o, job.aimed_camber_mm(*x)].map(|mm| mm - wanted.offset_mm(*x, length));
            bow.profile.iter().flat_map(off).collect()
        }
        _ => bow.profile.iter().map(|[_, o]| *o).collect(),
    };
    let spread = bow.profile_2s_mm.iter().copied().fold(0.0, f64::max) / SPAN;
    let surprise = DEVIATIONS * spread.hypot(sd);
    let others = PLATE_AND_HANDLING * length;
    let low = welded.iter().copied().fold(0.0, f64::min) - surprise - others;
    let high = welded.iter().copied().fold(0.0, f64::max) + surprise + others;
    let fits = |mm: f64| (low..=high).contains(&mm);
    let (at, worst) = largest(offsets).filter(|(_, o)| !fits(*o))?;
    let name = column.name();
    let found = Message::of("{} at {}", [Part::Offset(worst), Part::Position(measured.x_mm[at])]);
    let mut why = Message::of(
        "a {} between {} and {}: what the welds are predicted to do, three deviations of it, and {} for plates and handling",
        [name.into(), Part::Offset(low), Part::Offset(high), Part::Offset(others)],
    );
    let (unit, _) = measured.head(column)?;
    let raw = largest(offsets)?.1;
    if let Some(other) = other_unit(unit, raw, |mm| fits(mm) && mm.abs() >= FINEST_MM) {
        why = why.and(". ").then(is_meant(name, other, reading_in(unit, other, raw)));
    }
    if let Some(sag) = own_sag(measured, job, column) {
        let lying = ". Lying on its ends it sags by {} of its own weight: note `lay on` and `up`";
        why = why.then(Message::of(lying, [Part::Offset(sag)]));
    }
    Some(OddReading::new(name, found, why.and(". Read it again"), measured.cell(column, at)))
}

/// What its own weight does to the bow while it lies on its ends, mm, if the file does not say how it lay.
pub(crate) fn own_sag(measured: &Measured, job: &Job, column: Column) -> Option<f64> {
    if measured.front.lay_on_mm.is_some() {
        return None;
    }
    let up = match column {
        Column::Camber => Up::Inner,
        _ => Up::Near,
    };
    let length = job.member.length_mm;
    own_weight_sag_mm(&job.member, [0.0, length], up, &[0.5 * length]).ok()?.first().copied()
}

/// The way to say that odd readings stand.
const CHECKED: &str = "# readings: checked, once they were read again";

/// What is odd about readings.
#[derive(Debug, Clone, PartialEq)]
pub struct OddReading {
    /// The column.
    pub column: &'static str,
    /// What is odd.
    pub found: Message,
    /// What would be usual.
    pub usual: Message,
    /// The head as it may be meant.
    meant: Option<String>,
    /// Where it stands in the file.
    place: Option<Range<usize>>,
}

impl OddReading {
    pub(super) const fn new(
        column: &'static str,
        found: Message,
        usual: Message,
        place: Option<Range<usize>>,
    ) -> Self {
        Self { column, found, usual, meant: None, place }
    }

    /// The same, where another head may be meant.
    pub(super) fn meant(self, head: String) -> Self {
        Self { meant: Some(head), ..self }
    }

    /// It as a complaint.
    pub(super) fn asked(&self, system: System) -> Placed {
        let problem = Problem::new(self.column, self.found.in_units(system), self.usual.in_units(system));
        let right = self.meant.as_ref().map_or(CHECKED.to_owned(), |head| format!("{head}, or {CHECKED}"));
        (problem.right(right), self.place.clone())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn arc(n: usize, top: f64) -> (Vec<f64>, Vec<f64>) {
        let x: Vec<f64> = (0..n).map(|i| 9e3 * i as f64 / (n - 1) as f64).collect();
        let o = x.iter().map(|x| 4.0 * top * x * (9e3 - x) / 81e6).collect();
        (x, o)
    }

    #[test]
    fn an_odd_reading_is_found_and_a_kink_or_a_wave_is_none() {
        for n in [6, 7, 10, 19] {
            for i in 1..n - 1 {
                let (x, mut o) = arc(n, -12.0);
                o[i] += 18.0;
                let found = stands_off(&x, &o).unwrap_or_else(|| panic!("{n} stations, {i}"));
                println!("{n} stations, number {i}: off by {:.2} mm, 18 wanted", found.1);
                assert!(found.0 == i && (found.1 - 18.0).abs() < 1e-6, "{found:?}");
                let (x, o) = arc(n, 0.0);
                let kink: Vec<f64> = x.iter().map(|v| (v - x[i]).abs() * 0.01).collect();
                assert_eq!(stands_off(&x, &kink), None, "a kink at {i} of {n}");
                assert_eq!(stands_off(&x, &o), None, "nothing is odd about nothing");
            }
            let (x, _) = arc(n, 0.0);
            let wave: Vec<f64> = x.iter().map(|v| 14.0 * (std::f64::consts::TAU * v / 9e3).sin()).collect();
            assert_eq!(stands_off(&x, &wave), None, "an S of {n} stations");
        }
    }
}
