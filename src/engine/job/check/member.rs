//! The member: length, steel, depth, and its three rows of plates.

use super::{pieces, plates, steel};
use crate::input::Hint;
use crate::input::findings::{Bounds, Findings, Lines, exact, mm, within};
use crate::job::file::{FlangeShape, MemberShape, WebShape};
use crate::member::{FlangePiece, Member, Profile, WebPiece};
use crate::prediction::field::ranges::{self, POINTS_APART_MM, SAME_PLACE_MM, STEEPEST};
use crate::units::Length;

const LENGTH: Bounds = within("a member length", &ranges::LENGTH_MM, "0.1 m to 100 m", "mm");
const DEPTH: Bounds = within("a clear web depth", &ranges::DEPTH_MM, "50 mm to 5 m", "mm");
const THICKNESS: Bounds = within("a plate thickness", &ranges::THICKNESS_MM, "1 mm to 200 mm", "mm");
const WIDTH: Bounds = within("a flange width", &ranges::WIDTH_MM, "20 mm to 2 m", "mm");
const GAP: Bounds = within("a root gap", &ranges::GAP_MM, "0 mm to 10 mm", "mm");

/// Points of a depth profile at most (a choice).
const MOST_POINTS: usize = 100;

/// What of the member is sound.
pub(super) struct Sound {
    /// Length, mm.
    pub length_mm: Option<f64>,
    /// Root gap, mm.
    pub gap_mm: f64,
    /// The member, if all of it is.
    pub member: Option<Member>,
}

/// Checks and builds the member.
pub(super) fn member(shape: &MemberShape, findings: &mut Findings) -> Sound {
    let length_mm = findings.length("member.length", shape.length, &LENGTH);
    let steel = steel::steel(&shape.steel, findings);
    let gap = shape.fit_up_gap.map_or(Some(0.0), |gap| findings.length("member.fit_up_gap", gap, &GAP));
    let depth = depth(&shape.depth, length_mm, findings);
    let web = web(shape, length_mm, findings);
    let outer = flange("member.outer_flange", &shape.outer_flange, length_mm, findings);
    let inner = flange("member.inner_flange", &shape.inner_flange, length_mm, findings);
    let member = || {
        Some(Member {
            length_mm: length_mm?,
            depth: depth?,
            web: web?,
            outer_flange: outer?,
            inner_flange: inner?,
            steel: steel?,
        })
    };
    Sound { length_mm, gap_mm: gap.unwrap_or(0.0), member: member() }
}

fn depth(points: &[(Length, Length)], length_mm: Option<f64>, findings: &mut Findings) -> Option<Profile> {
    let path = "member.depth";
    let before = findings.0.len();
    if !(2..=MOST_POINTS).contains(&points.len()) {
        let wanted = format!("2 to {MOST_POINTS} points, the first at 0 and the last at the member's length");
        let end = exact(length_mm.unwrap_or(9000.0));
        let line = format!("depth = [[\"0 m\", \"400 mm\"], [\"{end}\", \"760 mm\"]]");
        findings.push_hint(path, format!("{} points", points.len()), wanted, Hint::Example(line));
        return None;
    }
    let mut checked: Vec<(f64, f64)> = Vec::with_capacity(points.len());
    for (at, (x, d)) in points.iter().enumerate() {
        let place = format!("{path}[{at}]");
        findings.length(format!("{place}[1]"), *d, &DEPTH);
        let (x, d) = (x.value(), d.value());
        if x.is_nan() {
            findings.push(format!("{place}[0]"), "no number", "a place along the member");
        }
        if let Some(&(last_x, last_d)) = checked.last() {
            if x - last_x < POINTS_APART_MM {
                let wanted = format!("a place at least 1 mm beyond the point before it ({})", mm(last_x));
                findings.push_hint(format!("{place}[0]"), mm(x), wanted, Hint::Nothing);
            } else if ((d - last_d) / (x - last_x)).abs() > STEEPEST {
                let found = format!("a step from {} to {} within {}", mm(last_d), mm(d), mm(x - last_x));
                let wanted = "a taper of at most 45°; steeper is outside what this model covers";
                findings.push_hint(&place, found, wanted, Hint::Nothing);
            }
        } else if x.abs() > SAME_PLACE_MM {
            let hint = Hint::Value("\"0 mm\"".to_owned());
            findings.push_hint(format!("{place}[0]"), mm(x), "the first point at the start end, 0 mm", hint);
        }
        checked.push((x, d));
    }
    if let (Some(length), Some(last)) = (length_mm, checked.last_mut()) {
        let told = findings.0[before..].iter().any(|problem| problem.path.ends_with("[0]"));
        if !told && (last.0 - length).abs() > SAME_PLACE_MM {
            let wanted = format!("the last point at the finish end, {}", mm(length));
            let (place, end) = (format!("{path}[{}][0]", points.len() - 1), format!("\"{}\"", exact(length)));
            findings.push_hint(place, mm(last.0), wanted, Hint::Value(end));
        }
        last.0 = length;
    }
    if let Some(first) = checked.first_mut() {
        first.0 = 0.0;
    }
    (findings.0.len() == before && length_mm.is_some()).then(|| Profile::new(checked))
}

fn web(shape: &MemberShape, length_mm: Option<f64>, findings: &mut Findings) -> Option<Vec<WebPiece>> {
    let rows: Vec<_> = shape.web.iter().map(|p| (p.from, p.to)).collect();
    let ends = pieces::ends("member.web", &rows, length_mm, findings);
    let splices: Vec<_> = shape.web.iter().map(|p| (p.splice.as_ref(), p.thickness.value())).collect();
    let splices = pieces::splices("member.web", &splices, findings);
    let mut size = |(i, p): (usize, &WebShape)| {
        let path = format!("member.web[{i}]");
        let mut at = Lines::of(&path, findings);
        let comes = plates::web(&mut at, p);
        (at.bounded("thickness", p.thickness, &THICKNESS), comes)
    };
    let sizes: Vec<_> = shape.web.iter().enumerate().map(&mut size).collect();
    let sized = ends?.into_iter().zip(sizes).zip(splices?);
    sized
        .map(|(((from_mm, to_mm), (thickness, comes)), splice)| {
            Some(WebPiece { from_mm, to_mm, thickness_mm: thickness?, splice, comes })
        })
        .collect()
}

fn flange(
    path: &str,
    shape: &[FlangeShape],
    length_mm: Option<f64>,
    findings: &mut Findings,
) -> Option<Vec<FlangePiece>> {
    let rows: Vec<_> = shape.iter().map(|p| (p.from, p.to)).collect();
    let ends = pieces::ends(path, &rows, length_mm, findings);
    let splices: Vec<_> = shape.iter().map(|p| (p.splice.as_ref(), p.thickness.value())).collect();
    let splices = pieces::splices(path, &splices, findings);
    let mut size = |(i, p): (usize, &FlangeShape)| {
        let path = format!("{path}[{i}]");
        let mut at = Lines::of(&path, findings);
        let width = at.bounded("width", p.width, &WIDTH);
        let comes = plates::strip(&mut at, p);
        (width, at.bounded("thickness", p.thickness, &THICKNESS), comes)
    };
    let sizes: Vec<_> = shape.iter().enumerate().map(&mut size).collect();
    let sized = ends?.into_iter().zip(sizes).zip(splices?);
    sized
        .map(|(((from_mm, to_mm), (width, thickness, comes)), splice)| {
            Some(FlangePiece { from_mm, to_mm, width_mm: width?, thickness_mm: thickness?, splice, comes })
        })
        .collect()
}
