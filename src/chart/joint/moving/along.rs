//! What is left along the joint: angles, narrowing, force.

use super::drawn::Drawn;
use crate::axes::{Panel, Range};
use crate::canvas::{At, BELOW_TITLE, Canvas, Heading, MARGIN, draw};
use crate::joint::worded::angle;
use crate::measure::Unit;
use crate::spread::spread;
use crate::theme::{HEADING, LABEL, series};
use crate::{Done, Picture};
use weldbow_engine::moving_arc::Along;
use weldbow_engine::units::System;

const SIZE: (f64, f64) = (900.0, 690.0);
const LEFT: f64 = 92.0;
const RIGHT: f64 = 690.0;
/// Height of a panel, and from one to the next, px.
const TALL: f64 = 140.0;
const NEXT: f64 = 196.0;

/// A line of a panel.
struct Line {
    name: String,
    read: fn(&Along) -> f64,
    pass: usize,
}

pub(super) fn along(drawn: &Drawn<'_>) -> Done<Picture> {
    let what = format!("what the arc left along the {}", drawn.place());
    let last = drawn.passes().last().and_then(|pass| pass.amid()).and_then(|slice| slice.shape);
    let found = last.map_or_else(String::new, |shape| {
        format!("cup {}, tilt {}", angle(shape.cup_rad), angle(shape.tilt_rad.unwrap_or(0.0)))
    });
    let heading = Heading {
        name: "moving-along",
        job: &drawn.job.title,
        what: &what,
        subtitle: format!("Cold, amid the length: {found}. {}.", drawn.case()),
        description: format!(
            "Cup and tilt, narrowing and force against the place along the joint. Amid the length: {found}."
        ),
    };
    let degree = Unit { name: "°", mm: 1f64.to_radians(), decimals: 2 };
    let (kilo, offset) = force_and_offset(drawn.system);
    draw(&heading, SIZE, |paper| {
        let mut top = BELOW_TITLE + 28.0;
        let angles = lines(drawn, &[("cup", cup), ("tilt", tilt)]);
        panel(paper, drawn, "Angles", (top, degree, "angle"), &angles)?;
        top += NEXT;
        let narrowing = lines(drawn, &[("", narrowing)]);
        panel(paper, drawn, "Narrowing of the flange", (top, offset, "width lost"), &narrowing)?;
        top += NEXT;
        let forces = lines(drawn, &[("", force)]);
        let force = panel(paper, drawn, "Shrinkage force", (top, kilo, "force"), &forces)?;
        let whole = Unit { decimals: 0, ..Unit::offset(drawn.system) };
        force.x_axis(paper, whole, "place, from where the arc starts")
    })
}

fn cup(slice: &Along) -> f64 {
    slice.shape.map_or(0.0, |shape| shape.cup_rad)
}

fn tilt(slice: &Along) -> f64 {
    slice.shape.and_then(|shape| shape.tilt_rad).unwrap_or(0.0)
}

fn narrowing(slice: &Along) -> f64 {
    slice.shape.map_or(0.0, |shape| shape.narrowing_mm)
}

const fn force(slice: &Along) -> f64 {
    slice.shrinkage.force_n
}

/// Units of force, and of narrowing.
fn force_and_offset(system: System) -> (Unit, Unit) {
    let (name, mm, decimals) = system.pick(("kN", 1000.0, 0), ("kip", 4448.222, 1));
    (Unit { name, mm, decimals }, Unit::offset(system).finer())
}

/// What is read of each place along the joint.
type Reads = fn(&Along) -> f64;

/// Every quantity after every pass.
fn lines(drawn: &Drawn<'_>, read: &[(&str, Reads)]) -> Vec<Line> {
    let count = drawn.passes().len();
    let name = |what: &str, pass: usize| match (what.is_empty(), count) {
        (true, 1) => String::new(),
        (true, _) => format!("pass {}", pass + 1),
        (false, 1) => what.to_owned(),
        (false, _) => format!("{what}, pass {}", pass + 1),
    };
    (0..count)
        .flat_map(|pass| read.iter().map(move |&(what, read)| Line { name: name(what, pass), read, pass }))
        .collect()
}

fn panel(
    paper: &Canvas<'_>,
    drawn: &Drawn<'_>,
    title: &str,
    (top, unit, axis): (f64, Unit, &str),
    lines: &[Line],
) -> Done<Panel> {
    let values = |line: &Line| -> Vec<(f64, f64)> {
        drawn.passes()[line.pass].along.iter().map(|slice| (slice.x_mm, (line.read)(slice))).collect()
    };
    let y = Range::around(lines.iter().flat_map(values).map(|p| p.1), 1e-6 * unit.mm);
    let x = Range::to(drawn.travel().length_mm);
    let panel = Panel::new((LEFT, RIGHT), (top, top + TALL), x, y);
    paper.text((MARGIN, top - 16.0), At::Left, title, HEADING)?;
    panel.y_axis(paper, unit, axis)?;
    let mut ends = Vec::new();
    for (n, line) in lines.iter().enumerate() {
        let points = values(line);
        paper.line(&panel.path(points.iter().copied()), series(n))?;
        ends.push(panel.py(points.last().map_or(0.0, |p| p.1)));
    }
    let places = spread(&ends, 15.0, top, top + TALL);
    for (n, (line, y)) in lines.iter().zip(places).enumerate() {
        let amid = drawn.passes()[line.pass].amid().map_or(0.0, line.read);
        let colon = if line.name.is_empty() { "" } else { ": " };
        let apart = if unit.name == "°" { "" } else { " " };
        let text = format!("{}{colon}{}{apart}{}", line.name, unit.bare(amid), unit.name);
        paper.text((RIGHT + 8.0, y), At::Left, &text, LABEL.in_ink(series(n).ink))?;
    }
    Ok(panel)
}
