//! What readings must hold to be those of the member: stations that reach its ends, sizes that a member can have, supports and
//! a string that bear. What breaks it is refused; a unit that would mend it is named.

use super::columns::{Column, Measured};
use crate::readings::Placed;
use weldbow_engine::input::{Hint, Problem};
use weldbow_engine::prediction::Job;
use weldbow_engine::straighten::shape::{LARGEST_OFFSET, REACH, SUPPORTS_APART, string_sag_mm};
use weldbow_engine::units::{Kind, Message, Part, System, show};

/// A station this far beyond an end is the end: a tape is read to the centimetre, and 24 ft 6 in are 7.4676 m (choice), mm.
pub(super) const BEYOND_MM: f64 = 5.0;
/// Largest sag of a string over its length: a longer one is not known well enough to be taken out (choice).
const LARGEST_SAG: f64 = 1.0 / 200.0;
/// Units that readings are taken in.
const UNITS: [&str; 5] = ["mm", "cm", "m", "in", "ft"];

/// Everything that the readings break.
pub(super) fn broken(measured: &Measured, job: &Job) -> Vec<Placed> {
    let mut out = Vec::new();
    let reached = stations(measured, job, &mut out);
    if reached {
        for (column, readings) in bows(measured) {
            offsets(measured, job, column, readings, &mut out);
        }
    }
    toes(measured, job, &mut out);
    lay(measured, job, &mut out);
    out
}

/// Columns of a bow that was measured.
pub(super) fn bows(measured: &Measured) -> impl Iterator<Item = (Column, &[f64])> {
    [(Column::Camber, &measured.camber_mm), (Column::Sweep, &measured.sweep_mm)]
        .into_iter()
        .filter_map(|(column, readings)| Some((column, readings.as_deref()?)))
}

/// Another unit of a column in which a size (mm) would fit.
pub(crate) fn other_unit(written: &str, size_mm: f64, fits: impl Fn(f64) -> bool) -> Option<&'static str> {
    let of = |name: &str| Kind::Length.unit(name);
    let number = of(written)?.of_engine(size_mm);
    UNITS
        .into_iter()
        .filter(|unit| *unit != written)
        .find(|unit| of(unit).is_some_and(|u| fits(u.to_engine(number))))
}

/// Whether all stations lie on the member and reach its ends.
fn stations(measured: &Measured, job: &Job, out: &mut Vec<Placed>) -> bool {
    let (length, system) = (job.member.length_mm, job.units);
    let (Some(&first), Some(&last)) = (measured.x_mm.first(), measured.x_mm.last()) else { return false };
    let place = |mm: f64| show::position(mm, system);
    let reach = REACH * length;
    let (unit, head) = measured.head(Column::X).unwrap_or(("m", 0..0));
    let meant = other_unit(unit, last, |x: f64| (x - length).abs() <= reach);
    let (found, wanted, at) = if let Some(off) =
        measured.x_mm.iter().position(|x| !(-BEYOND_MM..=length + BEYOND_MM).contains(x))
    {
        let x = measured.x_mm[off];
        let beyond = show::offset((x - length).max(-x), system);
        let found = format!("a station at {}, {beyond} beyond the end", place(x));
        (found, on_it(length, system), measured.cell(Column::X, off))
    } else if first > reach || last < length - reach {
        let found =
            format!("stations from {} to {} of a member of {}", place(first), place(last), place(length));
        let wanted = format!(
            "both ends read, to within {} (2 % of the length): the limits are those of the whole member",
            show::offset(reach, system)
        );
        let short = if first > reach { 0 } else { measured.x_mm.len() - 1 };
        (found, wanted, measured.cell(Column::X, short))
    } else {
        return true;
    };
    out.push(match meant {
        Some(other) => {
            let end = place(reading_in(unit, other, last));
            let asked = format!("{wanted}. In {other} they would end at {end}: is `x [{other}]` meant?");
            (Problem::new("x", found, asked).right(format!("x [{other}]")), Some(head))
        }
        None => (Problem::new("x", found, wanted).hint(Hint::Nothing), at),
    });
    false
}

/// A length read in one unit, taken in another, mm.
pub(super) fn reading_in(unit: &str, other: &str, size_mm: f64) -> f64 {
    match (Kind::Length.unit(unit), Kind::Length.unit(other)) {
        (Some(unit), Some(other)) => other.to_engine(unit.of_engine(size_mm)),
        _ => size_mm,
    }
}

