//! What is left along the joint: angles, narrowing, force.

use super::drawn::{DEGREE, Drawn};
use super::ended;
use crate::axes::{LEFT, Panel, Range};
use crate::canvas::{At, BELOW_TITLE, Canvas, Heading, MARGIN, Point, draw};
use crate::joint::worded::angle;
use crate::measure::Unit;
use crate::theme::HEADING;
use crate::{Done, Picture};
use weldbow_engine::moving_arc::{Along, PassTravelled};

const SIZE: (f64, f64) = (900.0, 690.0);
const RIGHT: f64 = 690.0;
/// Height of a panel, and from one to the next, px.
const TALL: f64 = 140.0;
const NEXT: f64 = 196.0;

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
    let kilo = Unit::force(drawn.system);
    let offset = Unit::offset(drawn.system).finer();
    draw(&heading, SIZE, |paper| {
        let mut top = BELOW_TITLE + 28.0;
        let cup: Reads = |slice| slice.shape.map_or(0.0, |shape| shape.cup_rad);
        let tilt: Reads = |slice| slice.shape.and_then(|shape| shape.tilt_rad).unwrap_or(0.0);
        panel(paper, drawn, "Angles", (top, DEGREE, "angle"), &[("cup", cup), ("tilt", tilt)])?;
        top += NEXT;
        let narrowing: Reads = |slice| slice.shape.map_or(0.0, |shape| shape.narrowing_mm);
        panel(paper, drawn, "Narrowing of the flange", (top, offset, "width lost"), &[("", narrowing)])?;
        top += NEXT;
        let force: Reads = |slice| slice.shrinkage.force_n;
        let force = panel(paper, drawn, "Shrinkage force", (top, kilo, "force"), &[("", force)])?;
        let whole = Unit { decimals: 0, ..Unit::offset(drawn.system) };
        force.x_axis(paper, whole, "place, from where the arc starts")
    })
}

/// What is read of each place along the joint.
type Reads = fn(&Along) -> f64;

/// Some quantities after every pass, each line named by its quantity, its pass and what it comes to amid the length.
fn panel(
    paper: &Canvas<'_>,
    drawn: &Drawn<'_>,
    title: &str,
    (top, unit, axis): (f64, Unit, &str),
    read: &[(&str, Reads)],
) -> Done<Panel> {
    let line = |k: usize, pass: &PassTravelled, (what, read): (&str, Reads)| {
        let name = match (what.is_empty(), drawn.passes().len()) {
            (true, 1) => String::new(),
            (true, _) => format!("pass {}: ", k + 1),
            (false, 1) => format!("{what}: "),
            (false, _) => format!("{what}, pass {}: ", k + 1),
        };
        let apart = if unit.name == "°" { "" } else { " " };
        let amid = unit.bare(pass.amid().map_or(0.0, read));
        let points = pass.along.iter().map(|slice| (slice.x_mm, read(slice))).collect();
        (points, format!("{name}{amid}{apart}{}", unit.name))
    };
    let passes = drawn.passes().iter().enumerate();
    let lines: Vec<(Vec<Point>, String)> =
        passes.flat_map(|(k, pass)| read.iter().map(move |read| line(k, pass, *read))).collect();
    let y = Range::around(lines.iter().flat_map(|line| &line.0).map(|p| p.1), 1e-6 * unit.mm);
    let x = Range::to(drawn.travel().length_mm);
    let panel = Panel::new((LEFT, RIGHT), (top, top + TALL), x, y);
    paper.text((MARGIN, top - 16.0), At::Left, title, HEADING)?;
    panel.y_axis(paper, unit, axis)?;
    ended::lines(paper, &panel, &lines)?;
    Ok(panel)
}
