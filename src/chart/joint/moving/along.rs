//! What is left along the joint: angles, narrowing, force.

use super::drawn::Drawn;
use super::ended;
use crate::axes::{Panel, Range};
use crate::canvas::{At, BELOW_TITLE, Canvas, Heading, MARGIN, draw};
use crate::joint::worded::angle;
use crate::measure::Unit;
use crate::theme::HEADING;
use crate::{Done, Picture};
use weldbow_engine::moving_arc::Along;
use weldbow_engine::units::LBF_N;

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
    let last = drawn.passes().last().and_then(|pass| pass.amid()).and_then(|slice| slice.shape);
    let found = last.map_or_else(String::new, |shape| {
        format!("cup {}, tilt {}", angle(shape.cup_rad), angle(shape.tilt_rad.unwrap_or(0.0)))
    });
    let heading = Heading {
        name: "moving-along",
        job: &drawn.job.title,
        what: &format!("what the arc left along the {}", drawn.place()),
        subtitle: format!("Cold, amid the length: {found}. {}.", drawn.case()),
        description: format!(
            "Cup and tilt, narrowing and force against the place along the joint. Amid the length: {found}."
        ),
    };
    let degree = Unit { name: "°", mm: 1f64.to_radians(), decimals: 2 };
    let (name, mm, decimals) = drawn.system.pick(("kN", 1000.0, 0), ("kip", 1000.0 * LBF_N, 1));
    let kilo = Unit { name, mm, decimals };
    let offset = Unit::offset(drawn.system).finer();
    draw(&heading, SIZE, |paper| {
        let mut top = BELOW_TITLE + 28.0;
        let cup: Reads = |slice| slice.shape.map_or(0.0, |shape| shape.cup_rad);
        let tilt: Reads = |slice| slice.shape.and_then(|shape| shape.tilt_rad).unwrap_or(0.0);
        let angles = lines(drawn, &[("cup", cup), ("tilt", tilt)]);
        panel(paper, drawn, "Angles", (top, degree, "angle"), &angles)?;
        top += NEXT;
        let narrowing = lines(drawn, &[("", |slice| slice.shape.map_or(0.0, |shape| shape.narrowing_mm))]);
        panel(paper, drawn, "Narrowing of the flange", (top, offset, "width lost"), &narrowing)?;
        top += NEXT;
        let forces = lines(drawn, &[("", |slice| slice.shrinkage.force_n)]);
        let force = panel(paper, drawn, "Shrinkage force", (top, kilo, "force"), &forces)?;
        let whole = Unit { decimals: 0, ..Unit::offset(drawn.system) };
        force.x_axis(paper, whole, "place, from where the arc starts")
    })
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
    let named = |line: &Line| {
        let amid = drawn.passes()[line.pass].amid().map_or(0.0, line.read);
        let colon = if line.name.is_empty() { "" } else { ": " };
        let apart = if unit.name == "°" { "" } else { " " };
        (values(line), format!("{}{colon}{}{apart}{}", line.name, unit.bare(amid), unit.name))
    };
    ended::lines(paper, &panel, &lines.iter().map(named).collect::<Vec<_>>())?;
    Ok(panel)
}
