//! The shape that stays, drawn larger.

use super::bands::grown_as;
use super::drawn::Drawn;
use super::mesh::part_ink;
use super::view::{JOIN, SKIN, View, outlines};
use super::worded::{angle, held, place};
use crate::canvas::{At, Heading, MARGIN, Point, SIZE, draw};
use crate::measure::Unit;
use crate::number::{number, round_down};
use crate::theme::{GHOST, HEADING, LABEL, SMALL};
use crate::{Done, Picture};

/// The largest displacement is drawn up to this long, px.
const LONGEST: f64 = 34.0;

pub(super) fn shape(drawn: &Drawn<'_>) -> Done<Picture> {
    let joint = &drawn.result.joint;
    let half = joint.flange_width_mm / 2.0;
    let window = [-half, -joint.flange_mm, half, joint.web_stub_mm];
    let view = View::fitted(window, (60.0, 96.0), (560.0, 390.0));
    let moved = &drawn.outcome.displaced_mm;
    let largest = moved.iter().map(|u| u[0].hypot(u[1])).fold(0.0, f64::max);
    let times = if largest < 1e-9 { 1.0 } else { round_down(LONGEST / (largest * view.scale)).max(1.0) };
    let last = drawn.result.passes.last();
    let found = last.map_or_else(String::new, |laid| {
        let numbers = &laid.section;
        let angles = numbers.cup_rad.zip(numbers.tilt_rad);
        angles.map_or_else(String::new, |(cup, tilt)| format!("cup {}, tilt {}", angle(cup), angle(tilt)))
    });
    let heading = Heading {
        name: "shape",
        job: &drawn.job.title,
        what: &format!("shape of the {}", place(drawn)),
        subtitle: format!("Cold: {found}. {}. Displacements drawn {} ×.", held(drawn), number(times, 0)),
        description: format!(
            "The joint before and after welding, displacements {} times larger: {found}.",
            number(times, 0)
        ),
    };
    let mesh = &drawn.outcome.mesh;
    let shown = &drawn.outcome.solid;
    let at = |n: usize| -> Point { view.at([0, 1].map(|c| mesh.nodes_mm[n][c] + times * moved[n][c])) };
    draw(&heading, SIZE, |paper| {
        for (element, _) in mesh.elements.iter().zip(shown).filter(|(_, shown)| **shown) {
            let nodes = [0, 1, 2, 3].map(|k| element.nodes[k]);
            let shape = grown_as(&nodes.map(|n| view.at(mesh.nodes_mm[n])), &nodes.map(at));
            paper.fill(&shape, part_ink(element.part), 1.0)?;
        }
        for (line, is_skin) in outlines(mesh, shown) {
            let before: Vec<Point> = line.iter().map(|n| view.at(mesh.nodes_mm[*n])).collect();
            let after: Vec<Point> = line.into_iter().map(at).collect();
            paper.line(&after, if is_skin { SKIN } else { JOIN })?;
            if is_skin {
                paper.line(&before, GHOST)?;
            }
        }
        view.sides(paper, 52.0)?;
        let unit = Unit::offset(drawn.system).finer();
        let mut y = 112.0;
        let left = 660.0;
        for laid in &drawn.result.passes {
            paper.text((left, y), At::Left, &format!("After step {}", laid.order), HEADING)?;
            let numbers = &laid.section;
            for (name, value) in [
                ("cup", numbers.cup_rad.map(angle)),
                ("tilt", numbers.tilt_rad.map(angle)),
                ("flange narrows", numbers.narrowing_mm.map(|mm| format!("{} {}", unit.bare(mm), unit.name))),
            ] {
                let Some(value) = value else { continue };
                y += 18.0;
                paper.text((left + 8.0, y), At::Left, name, LABEL)?;
                paper.text((SIZE.0 - MARGIN, y), At::Right, &value, LABEL)?;
            }
            y += 32.0;
        }
        paper.text((left, y), At::Left, "cup + toward the web,", SMALL)?;
        paper.text((left, y + 15.0), At::Left, "tilt + when the near half is higher", SMALL)
    })
}
