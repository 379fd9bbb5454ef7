//! Whether what the job is welded with today lies inside what the shop has qualified.

use super::book::{Book, Entry};
use crate::job::file::JobFile;
use crate::job::procedures_used;
use crate::units::{Message, Part};
use crate::welding::{Arc, Procedure};

/// So much of a range counts as none.
const HAIR: f64 = 1e-6;

/// What of the job's procedures is outside the ranges of the book. A procedure is held to the entries of its process and wire, and of
/// these to the one it is nearest to; of one with a wire that the book does not have nothing is known.
pub(super) fn unqualified(file: &JobFile, book: &Book) -> Vec<Message> {
    procedures_used(file).iter().filter_map(|procedure| outside_of(procedure, book)).collect()
}

fn outside_of(procedure: &Procedure, book: &Book) -> Option<Message> {
    let [arc] = procedure.arcs.as_slice() else { return None };
    let same = |entry: &&Entry| entry.process == procedure.process && same_wire(&entry.arc, arc);
    let off = book.entries.iter().filter(same).map(|entry| (entry, off(entry, procedure, arc)));
    let (entry, off) = off.min_by_key(|(_, off)| off.len())?;
    let names = [procedure.name.clone().into(), entry.name.clone().into()];
    let said = Message::of("procedure {}: outside the qualified ranges of the shop's book ({})", names);
    let listed = off.into_iter().reduce(|said, one| said.and("; ").then(one))?;
    Some(said.and(": ").then(listed))
}

fn same_wire(a: &Arc, b: &Arc) -> bool {
    let near = |a: Option<f64>, b: Option<f64>| a.zip(b).is_some_and(|(a, b)| (a - b).abs() < HAIR);
    a.wires == b.wires && a.polarity == b.polarity && near(a.wire_diameter_mm, b.wire_diameter_mm)
}

/// What is set, its range, how it is said.
type Qualified<'a> = (f64, (f64, f64), &'a dyn Fn(f64) -> Part);

/// Every quantity outside its range, as "900 A, qualified 450 A to 700 A".
fn off(entry: &Entry, procedure: &Procedure, arc: &Arc) -> Vec<Message> {
    let amperes = |a: f64| Part::from(format!("{a:.0} A"));
    let volts = |v: f64| Part::from(format!("{v:.1} V"));
    let heat = entry.gross_heat_j_per_mm.unwrap_or((0.0, f64::INFINITY));
    let all: [Qualified<'_>; 4] = [
        (arc.current_a, entry.current_a, &amperes),
        (arc.voltage_v, entry.voltage_v, &volts),
        (procedure.travel_speed_mm_s, entry.speed_mm_s, &Part::Speed),
        (procedure.gross_heat_j_per_mm(), heat, &Part::Heat),
    ];
    let out = all.into_iter().filter(|(value, (low, high), _)| *value < low - HAIR || *value > high + HAIR);
    out.map(|(value, (low, high), said)| {
        Message::of("{}, qualified {} to {}", [said(value), said(low), said(high)])
    })
    .collect()
}
