//! A row of plate pieces: in order, touching, and covering the member from end to end.

use crate::input::Hint;
use crate::input::findings::{Bounds, Findings, Lines, bounds, exact, mm};
use crate::job::file::{MadeShape, SpliceShape};
use crate::member::{Made, Preparation, Splice};
use crate::prediction::field::ranges::{SAME_PLACE_MM, SHORTEST_MM};
use crate::shrinkage::cross::OPEN_MM;
use crate::units::Length;

/// Pieces in one row at most (a choice).
const MOST_PIECES: usize = 50;

/// Thickest joint welded with square edges when the job does not say, mm (common practice, no source).
const SQUARE_UP_TO_MM: f64 = 8.0;

/// Root gap of a single V when the job does not say, mm (common practice, no source).
const SINGLE_V_GAP_MM: f64 = 2.0;

const GAP: Bounds = bounds("a splice gap", 0.0, 20.0, "0 mm to 20 mm", "mm");
const OPEN: Bounds = bounds("a length of open seam", 0.0, 5000.0, "0 mm to 5 m", "mm");
const HEAT: Bounds = bounds("a net heat input of a splice", 20.0, 50_000.0, "0.02 kJ/mm to 50 kJ/mm", "J/mm");

/// Start and end of each piece, mm; `None` if the row does not cover the member.
pub(crate) fn ends(
    path: &str,
    pieces: &[(Option<Length>, Option<Length>)],
    length_mm: Option<f64>,
    findings: &mut Findings,
) -> Option<Vec<(f64, f64)>> {
    let before = findings.0.len();
    if !(1..=MOST_PIECES).contains(&pieces.len()) {
        let wanted = format!("1 to {MOST_PIECES} pieces of plate");
        findings.push(path, format!("{} pieces", pieces.len()), wanted);
        return None;
    }
    let length = length_mm?;
    let mut ends = Vec::with_capacity(pieces.len());
    let mut start = 0.0;
    for (at, (from, to)) in pieces.iter().enumerate() {
        let place = format!("{path}[{at}]");
        check_start(&place, *from, start, findings);
        let last = at + 1 == pieces.len();
        let end = match to.map(Length::value) {
            Some(to) => to,
            None if last => length,
            None => {
                let wanted = "`to` on every piece but the last, which ends the member";
                findings.push(format!("{place}.to"), "nothing", wanted);
                return None;
            }
        };
        let end = if (end - length).abs() <= SAME_PLACE_MM { length } else { end };
        if end > length || end.is_nan() {
            let wanted = format!("an end inside the member, which is {} long", mm(length));
            let found = format!("{}: the piece is outside the member", mm(end));
            let right = format!("to = \"{}\", or no `to` on the last piece", exact(length));
            findings.push_with(format!("{place}.to"), found, wanted, right);
            return None;
        } else if end - start < SHORTEST_MM {
            let found = format!("{} for a piece that starts at {}", mm(end), mm(start));
            let wanted = format!("an end at least {SHORTEST_MM} mm beyond its start, or one piece less");
            let path = if to.is_some() { format!("{place}.to") } else { place };
            findings.push_hint(path, found, wanted, Hint::Nothing);
        } else if last && end < length {
            let found = format!("{}: no plate from there to {}", mm(end), mm(length));
            let wanted = "a last piece that ends the member";
            findings.push_with(format!("{place}.to"), found, wanted, "leave `to` out");
        }
        ends.push((start, end));
        start = end;
    }
    (findings.0.len() == before).then_some(ends)
}

fn check_start(place: &str, from: Option<Length>, start: f64, findings: &mut Findings) {
    let Some(from) = from.map(Length::value) else { return };
    let found = if from - start > SAME_PLACE_MM {
        format!("{}: a gap of {} before this piece", mm(from), mm(from - start))
    } else if from - start < -SAME_PLACE_MM {
        format!("{}: an overlap of {} with the piece before", mm(from), mm(start - from))
    } else {
        return;
    };
    let wanted = format!("{}, where the piece before ends; `from` may be left out", mm(start));
    findings.push_with(format!("{place}.from"), found, wanted, format!("from = \"{}\"", exact(start)));
}

/// Splice at the finish end of each piece, from what is written there and the thickness (mm) of the thinner plate, as in
/// [`Member::plates_meeting_at`](crate::member::Member::plates_meeting_at).
pub(crate) fn splices(
    path: &str,
    pieces: &[(Option<&SpliceShape>, f64)],
    findings: &mut Findings,
) -> Option<Vec<Option<Splice>>> {
    let before = findings.0.len();
    let mut splices = Vec::with_capacity(pieces.len());
    for (at, (shape, thickness)) in pieces.iter().enumerate() {
        let place = format!("{path}[{at}].splice");
        let next = pieces.get(at + 1).map(|next| next.1);
        if next.is_none() && shape.is_some() {
            let wanted = "a splice only where another piece follows";
            findings.push_with(&place, "a splice on the last piece", wanted, "leave `splice` out");
        }
        splices.push(next.map(|next| splice(&mut Lines::of(&place, findings), *shape, thickness.min(next))));
    }
    (findings.0.len() == before).then_some(splices)
}

fn splice(at: &mut Lines<'_>, shape: Option<&SpliceShape>, thickness_mm: f64) -> Splice {
    let shape = shape.cloned().unwrap_or_default();
    let usual = if thickness_mm <= SQUARE_UP_TO_MM { Preparation::Square } else { Preparation::SingleV };
    let preparation = shape.preparation.unwrap_or(usual);
    // square edges over a backing stand as far apart as the plate is thick (AWS D1.1 B-L1a; memory)
    let usual_gap = match preparation {
        Preparation::Square => 0.0,
        Preparation::SquareBacked => thickness_mm.min(GAP.high),
        Preparation::SingleV | Preparation::DoubleV => SINGLE_V_GAP_MM,
    };
    let gap_mm = at.one("gap", shape.gap, usual_gap, &GAP);
    at.given("heat_input", shape.heat_input, &HEAT);
    let after = shape.made == Some(MadeShape::AfterAssembly);
    let open = shape.open.and_then(|open| at.bounded("open", open, &OPEN));
    if shape.open.is_some() && !after {
        let wanted = "`open` only with `made = \"after-assembly\"`: loose plates have no seam yet";
        let right = "made = \"after-assembly\"";
        at.push_with("open", "a length of open seam", wanted, right);
    }
    Splice {
        made: if after { Made::After { open_mm: open.unwrap_or(OPEN_MM) } } else { Made::Before },
        preparation,
        gap_mm,
        heat_j_per_mm: shape.heat_input.map(|heat| heat.value()),
    }
}