/// Offsets from the line through the end stations, which the readings may be far from.
pub(super) fn from_chord(x_mm: &[f64], readings: &[f64]) -> Vec<f64> {
    let (Some(&x0), Some(&x1)) = (x_mm.first(), x_mm.last()) else { return Vec::new() };
    let (Some(&o0), Some(&o1)) = (readings.first(), readings.last()) else { return Vec::new() };
    x_mm.iter().zip(readings).map(|(x, o)| o - o0 - (o1 - o0) * (x - x0) / (x1 - x0)).collect()
}

fn offsets(measured: &Measured, job: &Job, column: Column, readings: &[f64], out: &mut Vec<Placed>) {
    let (length, system) = (job.member.length_mm, job.units);
    let most = LARGEST_OFFSET * length;
    let offsets = from_chord(&measured.x_mm, readings);
    let Some((at, worst)) = largest(&offsets).filter(|(_, o)| o.abs() > most) else { return };
    let (unit, head) = measured.head(column).unwrap_or(("mm", 0..0));
    let name = column.name();
    let found = format!("{} off the line through the ends", show::offset(worst, system));
    let wanted = format!("offsets of at most {}, a twentieth of the length", show::offset(most, system));
    out.push(match other_unit(unit, worst, |mm| mm.abs() <= most) {
        Some(other) => {
            let meant = is_meant(name, other, reading_in(unit, other, worst));
            let asked = format!("{wanted}. {}", meant.in_units(system));
            (Problem::new(name, found, asked).right(format!("{name} [{other}]")), Some(head))
        }
        None => (Problem::new(name, found, wanted).hint(Hint::Nothing), measured.cell(column, at)),
    });
}

/// The question whether a column is in another unit, in which a reading would be of that size.
pub(super) fn is_meant(name: &'static str, other: &'static str, size_mm: f64) -> Message {
    let head = format!("{name} [{other}]");
    Message::of("In {} it would be {}: is `{}` meant?", [other.into(), Part::Offset(size_mm), head.into()])
}

/// The largest by size, and its place.
pub(super) fn largest(values: &[f64]) -> Option<(usize, f64)> {
    values.iter().copied().enumerate().max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))
}

fn toes(measured: &Measured, job: &Job, out: &mut Vec<Placed>) {
    for toes in &measured.toes {
        let half = 0.5 * job.member.plates_at(toes.x_mm).flange_mm(toes.seam).0;
        let row = measured.x_mm.iter().position(|x| x.total_cmp(&toes.x_mm).is_eq());
        for (side, value) in [toes.near_mm, toes.far_mm].into_iter().enumerate() {
            if value.abs() <= half {
                continue;
            }
            let column = Column::Toe(toes.seam as usize, side);
            let size = |mm: f64| show::offset(mm, job.units);
            let found = format!("{} on a flange {} wide", size(value), size(2.0 * half));
            let wanted = format!("at most {}, half the width of the flange there", size(half));
            out.push((
                Problem::new(column.name(), found, wanted),
                row.and_then(|row| measured.cell(column, row)),
            ));
        }
    }
}

/// What the piece lay on, and the string.
fn lay(measured: &Measured, job: &Job, out: &mut Vec<Placed>) {
    let (length, system) = (job.member.length_mm, job.units);
    let place = |mm: f64| show::position(mm, system);
    if let Some([from, to]) = measured.front.lay_on_mm {
        let bears = from >= 0.0 && to <= length && to - from >= SUPPORTS_APART * length;
        if !bears {
            let found = format!("supports at {} and {}", place(from), place(to));
            let wanted = format!("{}, at least a tenth of the length apart", on_it(length, system));
            out.push((Problem::new("lay on", found, wanted), measured.word("lay on")));
        }
    }
    if let Some((weight, pull)) = measured.front.string {
        let sag = string_sag_mm(0.5 * length, length, weight, pull);
        let most = LARGEST_SAG * length;
        if sag > most {
            let found = format!("a string that sags by {}", show::offset(sag, system));
            let wanted =
                format!("one pulled until it sags by at most {} over the member", show::offset(most, system));
            out.push((Problem::new("string", found, wanted), measured.word("string")));
        }
    }
}

fn on_it(length_mm: f64, system: System) -> String {
    format!("places on the member of the job, which is {} long", show::position(length_mm, system))
}
