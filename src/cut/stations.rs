//! Where the edges of a web are given.

use crate::figures::{as_written_mm, tape_mm};
use crate::web::{Edges, Web, WebPlate};
use weldbow_engine::units::System;

/// Farthest that an edge may lie from the straight line between two stations, as written, mm.
pub const WITHIN_MM: f64 = 0.1;
/// What of it the stations may use up; the rest is left to the rounding of what is written, mm.
const STRAIGHT_MM: f64 = 0.08;
/// Most parts that a stretch between two fixed stations is cut into (a choice: no bow needs as many).
const MOST_PARTS: u32 = 400;
/// Two stations nearer than this are one, mm.
const SAME_MM: f64 = 0.5;

/// Which stations are wanted; ends, splices and kinks are always among them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stations {
    /// As few equal parts as keep straight lines between them within [`WITHIN_MM`].
    Needed,
    /// So many equal parts of the whole web.
    Parts(u32),
    /// One every so many mm from the start of the web.
    Every(f64),
}

/// A place on the web and its edges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Station {
    /// Number of the plate it is on.
    pub plate: usize,
    /// Distance from the start of the web as laid together, mm.
    pub along_mm: f64,
    /// Distance from the plate's own start, mm.
    pub own_mm: f64,
    /// Edges there.
    pub edges: Edges,
    /// What is there: "start", "finish", "splice", "kink", or nothing.
    pub what: &'static str,
}

/// Stations of a web from start to finish; a splice has one on either plate.
pub fn stations(web: &Web, wanted: Stations, system: System) -> Vec<Station> {
    let last = web.plates.len();
    let of = |plate: &WebPlate| {
        let fixed = fixed(plate, last);
        let inside: Vec<f64> = match wanted {
            Stations::Needed => needed(plate, &fixed, system),
            Stations::Parts(parts) => between_ends(plate, web.length_mm() / f64::from(parts.max(1)), system),
            Stations::Every(step) => between_ends(plate, step, system),
        };
        let mut all = fixed.clone();
        let free = |own: &f64| fixed.iter().all(|(at, _)| (at - own).abs() > SAME_MM);
        all.extend(inside.into_iter().filter(free).map(|own| (own, "")));
        all.sort_by(|a, b| a.0.total_cmp(&b.0));
        all.into_iter().map(|(own, what)| station(plate, own, what)).collect::<Vec<_>>()
    };
    web.plates.iter().flat_map(of).collect()
}

fn station(plate: &WebPlate, own_mm: f64, what: &'static str) -> Station {
    Station { plate: plate.number, along_mm: plate.start_mm + own_mm, own_mm, edges: plate.at(own_mm), what }
}

/// Ends and kinks of a plate.
fn fixed(plate: &WebPlate, last: usize) -> Vec<(f64, &'static str)> {
    let start = if plate.number == 1 { "start" } else { "splice" };
    let finish = if plate.number == last { "finish" } else { "splice" };
    let kinks = plate.kinks_mm.iter().map(|own| (*own, "kink"));
    std::iter::once((0.0, start)).chain(kinks).chain([(plate.length_mm, finish)]).collect()
}

/// A step along the whole web, on the tape.
fn between_ends(plate: &WebPlate, step_mm: f64, system: System) -> Vec<f64> {
    let tape = tape_mm(system);
    let step = step_mm.max(tape);
    let first = (plate.start_mm / step).floor();
    (0..)
        .map(|i| ((first + f64::from(i)) * step / tape).round() * tape - plate.start_mm)
        .skip_while(|own| *own <= 0.0)
        .take_while(|own| *own < plate.length_mm)
        .collect()
}

/// Equal parts of every stretch between fixed stations, as few as are needed, on the tape.
fn needed(plate: &WebPlate, fixed: &[(f64, &'static str)], system: System) -> Vec<f64> {
    let tape = tape_mm(system);
    let parted = |(from, to): (f64, f64), parts: u32| -> Vec<f64> {
        let place = |i: u32| from + (to - from) * f64::from(i) / f64::from(parts);
        // on the tape as it lies along the whole web
        let on_tape = |own: f64| ((own + plate.start_mm) / tape).round() * tape - plate.start_mm;
        (1..parts).map(|i| on_tape(place(i))).filter(|own| *own > from && *own < to).collect()
    };
    fixed
        .windows(2)
        .flat_map(|ends| {
            let stretch = (ends[0].0, ends[1].0);
            let near = |inside: &Vec<f64>| {
                let all = std::iter::once(stretch.0).chain(inside.iter().copied()).chain([stretch.1]);
                let table: Vec<(f64, Edges)> = all.map(|own| (own, plate.at(own))).collect();
                farthest(plate, &table) <= STRAIGHT_MM
            };
            let mut tried = (1..=MOST_PARTS).map(|parts| parted(stretch, parts));
            tried.find(near).unwrap_or_else(|| parted(stretch, MOST_PARTS))
        })
        .collect()
}

/// Farthest that an edge of the plate lies from the straight lines between places on it, mm.
fn farthest(plate: &WebPlate, table: &[(f64, Edges)]) -> f64 {
    let (Some(first), Some(last)) = (table.first(), table.last()) else { return 0.0 };
    let known = plate.along_mm.iter().filter(|own| **own > first.0 && **own < last.0);
    let mut below = 0;
    let mut most = 0.0_f64;
    for own in known {
        while table.get(below + 1).is_some_and(|next| next.0 < *own) {
            below += 1;
        }
        let (Some((a, from)), Some((b, to))) = (table.get(below), table.get(below + 1)) else { break };
        let part = (own - a) / (b - a);
        let at = plate.at(*own);
        let off = |from: f64, to: f64, is: f64| (from + part * (to - from) - is).abs();
        most = most.max(off(from.outer_mm, to.outer_mm, at.outer_mm));
        most = most.max(off(from.inner_mm, to.inner_mm, at.inner_mm));
    }
    most
}

/// Farthest that an edge lies from the straight lines between stations as they are written, rounding and all, mm.
pub fn straight_gap_mm(web: &Web, stations: &[Station], system: System) -> f64 {
    let written = |mm: f64| as_written_mm(mm, system);
    web.plates
        .iter()
        .map(|plate| {
            let table: Vec<(f64, Edges)> = stations
                .iter()
                .filter(|s| s.plate == plate.number)
                .map(|s| {
                    let edges = Edges {
                        outer_mm: written(s.edges.outer_mm),
                        inner_mm: written(s.edges.inner_mm),
                        ..s.edges
                    };
                    (written(s.along_mm) - plate.start_mm, edges)
                })
                .collect();
            farthest(plate, &table)
        })
        .fold(0.0, f64::max)
}
